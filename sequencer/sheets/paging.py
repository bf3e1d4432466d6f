"""Which blocks stand on which page: in order, none broken, on the fewest pages, and these as evenly
full as they can be."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from functools import cache

from msgspec import Struct

from sequencer.records import replace
from sequencer.sheets import heights
from sequencer.sheets.block import Block
from sequencer.sheets.lookup import Aside, Asides, high

HIGH: Mapping[str, float] = {"letter": 792 - 34, "a4": 841.89 - 34}
"""Points of a page between its margins."""

_LEGEND = 40.0
"""What the first of them begins with: how its pictures are to be read."""

_SPARE = 2.0
"""Left free, since a height is worked out to the point or so."""

_LEAST = 60.0
"""Points that must be free before anything is looked for to fill them."""

_HOLE = 36.0
"""Points that must be free under the words beside pictures before anything is looked for there."""

_STEP = 4
"""Points by which a row grows for it, again and again."""

_WIDEST_GAP = 40.0


class Row(Struct, frozen=True):
    """A setup, with how many of its items stand beside its pictures; or steps at the bench, one or
    several in two columns, the second of which begins with the block of the number `second`. Of a
    setup also how many points stay free under the words beside its pictures, and what is looked up
    there."""

    blocks: tuple[Block, ...]
    beside: int
    high: float
    second: int = 0
    hole: float = 0.0
    asides: tuple[Aside, ...] = ()


class Page(Struct, frozen=True):
    """Rows on one page, and how many points stay free under each; what is looked up below them."""

    rows: tuple[Row, ...]
    gap: float
    asides: tuple[Aside, ...] = ()


Larger = Callable[[Block], Block]
"""A setup with its picture in the round larger."""

_MORE = 44.0
"""Points that it takes more."""


def pages(
    blocks: Sequence[Block],
    paper: str,
    larger: Larger | None = None,
    asides: Asides | None = None,
) -> tuple[Page, ...]:
    """A row that is higher than a page has one to itself, and goes on over the next."""
    wide = heights.WIDE[paper]
    singles = tuple(_single(block, wide) for block in blocks)
    halves = tuple(_half(block, wide / 2 - 7) for block in blocks)
    # From the last block backward: fewest pages, then the least sum of squares of what stays empty.
    best: list[tuple[int, float, int]] = [(0, 0.0, 0)] * (len(blocks) + 1)
    for first in reversed(range(len(blocks))):
        room = _room(first, paper)
        found: tuple[int, float, int] | None = None
        for after in range(first + 1, len(blocks) + 1):
            taken = _high(_rows(singles[first:after], halves[first:after]))
            if taken > room and after > first + 1:
                break
            count, uneven, _ = best[after]
            empty = max(room - taken, 0.0)
            this = (count + 1, uneven + empty * empty, after)
            found = this if found is None else min(found, this)
        assert found is not None
        best[first] = found
    made, first = [], 0
    while first < len(blocks):
        after = best[first][2]
        rows = _rows(singles[first:after], halves[first:after])
        rows = _fuller(rows, _room(first, paper) - _high(rows), wide, larger)
        free = max(_room(first, paper) - _high(rows), 0.0)
        shown: tuple[Aside, ...] = ()
        if asides:
            rows = _looked_up(rows, free, wide, asides)
            free = max(_room(first, paper) - _high(rows), 0.0)
            there = {each.mark for row in rows for each in row.asides}
            if free > _LEAST:
                shown = asides(blocks[first:after], wide, free - 2 * _SPARE, there)
        free = max(free - high(shown, wide) - heights.GAP, 0.0) if shown else free
        gaps = len(rows) if shown else max(len(rows) - 1, 1)
        gap = min(free / gaps, _WIDEST_GAP)
        made.append(Page(rows, heights.GAP + gap, shown))
        first = after
    return tuple(made)


def _fuller(
    rows: Sequence[Row], free: float, wide: float, larger: Larger | None
) -> tuple[Row, ...]:
    """Rows of a page that has room: with the pictures that stand at an earlier setup too, with
    larger ones in the round, and with steps at the bench one under the other."""
    made = list(rows)

    def tried(at: int, block: Block) -> None:
        nonlocal free
        row = _single(block, wide)
        if row.high - made[at].high <= free:
            free -= row.high - made[at].high
            made[at] = row

    for _ in range(2):
        for at, row in enumerate(made):
            if fuller := row.blocks[0].fuller:
                tried(at, fuller)
    for at, row in enumerate(made):
        block = row.blocks[0]
        if larger and block.number and block.shown and free > _MORE:
            tried(at, larger(block))
    apart: list[Row] = []
    for row in made:
        singles = [_single(block, wide) for block in row.blocks] if row.second else [row]
        more = _high(singles) - _high([row])
        apart += singles if more <= free else [row]
        free -= more if more <= free else 0.0
    return tuple(apart)


def _looked_up(rows: Sequence[Row], free: float, wide: float, asides: Asides) -> tuple[Row, ...]:
    """Rows whose words are shorter than the pictures beside them, with what is looked up under
    these words, each thing once on a page. Such a row may be higher, by no more than was free under
    its words and is free on the page: by as little as lets anything stand there."""
    made: list[Row] = []
    there: set[str] = set()
    for row in rows:
        most = min(free, row.hole) if row.hole > _HOLE else -1.0
        for more in range(0, int(most) + 1, _STEP):
            under = row.hole + more - _SPARE
            if shown := asides(row.blocks, wide - heights.LEFT, under, there):
                made.append(replace(row, high=row.high + more, asides=shown))
                there |= {each.mark for each in shown}
                free -= more
                break
        else:
            made.append(row)
    return tuple(made)


def _room(first: int, paper: str) -> float:
    """Points for the rows of the page that begins with the block of this number."""
    return HIGH[paper] - (0.0 if first else _LEGEND)


def _high(rows: Sequence[Row]) -> float:
    return sum(row.high for row in rows) + heights.GAP * (len(rows) - 1) + _SPARE


def _single(block: Block, wide: float) -> Row:
    if block.number is None:
        return Row((block,), 0, heights.bench(block, wide))
    laid = heights.placed(block, wide)
    return Row((laid.block,), laid.beside, laid.high, hole=laid.hole)


def _half(block: Block, wide: float) -> float | None:
    """How high a step at the bench is in half a page's width; `None` for what needs all of it."""
    if block.number is not None or block.tables:
        return None
    if any(item.check and item.check.series for item in block.items):
        return None
    return heights.bench(block, wide)


def _rows(singles: Sequence[Row], halves: Sequence[float | None]) -> tuple[Row, ...]:
    """The rows of these blocks that are least high together: neighbours at the bench may stand in
    two columns, which are read one after the other."""

    @cache
    def least(first: int) -> tuple[float, tuple[Row, ...]]:
        if first == len(singles):
            return 0.0, ()
        tried = [singles[first]]
        highs: list[float] = []
        for half in halves[first:]:
            if half is None:
                break
            highs.append(half)
            if len(highs) > 1:
                tried.append(_columns(singles[first : first + len(highs)], highs))
        found = []
        for row in tried:
            high, rest = least(first + len(row.blocks))
            found.append((row.high + heights.GAP + high, (row, *rest)))
        return min(found, key=lambda each: each[0])

    return least(0)[1]


def _columns(singles: Sequence[Row], highs: Sequence[float]) -> Row:
    under = heights.GAP
    stacked = [high + under for high in highs]
    high, second = min(
        (max(sum(stacked[:at]), sum(stacked[at:])) - under, at) for at in range(1, len(highs))
    )
    return Row(tuple(row.blocks[0] for row in singles), 0, high, second)
