"""The layout as a problem of whole numbers: items on boards, two cuts deep.

A board is crosscut into segments, a segment ripped into items side by side; an item may be shorter
than its segment, which is as long as its longest. A kerf lies between neighbours: lengths and
widths of items and boards come here one kerf larger than they are, so that sums compare.

What is sought, in this order: every item placed; fewest boards; least volume of boards.
"""

from __future__ import annotations

from collections.abc import Sequence

from msgspec import Struct

Segment = tuple[int, tuple[int, ...]]
"""A board's index, and the items ripped from one of its rough lengths, longest first."""


class Item(Struct, frozen=True):
    """`boards` are the indices of those it may come from; all items of one `tie` come from one."""

    length: int
    width: int
    boards: frozenset[int]
    tie: int | None = None

    @property
    def area(self) -> int:
        return self.length * self.width


class Bin(Struct, frozen=True):
    """A board's usable length and width, and what using it costs (its volume)."""

    length: int
    width: int
    volume: int

    @property
    def area(self) -> int:
        return self.length * self.width


class Packing(Struct, frozen=True):
    """`left` are the items that found no place; `least` is a number of boards that no layout
    beats; `proven`: none takes fewer boards, nor as many with less volume."""

    segments: tuple[Segment, ...]
    left: tuple[int, ...]
    least: int
    proven: bool

    @property
    def boards(self) -> tuple[int, ...]:
        return tuple(dict.fromkeys(board for board, _ in self.segments))


def fullest(sizes: Sequence[int], room: int, most: int = 800) -> int:
    """The largest sum of some of the sizes within `room`: no cut makes more of it than that.
    `room` itself where there are more than `most` sums to try."""
    if room < 0:
        return 0
    within = (1 << room + 1) - 1
    sums = 1  # a bit for each sum
    for size in sizes:
        sums |= sums << size & within
        if sums.bit_count() > most:
            return room
    return sums.bit_length() - 1


def by_length(items: Sequence[Item]) -> list[int]:
    """Indices, longest first: a segment is then as long as the item that begins it."""
    return sorted(range(len(items)), key=lambda n: (-items[n].length, -items[n].width, n))
