"""Which piece stands at the saw, how big it is by then and what it lacks."""

from __future__ import annotations

from fractions import Fraction

from msgspec import Struct

from sequencer.errors import InternalError
from sequencer.facts import papers
from sequencer.instructions.words import marked_faces
from sequencer.plan import Box, Cut, Hand, Marked, Plan, Setup, Size, Step
from sequencer.records import replace
from sequencer.saw.fittings import CARRIERS
from sequencer.saw.kinds import KINDS
from sequencer.saw.operation import OperationId
from sequencer.sheets.section import Rect, Section, section, seen_as
from sequencer.wording import Room, pictures

ZERO = Fraction(0)


class Doing(Struct, frozen=True):
    """One operation of a step: the piece it makes and its passes. A test cut has no operation."""

    step: Step
    operation: OperationId | None
    mark: str
    cuts: tuple[Cut, ...]

    @property
    def place(self) -> str:
        """What is told beside its box: the end, or `ends` and `edges` where it is all of them."""
        if self.operation is None:
            return ""
        return self.operation.at if self.operation.what == "bevel" else self.operation.end


class Pieces:
    """The plan's pieces by mark, and the passes made on each in order."""

    def __init__(self, plan: Plan) -> None:
        self.steps = plan.steps
        self.setups = {setup.number: setup for setup in plan.setups}
        self.parts = {part.mark: part for part in plan.parts}
        self.scrap = {scrap.mark: scrap for scrap in plan.scrap}
        self.sticks = {stick.mark: stick for stick in plan.sticks}
        places = [(piece, stick) for stick in plan.sticks for piece in stick.pieces]
        self.stick_of = {piece.mark: stick for piece, stick in places}
        self.start_of = {piece.mark: piece.start for piece, _ in places}
        self.laid = {piece.mark: piece for piece, _ in places}
        self._marked = marked_faces(plan)
        self._passes: dict[str, list[tuple[Step, Setup, Cut]]] = {}
        for step in plan.steps:
            for cut in step.cuts if step.setup is not None else ():
                made = (step, self.setups[step.setup or 0], cut)
                self._passes.setdefault(cut.mark, []).append(made)

    def doings(self, step: Step) -> tuple[Doing, ...]:
        """A step's operations with the passes of each: all of one kind, so all of equal number."""
        if not step.operations:
            mark = step.cuts[0].mark if step.cuts else "".join(step.marks[:1])
            return (Doing(step, None, mark, step.cuts),)
        each, left = divmod(len(step.cuts), len(step.operations))
        if left:
            raise InternalError(papers.PASSES_UNTOLD(step=step.number))
        found = []
        for number, operation in enumerate(step.operations):
            cuts = step.cuts[number * each : (number + 1) * each]
            name = OperationId.parse(operation)
            found.append(Doing(step, name, name.mark, cuts))
        return tuple(found)

    def size(self, mark: str) -> Size:
        """As it leaves the saw."""
        if mark in self.parts:
            return self.parts[mark].size
        if mark in self.scrap:
            return self.scrap[mark].size
        return self.sticks[mark].size

    def name(self, mark: str, room: Room) -> str:
        if mark in self.parts:
            return room.say(self.parts[mark].name)
        return room.text(pictures.TEST_PIECE if mark in self.scrap else pictures.STRIP)

    def marked(self, mark: str) -> Marked:
        """Which face of a piece or stick is marked."""
        return self._marked.get(mark, "face")

    def hand(self, mark: str) -> Hand:
        """Of a piece; a stick's own is left."""
        inside = self.parts[mark].inside if mark in self.parts else None
        laid = self.laid.get(mark)
        return inside or (laid.end_a if laid is not None else "left")

    def view(self, doing: Doing, setup: Setup) -> tuple[Section, tuple[Rect, ...], Fraction]:
        """The first pass as it stands at the blade, what the others take as seen then, and the
        guide it is drawn at."""
        first = doing.cuts[0]
        size, guide = self._at(doing, setup)
        gone = self._gone(first, doing.step, size)
        seen, taken = section(size, gone, setup, first, guide)
        later: list[Rect] = []
        gone += taken
        for cut in doing.cuts[1:]:
            next_seen, taken = section(size, gone, setup, cut, guide)
            gone += taken
            if taken and next_seen.feed == seen.feed:
                later.append(seen_as(taken[0], first, size))
        return seen, tuple(later), guide

    def _at(self, doing: Doing, setup: Setup) -> tuple[Size, Fraction]:
        """The size of what lies at the blade, and the guide."""
        kind, mark = doing.step.kind, doing.cuts[0].mark
        by_eye = doing.cuts[0].against is None
        guide = ZERO if setup.guide is None else setup.guide
        stick = self.sticks.get(mark)
        if stick is None:
            return self.size(mark), guide
        if kind == "rip":
            return replace(stick.size, width=stick.blank.width), guide
        if by_eye:
            start = stick.pieces[0].start if stick.pieces else setup.kerf
            return stick.size, max(start - setup.kerf, ZERO)
        if kind == "crosscut":
            start = self.start_of.get(doing.mark, ZERO)
            return replace(stick.size, length=stick.size.length - start), guide
        return stick.size, guide

    def _gone(self, cut: Cut, step: Step, size: Size) -> tuple[Box, ...]:
        """What earlier steps took: grooves that ran along the stick, then the piece's own."""
        gone: tuple[Box, ...] = ()
        stick = self.stick_of.get(cut.mark)
        earlier = [*self._passes.get(stick.mark, ())] if stick else []
        earlier += self._passes.get(cut.mark, ())
        for made, setup, former in earlier:
            along_stick = former.mark != cut.mark
            if (
                made.number >= step.number
                or KINDS[made.kind].through
                or (along_stick and CARRIERS[setup.carrier].body != "fence")
            ):
                continue
            _, taken = section(size, gone, setup, former, setup.guide or ZERO)
            gone += taken
        return gone
