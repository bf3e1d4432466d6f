"""The moments that are pictured: the wood at each setup just before its first pass, as the proof
saws it, and what that pass and those after it take."""

from __future__ import annotations

from collections.abc import Mapping
from itertools import groupby

from msgspec import Struct

from sequencer.plan import Cut, Marked, Plan, Setup, Step
from sequencer.proof.cells import Bit
from sequencer.proof.follow import deck_of, follow
from sequencer.proof.grain import Grain, grain_of
from sequencer.proof.hands import Marks, in_hand
from sequencer.proof.kerf import Pass, kerf_of
from sequencer.proof.saw import Sawn
from sequencer.proof.solid import Solid, bounds, cropped, shared
from sequencer.records import replace
from sequencer.sheets.pieces import Doing, Pieces

WOOD, WASTE, KERF = "wood", "waste", "kerf"


class Moment(Struct, frozen=True):
    """One pass: `mark` is what it is made on, `name` the piece that it makes. `later` is what the
    passes after it take, which the piece is turned for. Lengths are grains; `mm` is one of them."""

    setup: Setup
    cut: Cut
    mark: str
    name: str
    made: Pass
    before: Solid
    sawn: Sawn
    follows: bool
    marks: Marks
    marked: Marked
    deck: float
    mm: float
    inches: bool
    later: tuple[Bit, ...] = ()

    @property
    def comes_off(self) -> bool:
        """Whether a piece is crosscut from a strip."""
        return self.name != self.mark

    @property
    def bits(self) -> tuple[tuple[str, Bit], ...]:
        """The wood before the pass, what becomes of it beside each bit: it stays, it falls off, or
        it goes to dust."""
        box, made = bounds(self.before), self.made
        dust = shared(self.before, (kerf_of(box, made),))
        falls: Solid = tuple(bit for solid in self.sawn.freed for bit in solid)
        stays = self.sawn.kept
        if made.by_eye is not None and made.guide is None:
            line = made.by_eye - made.kerf
            falls = (*falls, *cropped(dust, 0, (box[0], line)))
            dust = cropped(dust, 0, (line, box[1]))
        if self.follows and self.cut.waste is not None and self.cut.waste.what == "rest":
            stays = (*stays, *self.sawn.rest)
        else:
            falls = (*falls, *self.sawn.rest)
        return (
            *((WOOD, bit) for bit in stays),
            *((WASTE, bit) for bit in falls),
            *((KERF, bit) for bit in dust),
        )


def moments(plan: Plan) -> Mapping[int, Moment]:
    """By setup, its first piece at its first pass. A setup at which nothing is cut has none.

    Only what the pictures need is sawn: the pieces shown, and what comes off the same strips.
    """
    pieces = Pieces(plan)
    shown: dict[int, Doing] = {}
    for number, group in groupby(plan.steps, key=lambda step: step.setup):
        doing = first_shown(tuple(group), pieces)
        if number is not None and doing is not None:
            shown[number] = doing
    grain = grain_of(plan)
    watch = _Watch(plan, shown, grain, pieces)
    for _ in follow(_needed(plan, shown, pieces), grain, look=watch.look):
        pass
    return watch.found


def first_shown(steps: tuple[Step, ...], pieces: Pieces) -> Doing | None:
    """Which piece stands for a setup's: the first that is no test piece and lies at a guide."""
    doings = [doing for step in steps for doing in pieces.doings(step) if doing.cuts]
    shown = sorted(doings, key=lambda d: (d.operation is None, d.cuts[0].against is None))
    return shown[0] if shown else None


def _needed(plan: Plan, shown: Mapping[int, Doing], pieces: Pieces) -> Plan:
    """The plan with the cuts of those pieces alone, and of the strips they come from."""
    marks = {doing.cuts[0].mark for doing in shown.values()}
    sticks = {pieces.stick_of[mark].mark if mark in pieces.stick_of else mark for mark in marks}
    wanted = marks | sticks
    for stick in plan.sticks:
        if stick.mark in sticks:
            wanted |= {piece.mark for piece in stick.pieces}
    steps = tuple(
        replace(
            step,
            cuts=tuple(cut for cut in step.cuts if cut.mark in wanted),
            removes=tuple(removal for removal in step.removes if removal.mark in wanted),
        )
        for step in plan.steps
    )
    return replace(plan, steps=steps)


class _Watch:
    """Looks at every pass and keeps the wanted ones."""

    def __init__(
        self, plan: Plan, shown: Mapping[int, Doing], grain: Grain, pieces: Pieces
    ) -> None:
        self.shown = shown
        self.pieces = pieces
        self.hands = in_hand(plan)
        self.decks = plan.shop.decks
        self.mm = (25.4 if plan.unit == "in" else 1.0) / grain.parts
        self.grain = grain
        self.inches = plan.unit == "in"
        self.found: dict[int, Moment] = {}

    def look(
        self, step: Step, cut: Cut, name: str, before: Solid, made: Pass, sawn: Sawn, follows: bool
    ) -> None:
        number = step.setup or 0
        doing = self.shown.get(number)
        if doing is None or doing.step.number != step.number or cut.mark != doing.cuts[0].mark:
            return
        if cut not in doing.cuts or name not in (doing.mark, cut.mark):
            return
        kept = self.found.get(number)
        if kept is None:
            if cut == doing.cuts[0]:
                self.found[number] = self._moment(step, cut, name, before, made, sawn, follows)
        elif cut != kept.cut and cut.keeps is None and not made.tilt:
            later = kerf_of(bounds(kept.before), made)
            self.found[number] = replace(kept, later=(*kept.later, later))

    def _moment(
        self, step: Step, cut: Cut, name: str, before: Solid, made: Pass, sawn: Sawn, follows: bool
    ) -> Moment:
        setup = self.pieces.setups[step.setup or 0]
        deck = float(deck_of(setup, self.decks)) * (25.4 if self.inches else 1.0)
        marks = self.hands[name] if name in self.hands and name != cut.mark else made.marks
        return Moment(
            setup, cut, cut.mark, name, made, before, sawn, follows, marks,
            self.pieces.marked(cut.mark), deck, self.mm, self.inches,
        )  # fmt: skip
