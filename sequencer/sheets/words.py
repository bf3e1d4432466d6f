"""Sentences of the sheets: verb first, one action each, the value part of it."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from fractions import Fraction
from itertools import pairwise

from sequencer.plan import (
    SCRAP_STEPS,
    Against,
    Cut,
    Marked,
    Setup,
    ShopFacts,
    Span,
    Step,
    StickPiece,
)
from sequencer.saw.fittings import CARRIERS
from sequencer.wording import Room, saws

_EDGES = {
    "inside-edge": "inside edge",
    "outside-edge": "outside edge",
    "end-A": "end A",
    "end-B": "end B",
}
SURFACES: Mapping[Marked, Mapping[str, str]] = {
    "face": {"face": "marked face", "back": "back", **_EDGES},
    "back": {"face": "show face", "back": "marked face", **_EDGES},
}
"""What the sides of a piece are called, by which of its faces is marked."""

OTHER_END = "then the other end the same way"
OTHER_FENCE = "then the other end on the other fence"


def guide_knob(setup: Setup, shop: ShopFacts) -> str:
    """What the knob that sets the guide is called."""
    return saws.knob(CARRIERS[setup.carrier].guide_knob(shop.jig_rides), Room(shop.words))


def blade(cutter: str) -> str:
    """A cutter's name, called a blade where it does not say so itself."""
    return cutter if cutter.endswith(("blade", "set")) else f"{cutter} blade"


def side_words(depth: Span, marked: Marked) -> str:
    """The face that a cut through part of the thickness comes in from; `face`: the marked one."""
    return SURFACES[marked]["face" if depth[0] <= 0 else "back"].removeprefix("marked ")


def from_marked(depth: Span, thickness: Fraction, marked: Marked) -> Fraction:
    """How far what lies in the thickness is from the marked face."""
    return depth[0] if marked == "face" else thickness - depth[1]


def at_stop(piece: StickPiece) -> str:
    """Which end of a piece is at the stop as it comes off its stick, whose squared end is there."""
    return f"end {'A' if piece.end_a == 'left' else 'B'} at the stop"


def orientation(cut: Cut, carrier: str, marked: Marked = "face") -> str:
    """How the piece lies: `end A down, marked face against the jig`. A stick's own end is the one
    that was squared; what comes off it has its own ends."""
    down = f"{SURFACES[marked][cut.down]} down"
    if carrier == "crosscut-sled" and cut.keeps == "guide":
        return f"{down}, inside edge away from you, squared end at the stop"
    if cut.against is None:
        return f"by eye, {down}"
    if CARRIERS[carrier].slanted:
        down += ", outside edge along the 45° fence"
    words = f"{down}, {_bearing(cut.against, carrier, marked)}"
    if cut.back is not None:
        words += "; then slide away from it pass by pass, back to the first kerf"
    elif cut.sweep:
        words += "; then slide away from it pass by pass until all the waste is gone"
    if cut.keeps == "far":
        words += "; the part is the strip on the open side"
    return words


def _bearing(against: Against, carrier: str, marked: Marked) -> str:
    return f"{SURFACES[marked][against]} {saws.carrier(carrier, Room('UK')).bears}"


def other_end(carrier: str) -> str:
    """How the other end of a piece is told: on the mitre sled it lies on the other side."""
    return OTHER_FENCE if CARRIERS[carrier].slanted else OTHER_END


def passes(cuts: Sequence[Cut], carrier: str, marked: Marked = "face") -> str:
    """All passes of one operation, the second told by what changes."""
    half = len(cuts) // 2
    first, second = (_told(part, carrier, marked) for part in (cuts[:half], cuts[half:]))
    if first != second and without_ends(first) == without_ends(second):
        return f"{first}; {other_end(carrier)}"
    return _told(cuts, carrier, marked)


def _told(cuts: Sequence[Cut], carrier: str, marked: Marked) -> str:
    parts = [orientation(cuts[0], carrier, marked)] if cuts else []
    for last, cut in pairwise(cuts):
        if cut.down == last.down and cut.against is not None:
            parts.append(f"turn round, {_bearing(cut.against, carrier, marked)}")
        elif cut.against == last.against:
            parts.append(f"turn over, {SURFACES[marked][cut.down]} down")
        else:
            parts.append(orientation(cut, carrier, marked))
    return "; ".join(parts)


def without_ends(text: str) -> str:
    """The text with every end made the same."""
    return text.replace("end B", "end A")


def steps(first: int | None, last: int | None) -> str:
    """`step 3`, `steps 3–7`."""
    return f"step {first}" if first == last else f"steps {first}–{last}"


def runs(numbers: Sequence[int]) -> str:
    """Ascending numbers, neighbours drawn together.

    >>> runs((1, 2, 3, 5, 7, 8))
    '1–3, 5, 7, 8'
    """
    found: list[list[int]] = []
    for number in numbers:
        if found and number == found[-1][-1] + 1:
            found[-1].append(number)
        else:
            found.append([number])
    said = [f"{run[0]}–{run[-1]}" if len(run) > 2 else ", ".join(map(str, run)) for run in found]
    return ", ".join(said)


def setups(numbers: Sequence[int]) -> str:
    """`setup 3`, `setups 1–3, 12`."""
    return f"{'setup' if len(numbers) == 1 else 'setups'} {runs(numbers)}"


def spoken(items: Sequence[str]) -> str:
    """`a`, `a and b`, `a, b and c`."""
    if len(items) < 2:
        return "".join(items)
    return f"{', '.join(items[:-1])} and {items[-1]}"


def on_fresh_wood(step: Step, steps: Sequence[Step]) -> str:
    """What a test cut asks first where it would free what an earlier one left hanging on: a
    shoulder beside a cheek, a flat cut under one on edge. Empty where it does not."""
    before = [
        cut.down
        for earlier in steps
        if earlier.number < step.number and earlier.kind in SCRAP_STEPS
        for cut in earlier.cuts
        if any(cut.mark == now.mark for now in step.cuts)
    ]
    against = {cut.against for cut in step.cuts if cut.down in ("face", "back")}
    if against & {"end-A", "end-B"} and any(down.startswith("end") for down in before):
        return "saw off first the end that was tried in the jig"
    if against & {"inside-edge", "outside-edge"} and any(down.endswith("edge") for down in before):
        return "along an edge that was not tried yet"
    return ""
