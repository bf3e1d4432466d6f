"""Follows what was read, setup by setup, as a person would: sets the saw, cuts, and writes down
whatever does not agree."""

from __future__ import annotations

import re
from dataclasses import dataclass, field
from fractions import Fraction

from tests.reader.rows import resolved
from tests.reader.setting import Setting
from tests.reader.told import Document, Setup, Step
from tests.reader.wood import Slab, Wood
from tests.reader.words import LENGTH, MARK, OPPOSITE, Lies, Unreadable, length, side

_SURFACE = {
    "rip fence": "fence", "crosscut sled": "stop", "tenoning jig": "jig",
    "mitre sled": "mitre stop",
}  # fmt: skip
_PLANED = re.compile(rf"((?:#\d+, )*#\d+): ({LENGTH}) off the (inside|outside) edge\.")


_EACH = rf"({LENGTH})(?:″| mm) × ({LENGTH})(?:″| mm) rough"
_OF = re.compile(
    rf"((?:#\d+, )*#\d+)(?: each)? of (?:(\d+)|as many) boards"
    rf"(?:(?: each)?, (#.*?), {_EACH}| as the stock asks for.*)\."
)
"""What is milled in place of strips that are glued up: how many boards, which, how wide."""


@dataclass
class Followed:
    """What came of it: all wood by its mark, each test cut as its scrap was then, and what did not
    agree."""

    wood: dict[str, Wood] = field(default_factory=dict)
    tried: dict[int, tuple[Wood, list[Slab], Setup]] = field(default_factory=dict)
    works: dict[int, tuple[Wood, list[Slab]]] = field(default_factory=dict)
    wrong: list[str] = field(default_factory=list)
    boards: dict[str, int] = field(default_factory=dict)
    """Of how many boards each strip was milled that is glued up; 0 of as many as it asked for."""
    glued: set[str] = field(default_factory=set)
    off: dict[str, list[str]] = field(default_factory=dict)
    """The pieces in the order in which they come off each strip."""


