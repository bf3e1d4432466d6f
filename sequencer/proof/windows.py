"""How far a measure may lie from its target and the joint still be good: the proof's own table.

What is fitted is good to 0.004 in (0.1 mm) in all (ours); the rest is common practice at the saw
and the bench, but for glass, which may come 5/64 in (2 mm) smaller (a glazier's guidance) and
1/32 in (0.8 mm) larger (ours).
"""

from __future__ import annotations

from collections.abc import Mapping
from fractions import Fraction

from msgspec import Struct

from sequencer.facts import Fact, Length, measures
from sequencer.facts import checks as told
from sequencer.lengths import Unit
from sequencer.plan import Checkpoint, Measure


class Window(Struct, frozen=True):
    """What is good below and above a target, in inches and in millimetres."""

    inch: tuple[Fraction, Fraction]
    mm: tuple[Fraction, Fraction]

    def of(self, unit: Unit) -> tuple[Fraction, Fraction]:
        return self.inch if unit == "in" else self.mm


def _window(inch: str, mm: str, sides: tuple[int, int] = (1, 1)) -> Window:
    return Window(
        (Fraction(inch) * sides[0], Fraction(inch) * sides[1]),
        (Fraction(mm) * sides[0], Fraction(mm) * sides[1]),
    )


def _uneven(inch: tuple[str, str], mm: tuple[str, str]) -> Window:
    return Window((Fraction(inch[0]), Fraction(inch[1])), (Fraction(mm[0]), Fraction(mm[1])))


_OVER = (0, 1)

FIT = _window("0.002", "0.05")
DEEP = _uneven(("1/128", "1/64"), ("0.2", "0.4"))
SHALLOW = _uneven(("1/64", "1/128"), ("0.4", "0.2"))
SHOULDER = _window("1/64", "0.5")
PLACED = _window("1/32", "1")
FRAME = _window("1/32", "1")
LIGHT = _window("1/64", "0.5")
PANE = _uneven(("5/64", "1/32"), ("2", "0.8"))

WINDOWS: Mapping[str, Window] = {
    "channel-width": FIT,
    "channel-wall": _window("0.006", "0.15"),
    "to-channel": FIT,
    "tenon": FIT,
    "to-far-cheek": FIT,
    "housing-width": FIT,
    "under-housing": FIT,
    "mitre-depth": FIT,
    "tongue": FIT,
    "lip": FIT,
    "rebate-width": _window("1/128", "0.2"),
    "bevel": FIT,
    "shaped-groove-place": FIT,
    "shaped-groove-width": FIT,
    "meeting-depth": _window("0.004", "0.1"),
    "channel-depth": DEEP,
    "rebate-reach": DEEP,
    "shaped-groove-depth": DEEP,
    "shoulder-depth": SHALLOW,
    "flat-depth": SHALLOW,
    "tenon-width": SHALLOW,
    "shoulders": SHOULDER,
    "to-housing": SHOULDER,
    "to-mitre": SHOULDER,
    # The other piece's edge closes the corner: hardly ever under.
    "to-shoulder": _uneven(("0.002", "1/128"), ("0.05", "0.25")),
    "length": PLACED,
    "span": PLACED,
    "arch": PLACED,
    "edge-height": PLACED,
    "panel-arch": PLACED,
    "panel-top": PLACED,
    "meeting-width": PLACED,
    "stock": _window("0.002", "0.05"),
    "board-gap": _window("1/64", "0.4"),
    "opening-width": LIGHT,
    "opening-height": LIGHT,
    "each-width": LIGHT,
    "each-height": LIGHT,
    "light-width": LIGHT,
    "light-height": LIGHT,
    "diagonal": _window("1/16", "2"),
    "gap": FRAME,
    "lap": FRAME,
    "diagonals": _window("1/32", "1", _OVER),
    "slab-width": _uneven(("1/32", "1/64"), ("1", "0.5")),
    "panel-width": _window("1/64", "0.5"),
    "pane-width": PANE,
    "pane-height": PANE,
}
"""By the kinds' own ids."""

FOLLOWED: Mapping[str, Window] = {"channel-width": _window("1/128", "0.2")}
"""Of what everything that fits it is made as it was measured; ours."""

NARROWED = frozenset({"gap"})
"""What a season may narrow on one side."""


def window_of(measure: Measure, *, swept: bool) -> Window | None:
    """The widest window of a measure; `None` where its leaf alone tells. A tenon's edge that is
    `swept` away is never under, one that its cheek cut takes the rest of never over."""
    if measure.what.value == "edge-shoulder-depth":
        return DEEP if swept else SHALLOW
    return WINDOWS.get(measure.what.value)


def too_wide(check: Checkpoint, widest: Window, unit: Unit) -> Fact | None:
    """What is wrong with a check's window, which may be as wide as that; `None` where nothing is.
    A cut that is corrected is good about its target's mark, what is measured once only about what
    the plan makes."""
    below, above = widest.of(unit)
    what = measures.MEASURED(form=str(check.measure))
    about = (check.target, check.exact) if check.knob is not None else (check.exact,)
    under, over = min(about) - below, max(about) + above
    low, high = Length(check.low, unit), Length(check.high, unit)
    if check.low < under or check.high > over:
        return told.WIDE_WINDOW(
            measure=what, low=low, high=high, least=Length(under, unit), most=Length(over, unit)
        )
    # At the bench the marks lie inside the requirement, wherever that lies between them.
    between = check.resolution if check.knob is None and check.resolution else 0
    even = abs(check.high + check.low - 2 * check.target) <= between
    even = even or check.low == 0 > check.target - below  # nothing measures less than none
    if below == above and not even and check.measure.what.value not in NARROWED:
        target = Length(check.target, unit)
        return told.LOPSIDED(measure=what, target=target, low=low, high=high)
    return None
