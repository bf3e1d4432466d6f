"""What is looked up while working, where a page has room for it: the strips that pieces come from,
and the leaves they go into, as the front pages have them."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence

from msgspec import Struct

from sequencer.sheets import svg
from sequencer.sheets.block import Block, Chip
from sequencer.sheets.front import Front

GAP = 12.0
"""Points beside each, and above the first line."""

CAPTION = 13.0

_LEAF = 0.7
"""Of a leaf's size on the first page: its marks are then 9 points."""


class Aside(Struct, frozen=True):
    """A drawing with what it shows."""

    mark: str
    drawing: str


Asides = Callable[[Sequence[Block], float, float], tuple[Aside, ...]]


def asides(front: Front) -> Asides:
    """What chooses for the blocks of a page and its free points, wide and high."""

    def chosen(blocks: Sequence[Block], wide: float, free: float) -> tuple[Aside, ...]:
        made: list[Aside] = []
        for each in dict.fromkeys(_wanted(front, blocks)):
            if high((*made, each), wide) <= free:
                made.append(each)
        return tuple(made)

    return chosen


def high(made: Sequence[Aside], wide: float) -> float:
    """How high they stand, one beside the other in lines of a page so wide; nothing without any."""
    if not made:
        return 0.0
    under, used, line = GAP, 0.0, 0.0
    for each in made:
        across, tall = svg.size_of(each.drawing)
        if used and used + across + GAP > wide:
            under, used, line = under + line, 0.0, 0.0
        used, line = used + across + GAP, max(line, tall + CAPTION)
    return under + line


def _wanted(front: Front, blocks: Sequence[Block]) -> Iterator[Aside]:
    """Strips that are ripped here or that pieces are cut from, then the leaves of all pieces."""
    chips = [chip for block in blocks for chip in _chips(block)]
    cut = {chip.mark for chip in chips if chip.note or chip.mark.startswith("#")}
    for stick in front.sticks:
        if stick.mark in cut or cut & set(stick.pieces):
            yield Aside(stick.mark, stick.drawing)
    doors = {chip.mark.rstrip("0123456789") for chip in chips}
    for door in front.doors:
        if doors & set(door.marks):
            yield Aside(", ".join(door.marks), svg.scaled(door.drawing, _LEAF))


def _chips(block: Block) -> Iterator[Chip]:
    yield from block.chips
    for item in block.items:
        yield from item.work.chips if item.work else ()
