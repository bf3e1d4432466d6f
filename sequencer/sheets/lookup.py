"""What is looked up while working, where a page has room for it: the strips that pieces come from,
the leaves they go into, as the front pages have them, and the pieces with all their joints."""

from __future__ import annotations

from collections.abc import Callable, Collection, Hashable, Iterable, Iterator, Sequence
from functools import cache
from itertools import chain

from msgspec import Struct

from sequencer.plan import Part, Plan
from sequencer.proof.grain import grain_of
from sequencer.records import replace
from sequencer.sheets import svg
from sequencer.sheets.block import Block, Chip
from sequencer.sheets.front import Front
from sequencer.sheets.rounds.gathered import alike
from sequencer.sheets.rounds.ink import POINTS
from sequencer.sheets.rounds.leaves import drawn_as, leaf_picture
from sequencer.sheets.rounds.parts import part_picture
from sequencer.sheets.stock import Laid
from sequencer.sheets.type import wide as width_of
from sequencer.wording import Room, papers, pictures

GAP = 12.0
"""Points beside each, and above the first line."""

CAPTION = 13.0

_LEAF = 0.7
"""Of a leaf's size on the first page: its marks are then 9 points."""

_PART = (61.0, 25.0)
"""How large a piece is drawn, in mm."""

_APART = (46.0, 48.0)
"""How large a leaf is that is pulled apart, in mm."""

_MOST = 8
"""Pictures of a kind on a page; ours."""

_TYPE = 10
"""Of the words over a picture, in points."""

_SIZES = tuple(times / 20 for times in range(44, 20, -1))
"""Times as large, where there is room."""


class Aside(Struct, frozen=True):
    """A drawing with what it shows, so many times as large as it is `drawn`."""

    mark: str
    drawn: str
    across: float
    tall: float
    times: float = 1.0

    @classmethod
    def of(cls, mark: str, drawn: str, times: float = 1.0) -> Aside:
        return cls(mark, drawn, *svg.size_of(drawn), times)

    @property
    def drawing(self) -> str:
        return self.drawn if self.times == 1 else svg.scaled(self.drawn, self.times)

    @property
    def size(self) -> tuple[float, float]:
        """Points that it takes with its caption, which is not broken and may be wider."""
        caption = width_of(self.mark, _TYPE, bold=True)
        return max(self.across * self.times, caption), self.tall * self.times + CAPTION


Group = tuple[Aside, ...]
"""Of one kind, and so of one scale."""

Asides = Callable[[Sequence[Block], float, float, Collection[str]], tuple[Aside, ...]]


def asides(front: Front, plan: Plan, room: Room) -> Asides:
    """What chooses for blocks and free points, wide and high, without what the page shows already:
    strips, then leaves, whole and pulled apart, then pieces as they will be, and all as large as
    they go."""
    kinds = alike(plan)
    doors = {door.mark: door for door in plan.doors}
    grain = grain_of(plan)

    @cache
    def apart(mark: str) -> str:
        width, height = _APART
        return leaf_picture(plan, doors[mark], room, apart=True, width=width, height=height)

    @cache
    def shown_as(mark: str) -> Hashable:
        return drawn_as(plan, doors[mark], grain)

    @cache
    def finished(part: Part) -> str:
        return part_picture(plan, part, room, *_PART)

    def called(parts: Sequence[Part]) -> str:
        says = room.text(pictures.FINISHED, marks=tuple(part.mark for part in parts))
        if width_of(says, _TYPE, bold=True) > _PART[0] * POINTS:
            says = room.text(pictures.FINISHED, marks=(parts[0].mark,))
        return says

    def chosen(
        blocks: Sequence[Block], wide: float, free: float, there: Collection[str]
    ) -> tuple[Aside, ...]:
        sticks, leaves, firsts, marks = _wanted(front, blocks, room)
        made: list[Group] = []
        for group in (sticks, leaves):
            left = [each for each in group if each.mark not in there]
            made.append(_fitting(made, left, wide, free))
        once: dict[Hashable, str] = {}
        for mark in firsts:
            once.setdefault(shown_as(mark), mark)
        opened = {room.text(pictures.APART, mark=mark): mark for mark in once.values()}
        pulled = [says for says in opened if says not in there]
        pulled = pulled[: _room_for(made, _APART, wide, free)]
        made.append(tuple(Aside.of(says, apart(opened[says])) for says in pulled))
        cut = [[part for part in parts if part.mark in marks] for parts in kinds]
        named = {called(parts): parts[0] for parts in cut if parts}
        pieces = [says for says in named if says not in there]
        pieces = pieces[: _room_for(made, _PART, wide, free)]
        made.append(tuple(Aside.of(says, finished(named[says])) for says in pieces))
        return tuple(chain(*_grown(made, wide, free)))

    return chosen


