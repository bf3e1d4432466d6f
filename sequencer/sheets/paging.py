"""Which blocks stand on which page: in order, none broken, on the fewest pages, and these as evenly
full as they can be."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from sequencer.sheets import heights
from sequencer.sheets.blocks import Block

HIGH: Mapping[str, float] = {"letter": 792 - 37, "a4": 841.89 - 37}
"""Points of a page between its margins."""

_LEGEND = 42.0
"""What the first of them begins with: how its pictures are to be read."""

_WIDEST_GAP = 30.0


@dataclass(frozen=True, slots=True)
class Row:
    """A setup, with how many of its items stand beside its picture; or one step at the bench, or
    two side by side."""

    blocks: tuple[Block, ...]
    beside: int
    high: float


@dataclass(frozen=True, slots=True)
class Page:
    """Rows on one page, and how many points stay free under each."""

    rows: tuple[Row, ...]
    gap: float


def pages(blocks: Sequence[Block], paper: str) -> tuple[Page, ...]:
    """A row that is higher than a page has one to itself, and goes on over the next."""
    rows = _rows(blocks)
    highs = [row.high + heights.GAP for row in rows]
    # From the last row backward: fewest pages, then the least sum of squares of what stays empty.
    best: list[tuple[int, float, int]] = [(0, 0.0, 0)] * (len(rows) + 1)
    for first in reversed(range(len(rows))):
        room = _room(first, paper)
        found: tuple[int, float, int] | None = None
        taken = 0.0
        for after in range(first + 1, len(rows) + 1):
            taken += highs[after - 1]
            if taken > room and after > first + 1:
                break
            count, uneven, _ = best[after]
            empty = max(room - taken, 0.0)
            this = (count + 1, uneven + empty * empty, after)
            found = this if found is None else min(found, this)
        assert found is not None
        best[first] = found
    made, first = [], 0
    while first < len(rows):
        after = best[first][2]
        free = max(_room(first, paper) - sum(highs[first:after]), 0.0)
        gap = heights.GAP + min(free / (after - first), _WIDEST_GAP)
        made.append(Page(tuple(rows[first:after]), gap))
        first = after
    return tuple(made)


def _room(first: int, paper: str) -> float:
    """Points for the rows of the page that begins with the row of this number."""
    return HIGH[paper] - (0.0 if first else _LEGEND)


def _rows(blocks: Sequence[Block]) -> list[Row]:
    rows: list[Row] = []
    waiting: Block | None = None
    for block in (*blocks, None):
        if waiting is not None:
            pair = _pair(waiting, block) if block is not None else None
            rows.append(pair or Row((waiting,), 0, heights.bench(waiting)))
            waiting = None
            if pair:
                continue
        if block is None:
            break
        if block.number is None:
            waiting = block
        else:
            setup, count, high = heights.placed(block)
            rows.append(Row((setup,), count, high))
    return rows


def _pair(one: Block, two: Block) -> Row | None:
    """Two steps at the bench side by side, where that takes less than one above the other."""
    wide = (
        each.tables or any(i.check and i.check.series for i in each.items) for each in (one, two)
    )
    if two.number is not None or any(wide):
        return None
    beside = max(heights.bench(each, heights.HALF) for each in (one, two))
    above = sum(heights.bench(each) for each in (one, two)) + heights.GAP
    return Row((one, two), 0, beside) if beside < above else None
