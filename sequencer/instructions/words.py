"""How a piece lies and is passed over the blade, as facts; how runs of numbers are written."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from fractions import Fraction
from itertools import pairwise

from msgspec import Struct

from sequencer.facts import Fact, instructions
from sequencer.plan import (
    SCRAP_STEPS,
    Against,
    Checkpoint,
    Cut,
    Marked,
    Plan,
    Setup,
    ShopFacts,
    Span,
    Step,
    StickPiece,
)
from sequencer.records import replace
from sequencer.saw.fittings import CARRIERS
from sequencer.wording import Room, saws
from sequencer.wording.instructions import in_turn

Instruction = tuple[Fact, ...]
"""What is done one after another to lay a piece for its passes."""

_EDGES = {
    "inside-edge": "side.inside-edge",
    "outside-edge": "side.outside-edge",
    "end-A": "side.end-A",
    "end-B": "side.end-B",
}
SURFACES: Mapping[Marked, Mapping[str, str]] = {
    "face": {"face": "side.marked-face", "back": "side.back", **_EDGES},
    "back": {"face": "side.show-face", "back": "side.marked-face", **_EDGES},
}
"""The terms for the sides of a piece, by which of its faces is marked."""


class Rest(Struct, frozen=True):
    """What a piece lies on; whether a `block` stands between it and what sets the guide; and
    whether it is turned round onto a bearing `strip`, which would be in its way before."""

    carrier: str
    block: bool = False
    strip: bool = False

    @staticmethod
    def of(setup: Setup, plan: Plan) -> Rest:
        """That of a setup."""
        strip = any(aid.name == "bearing-strip" and setup.number in aid.setups for aid in plan.aids)
        return Rest(setup.carrier, bool(setup.spacer), strip)


def guide_knob(setup: Setup, shop: ShopFacts, room: Room) -> str:
    """What the knob that sets the guide is called."""
    return saws.knob(shop.guide_knob(setup.carrier), room)


def side_term(depth: Span, marked: Marked) -> str:
    """The face that a cut through part of the thickness comes in from; `face`: the marked one."""
    term = SURFACES[marked]["face" if depth[0] <= 0 else "back"]
    return "side.face" if term == "side.marked-face" else term


def from_marked(depth: Span, thickness: Fraction, marked: Marked) -> Fraction:
    """How far what lies in the thickness is from the marked face."""
    return depth[0] if marked == "face" else thickness - depth[1]


def stands(piece: StickPiece) -> Fact:
    """Which end of a piece is at the stop as it comes off its strip."""
    return instructions.AT_STOP(end="side.end-A" if piece.end_a == "left" else "side.end-B")


def at_stop(piece: StickPiece, room: Room) -> str:
    return room.say(stands(piece))


def orientation(cut: Cut, on: Rest, marked: Marked = "face") -> Instruction:
    """How the piece lies. A strip's own end is the one that was squared; what comes off it has its
    own ends."""
    carrier = on.carrier
    down = SURFACES[marked][cut.down]
    if CARRIERS[carrier].body == "sled" and cut.keeps == "guide":
        return (instructions.OFF_STRIP(down=down),)
    if cut.against is None:
        return (instructions.TRIMMED(down=down),)
    kind = instructions.LIES_SLANTED if CARRIERS[carrier].slanted else instructions.LIES
    facts = [kind(down=down, bearing=_bearing(cut.against, on, marked))]
    if cut.back is not None:
        facts.append(instructions.BACK_TO_FIRST())
    elif cut.sweep:
        facts.append(instructions.SWEPT())
    if cut.keeps == "far":
        facts.append(instructions.FAR_PART())
    return tuple(facts)


def _bearing(against: Against, on: Rest, marked: Marked) -> Fact:
    side = SURFACES[marked][against]
    if on.block:
        return instructions.BEARS_ON_BLOCK(side=side)
    return instructions.BEARS(side=side, carrier=on.carrier)


def other_end(carrier: str) -> Fact:
    """How the other end of a piece is told: on the mitre sled it lies on the other side."""
    slanted = CARRIERS[carrier].slanted
    return instructions.OTHER_FENCE() if slanted else instructions.OTHER_END()


def instruction(cuts: Sequence[Cut], on: Rest, marked: Marked = "face") -> Instruction:
    """All passes of one operation, the second told by what changes."""
    half = len(cuts) // 2
    first, second = (_told(part, on, marked) for part in (cuts[:half], cuts[half:]))
    ends = [_told(at_a(part), on, marked) for part in (cuts[:half], cuts[half:])]
    if first != second and ends[0] == ends[1]:
        return (*first, other_end(on.carrier))
    return _told(cuts, on, marked)


def passes(cuts: Sequence[Cut], on: Rest, marked: Marked, room: Room) -> str:
    """The same in one line."""
    return in_turn(instruction(cuts, on, marked), room)


def at_a(cuts: Iterable[Cut]) -> list[Cut]:
    """The cuts as they would be at end A, so that what is done alike at both ends is alike."""
    return [
        replace(
            cut,
            down="end-A" if cut.down == "end-B" else cut.down,
            against="end-A" if cut.against == "end-B" else cut.against,
        )
        for cut in cuts
    ]


def _told(cuts: Sequence[Cut], on: Rest, marked: Marked) -> Instruction:
    facts = [*orientation(cuts[0], on, marked)] if cuts else []
    for last, cut in pairwise(cuts):
        if cut.down == last.down and cut.against is not None:
            bearing = _bearing(cut.against, on, marked)
            if on.strip:
                facts.append(instructions.FIT_STRIP())
            facts.append(instructions.TURN_ROUND(bearing=bearing))
        elif cut.against == last.against:
            facts.append(instructions.TURN_OVER(down=SURFACES[marked][cut.down]))
        else:
            facts += orientation(cut, on, marked)
    return tuple(facts)


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


def fresh_wood(step: Step, steps: Sequence[Step]) -> Instruction:
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
        return (instructions.SAW_OFF_TRIED(),)
    if against & {"inside-edge", "outside-edge"} and any(down.endswith("edge") for down in before):
        return (instructions.FRESH_EDGE(),)
    return ()


def on_fresh_wood(step: Step, steps: Sequence[Step], room: Room) -> str:
    """The same in words."""
    return in_turn(fresh_wood(step, steps), room)


def told_points(plan: Plan) -> tuple[Checkpoint, ...]:
    """The plan's checkpoints, their measures named by what is marked on the wood."""
    marked = marked_faces(plan)
    return tuple(
        replace(point, measure=point.measure.looking_in)
        if any(marked.get(mark) == "back" for mark in (point.scrap or "", *point.marks))
        else point
        for point in plan.checkpoints
    )


def marked_faces(plan: Plan) -> dict[str, Marked]:
    """Which face is marked, of every stick and of what comes off it."""
    return {
        mark: stick.marked
        for stick in plan.sticks
        for mark in (stick.mark, *(piece.mark for piece in stick.pieces))
    }
