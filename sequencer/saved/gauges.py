"""Spacers worth making once: one block that turns several moves into something repeatable.

A guide that goes from one number to another moves by their difference. Where the same difference
stands between several pairs of settings, of this plan or saved ones, a spacer of that thickness
between fence, stop or jig and what it bears on makes each of those moves without the scale.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from fractions import Fraction

from msgspec import Struct

from sequencer.facts import Fact, Length, advices
from sequencer.job.schema import Shop
from sequencer.lengths import Unit
from sequencer.plan import Plan
from sequencer.saw.values import is_tested
from sequencer.shelf import Saved
from sequencer.trade import fits

THINNEST = fits.Datum(
    Fraction(1, 32), Fraction(1), "ours: a thinner spacer is cut from veneer or card"
)
THICKEST = fits.Datum(Fraction(2), Fraction(50), "ours: a thicker one is a stick, read off a rule")
ALIKE = fits.Datum(Fraction(1, 256), Fraction(1, 10), "ours: as close as a fit's whole band")
MOST = 4
LEAST_MOVES = 2
LISTED = 6
"""Numbers of setups or saved settings that are named; the others are counted."""


class Spacer(Struct, frozen=True):
    """`thickness` as it should be; `kerf` says that it is one kerf thick. `setups` are those of
    the plan that it sets (the move that leads into each), `saved` numbers of saved settings that
    it leads to or from; `minutes` what it would save in this plan."""

    thickness: Fraction
    kerf: bool
    setups: tuple[int, ...]
    saved: tuple[int, ...]
    minutes: Fraction

    @property
    def moves(self) -> int:
        return len(self.setups) + len(self.saved)


class _Stand(Struct, frozen=True):
    """A number that a guide knob is set to; `setup` or `saved` says by what, `takes` what the plan
    counts for setting it, its test cuts too where it is tested."""

    knob: str
    number: Fraction
    tested: bool
    takes: Fraction = Fraction(0)
    setup: int | None = None
    saved: int | None = None


def worth_making(plan: Plan, shop: Shop, saved: Sequence[Saved] = ()) -> tuple[Spacer, ...]:
    """The spacers that serve at least two moves, those that save most first.

    A move leads into a setup of the plan from where its knob stood last, or from a saved setting
    of the same cutter and carrier that has a gauge; moves between saved settings count as well.
    """
    kerf = plan.setups[0].kerf if plan.setups else Fraction(0)
    moves: dict[Fraction, list[tuple[_Stand, _Stand]]] = {}
    thin, thick = THINNEST.of(plan.unit), THICKEST.of(plan.unit)
    for before, after in _pairs(plan, saved):
        step = abs(after.number - before.number)
        if thin <= step <= thick:
            moves.setdefault(_like(step, moves, ALIKE.of(plan.unit) / 2), []).append(
                (before, after)
            )
    found = [_spacer(step, pairs, kerf, plan.unit, shop) for step, pairs in moves.items()]
    worth = [spacer for spacer in found if spacer.moves >= LEAST_MOVES and spacer.setups]
    worth.sort(key=lambda s: (-s.minutes, -s.moves, s.thickness))
    return tuple(worth[:MOST])


def told(spacer: Spacer, unit: Unit) -> Fact:
    """The spacer, what it sets and what that saves."""
    saved = spacer.saved
    return advices.SPACER(
        thickness=Length(spacer.thickness, unit),
        kerf=advices.ONE_KERF() if spacer.kerf else None,
        leads=advices.LEADS(n=len(spacer.setups), numbers=_listed(spacer.setups)),
        saved=advices.SAVED_TOO(n=len(saved), numbers=_listed(saved)) if saved else None,
        minutes=spacer.minutes,
    )


def _pairs(plan: Plan, saved: Sequence[Saved]) -> Iterator[tuple[_Stand, _Stand]]:
    """Moves of the plan from where its knob stood last, the same aid before the fence then and now;
    from saved settings that have a gauge, to which the spacer is added; and moves between settings
    that were saved one after another."""
    knobs = {knob.name: knob for knob in plan.ordering.knobs}
    stood: dict[str, tuple[_Stand, str]] = {}
    for setup in plan.setups:
        knob = plan.shop.guide_knob(setup.carrier)
        change = next((change for change in setup.changes if change.knob == knob), None)
        if change is None or setup.reading is None or setup.tilt:
            continue
        takes = knobs[knob].by_value.get(change.after, knobs[knob].minutes)
        after = _Stand(knob, setup.reading, is_tested(change.after), takes, setup=setup.number)
        along = plan.before_fence(setup.number) if knob == "fence" else ""
        if knob in stood and stood[knob][1] == along:
            yield stood[knob][0], after
        for one in saved:
            same = (one.cutter, one.carrier, one.knob) == (setup.cutter, setup.carrier, knob)
            if same and one.gauge is not None and one.kerf == setup.kerf and not one.doubted:
                yield _stand(one), after
        stood[knob] = after, along
    last: dict[tuple[str, str, str], Saved] = {}
    for one in sorted(saved, key=lambda each: each.number):
        if one.knob != "height":
            key = (one.cutter, one.carrier, one.knob)
            if key in last and last[key].kerf == one.kerf:
                yield _stand(last[key]), _stand(one)
            last[key] = one


def _stand(one: Saved) -> _Stand:
    return _Stand(one.knob, one.value + one.off, False, saved=one.number)


def _like(step: Fraction, known: Iterable[Fraction], near: Fraction) -> Fraction:
    return next((other for other in known if abs(other - step) <= near), step)


def _spacer(
    step: Fraction,
    pairs: Sequence[tuple[_Stand, _Stand]],
    kerf: Fraction,
    unit: Unit,
    shop: Shop,
) -> Spacer:
    setups = {after.setup: after for _, after in pairs if after.setup is not None}
    numbers = {each.saved for pair in pairs for each in pair if each.saved is not None}
    minutes = Fraction(0)
    for after in setups.values():
        check = shop.minutes.check_cut if after.tested else Fraction(0)
        by_gauge = min(shop.minutes.of(after.knob), shop.minutes.gauge) + check
        minutes += max(after.takes - by_gauge, Fraction(0))
    return Spacer(
        thickness=step,
        kerf=abs(step - kerf) <= ALIKE.of(unit) / 2,
        setups=tuple(sorted(setups)),
        saved=tuple(sorted(numbers)),
        minutes=minutes,
    )


def _listed(numbers: tuple[int, ...]) -> Fact:
    if len(numbers) <= LISTED:
        return advices.NUMBERS(numbers=numbers)
    return advices.NUMBERS_AND_MORE(numbers=numbers[:LISTED], more=len(numbers) - LISTED)