class Saw:
    """The saw as it stands while a document is followed."""

    def __init__(self, document: Document, near: Fraction, decks: dict[str, Fraction]) -> None:
        self.document = document
        self.set = Setting(document, near, decks)
        self.found = Followed()
        self.last = 0

    def follow(self) -> Followed:
        number = 0
        for told in self.document.told:
            if isinstance(told, Step):
                self._in_turn(told)
                self._bench(told)
                continue
            number += 1
            if told.number != number:
                self._wrong(told.where, f"stands where setup {number} should")
            self.found.wrong += (f"{told.where}: {each}" for each in self.set.enter(told))
            for step in told.steps:
                self._in_turn(step)
                self._step(told, step)
            self._nearest(told)
        return self.found

    def _wrong(self, where: str, what: str) -> None:
        self.found.wrong.append(f"{where}: {what}")

    def _in_turn(self, step: Step) -> None:
        if step.number != self.last + 1:
            self._wrong(f"step {step.number}", f"stands where step {self.last + 1} should")
        self.last = step.number

    def _nearest(self, setup: Setup) -> None:
        """What the picture says is toward the person is neither down nor at the guide, nor
        opposite to these."""
        lies = [
            work.passes[0]
            for step in setup.steps
            for work in step.works
            if any(piece.mark == setup.seen for piece in work.pieces)
        ]
        if not setup.near or not lies or lies[0].by_eye or lies[0].off_strip:
            return
        try:
            near = side(setup.near, self.document.face_of(setup.seen))
        except Unreadable as error:
            self._wrong(setup.where, str(error))
            return
        taken = {lies[0].down, lies[0].against}
        if near in taken | {OPPOSITE[each] for each in taken}:
            self._wrong(setup.where, f"the picture has the {setup.near} toward you")

    def _step(self, setup: Setup, step: Step) -> None:
        where = f"{setup.where}, step {step.number}"
        try:
            if step.scrap:
                self._try(setup, step, where)
            for work in step.works:
                for n, piece in enumerate(work.pieces):
                    ends = {each for each in piece.places if each in "AB"}
                    told = {side for lies in work.passes for side in (lies.down, lies.against)} & {
                        "A",
                        "B",
                    }
                    if ends and ends != told:
                        self._wrong(where, f"{piece.mark}: ticked at {ends}, cut at {told}")
                    if piece.strip:
                        self._off(setup, step, piece.mark, piece.strip, piece.at_stop, work.passes)
                        continue
                    made = self._cut(setup, step, piece.mark, work.passes, where)
                    if n == 0:
                        self.found.works.setdefault(step.number, (self._of(piece.mark), made))
                if not work.pieces:
                    self._wrong(where, "names no piece")
        except Unreadable as error:
            self._wrong(where, str(error))

    def _of(self, mark: str) -> Wood:
        """The strip or piece of a mark; a strip is what was laid out."""
        wood = self.found.wood
        if mark not in wood and mark.startswith("#") and mark[-1].isdigit():
            strip = self.document.strips.get(mark)
            thick = strip.thickness if strip and strip.thickness else None
            wide = strip.width if strip and strip.width else None
            wood[mark] = Wood(mark, wide, thick)
        if mark not in wood:
            raise Unreadable(f"{mark} is not there yet")
        return wood[mark]

    def _try(self, setup: Setup, step: Step, where: str) -> None:
        scrap = self._of(step.scrap)
        lies = resolved(setup, step, self.document.face_of(step.scrap))
        if step.fresh:
            scrap.slabs = [slab for slab in scrap.slabs if not _frees(slab, lies)]
        before = list(scrap.slabs)
        made = self._cut(setup, step, step.scrap, lies, where)
        tried = Wood(scrap.mark, scrap.width, scrap.thickness, scrap.length, before, scrap.strip)
        self.found.tried[step.number] = (tried, made, setup)

    def _cut(self, setup: Setup, step: Step, mark: str, lies: list[Lies], where: str) -> list[Slab]:
        """Every pass on one piece; right through, it makes the piece so wide."""
        wood, guide = self._of(mark), setup.guide
        depth = setup.figures["height"][1] - self.set.deck(setup)
        kerf = self.document.kerfs.get(setup.cutter, Fraction(0))
        made: list[Slab] = []
        for each in lies:
            if each.by_eye:
                if guide is not None:
                    self._wrong(where, "is cut by eye, and there is a setting")
                self._through(wood, depth, where)
                continue
            if guide is None:
                raise Unreadable("there is no setting to cut at")
            if each.bears != ("block" if setup.block else _SURFACE[setup.carrier]):
                self._wrong(where, f"lies against the {each.bears} on the {setup.carrier}")
            flat = each.down in ("marked", "other")
            through = flat and wood.thickness is not None and depth >= wood.thickness
            if setup.carrier == "rip fence" and through:
                strip = self.document.strips.get(mark)
                if strip and strip.boards is not None and mark not in self.found.glued:
                    self._wrong(where, f"{mark} is ripped, and its boards were never glued up")
                wood.width = guide
                if each.far:
                    raise Unreadable("the part is on the open side, and how wide nobody says")
                continue
            self._stands(wood, each, guide, where, made)
            low = guide
            if each.back:
                first = [s.low for s in wood.slabs if _alike(s.lies, each) and s.low < guide]
                if not first:
                    raise Unreadable(f"{mark}: there is no first kerf to slide back to")
                low = max(first)
            elif each.sweep:
                low = Fraction(0)
            made.append(
                Slab(each, low, guide + kerf, depth, setup.lean, setup.number, step.number, guide)
            )
        wood.slabs += made
        return made

    def _stands(
        self, wood: Wood, lies: Lies, guide: Fraction, where: str, made: list[Slab]
    ) -> None:
        """Turned round on an edge, on what a rebate left: on a bearing strip where that is little.
        Anywhere else the strip would have wood in its way."""
        thick = wood.thickness
        before = [
            slab.low
            for slab in (*wood.slabs, *made)
            if slab.lies.down == lies.down and slab.lies.against == OPPOSITE.get(lies.against)
            if thick is not None and slab.high >= thick and lies.down in ("inside", "outside")
        ]
        left = min(before) + guide - thick if before and thick is not None else None
        least = Fraction(1, 2) if thick is not None and thick < 5 else Fraction(12)
        if lies.on_strip != (left is not None and left < least):
            told = "stands on a bearing strip" if lies.on_strip else "has no bearing strip"
            self._wrong(where, f"{wood.mark} {told}, and {left or 'all'} is under it")

    def _through(self, wood: Wood, depth: Fraction, where: str) -> None:
        if wood.thickness is not None and depth <= wood.thickness:
            self._wrong(where, f"{wood.mark} is not sawn through")

    def _off(
        self, setup: Setup, step: Step, mark: str, strip: str, at_stop: str, lies: list[Lies]
    ) -> None:
        where = f"{setup.where}, step {step.number}"
        if len(lies) != 1 or not lies[0].off_strip:
            raise Unreadable(f"{mark} does not come off {strip} so")
        source, guide = self._of(strip), setup.guide
        if guide is None:
            raise Unreadable("there is no stop to cut to")
        self._through(source, setup.figures["height"][1] - self.set.deck(setup), where)
        self.found.wood[mark] = Wood(
            mark, source.width, source.thickness, guide, list(source.slabs), strip, at_stop
        )
        self.found.off.setdefault(strip, []).append(mark)

    def _bench(self, step: Step) -> None:
        if step.title.startswith("Mill"):
            for check in step.checks:
                for mark in check.marks or step.marks:
                    wood = self._of(mark) if mark.startswith("#") else None
                    single = len(check.marks) > 0 or len(step.checks) == 1
                    if wood and single and check.target is not None:
                        wood.thickness = check.target
            self._boards(step)
        if step.title == "Glue up the boards":
            for mark in step.marks:
                if mark not in self.found.boards:
                    self._wrong(f"step {step.number}", f"{mark} has no boards to glue up")
            self.found.glued |= set(step.marks)
        for line in step.lines:
            for planed in _PLANED.finditer(line):
                for mark in re.findall(MARK, planed[1]):
                    wood = self._of(mark)
                    if wood.width is not None:
                        wood.width -= length(planed[2])

    def _boards(self, step: Step) -> None:
        """Boards are milled for each strip that is laid out in several, as many and as wide."""
        where = f"step {step.number}"
        for told in (each for line in step.lines for each in _OF.finditer(line)):
            for mark in told[1].split(", "):
                strip = self.document.strips.get(mark)
                self.found.boards[mark] = int(told[2] or 0)
                if strip is None or strip.boards != int(told[2] or 0):
                    self._wrong(where, f"{mark} is laid out otherwise than of {told[2]} boards")
                elif told[5] and length(told[5]) != strip.board_width:
                    self._wrong(where, f"{mark}: boards {told[5]} wide, laid out otherwise")
                if told[2] and f"{mark}/{told[2]}" not in re.findall(r"#\d+/\d+", told[3]):
                    self._wrong(where, f"{mark}: {told[2]} boards, marked {told[3]}")
        for mark in step.marks:
            strip = self.document.strips.get(mark)
            if strip and strip.boards is not None and mark not in self.found.boards:
                self._wrong(where, f"{mark} is milled in one piece, and laid out in boards")


def _alike(one: Lies, other: Lies) -> bool:
    return (one.down, one.against) == (other.down, other.against)


def _frees(slab: Slab, lies: list[Lies]) -> bool:
    """Whether fresh wood is wanted because of it: tried where these passes go."""
    touched = {side for each in lies for side in (each.down, each.against)}
    return bool({slab.lies.down, slab.lies.against} & touched & {"A", "B", "inside", "outside"})