def _room_for(made: Sequence[Group], size: tuple[float, float], wide: float, free: float) -> int:
    """How many pictures of so many mm there is room for beside the others."""
    empty = Aside("", "", *(side * POINTS for side in size))
    count = 0
    while count < _MOST and high((*chain(*made), *[empty] * (count + 1)), wide) <= free:
        count += 1
    return count


def _fitting(
    made: Sequence[Group], more: Iterable[Aside], wide: float, free: float
) -> tuple[Aside, ...]:
    """Those of `more` for which there is room beside the others."""
    found: tuple[Aside, ...] = ()
    for each in more:
        if each.size[0] <= wide and high((*chain(*made), *found, each), wide) <= free:
            found = (*found, each)
    return found


def _grown(made: Sequence[Group], wide: float, free: float) -> Sequence[Group]:
    """As large as they go: first all of them, then those of a kind."""
    kinds = range(len(made))
    for larger in (tuple(kinds), *((kind,) for kind in reversed(kinds))):
        for size in _SIZES:
            tried = [
                tuple(_scaled(each, size) for each in group) if kind in larger else group
                for kind, group in enumerate(made)
            ]
            shown = tuple(chain(*tried))
            across = max((each.size[0] for each in shown), default=0.0)
            if across <= wide and high(shown, wide) <= free:
                made = tried
                break
    return made


def _scaled(aside: Aside, size: float) -> Aside:
    return replace(aside, times=aside.times * size)


def high(made: Sequence[Aside], wide: float) -> float:
    """How high they stand, one beside the other in lines of a page so wide; nothing without any."""
    if not made:
        return 0.0
    under, used, line = GAP, 0.0, 0.0
    for each in made:
        across, tall = each.size
        if used and used + across + GAP > wide:
            under, used, line = under + line, 0.0, 0.0
        used, line = used + across + GAP, max(line, tall)
    return under + line


def _wanted(
    front: Front, blocks: Sequence[Block], room: Room
) -> tuple[Group, Group, tuple[str, ...], frozenset[str]]:
    """Strips that are ripped here or that pieces are cut from, the leaves of all pieces and the
    first mark of each, and all that is ticked."""
    chips = [chip for block in blocks for chip in _chips(block)]
    cut = {chip.mark for chip in chips if chip.note or chip.mark.startswith("#")}
    sawn = {stick.mark for stick in front.sticks if stick.mark in cut or cut & set(stick.pieces)}
    sticks = [each for each in front.laid if sawn & {each.first.mark, *each.others}]
    marks = {chip.mark for chip in chips}
    doors = {chip.mark.rstrip("0123456789") for chip in chips}
    leaves = [door for door in front.doors if doors & set(door.marks)]
    return (
        tuple(Aside.of(_called(each, room), each.drawing) for each in sticks),
        tuple(Aside.of(leaf.together, leaf.drawing, _LEAF) for leaf in leaves),
        tuple(leaf.marks[0] for leaf in leaves),
        frozenset(marks),
    )


def _called(strips: Laid, room: Room) -> str:
    first = strips.first.mark
    if not strips.others:
        return first
    return room.text(papers.SO_TOO, first=first, marks=strips.together)


def _chips(block: Block) -> Iterator[Chip]:
    yield from block.chips
    for item in block.items:
        yield from item.work.chips if item.work else ()
