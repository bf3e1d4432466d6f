"""How a plan's setups are parted over evenings, each with a page above the saw of its own."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from math import ceil

from msgspec import Struct

_STANDING = 0.25
"""How much a setting that has to stand over night counts: an evening half as long again as the
others, or half as short, counts as much."""
_OVER = 100.0
"""How much a page beyond an evening's first one counts: more than all else."""

_End = tuple[int, int, float]
"""The row behind an evening, its pages beyond the first, and its minutes."""


class Row(Struct, frozen=True):
    """A row above the saw: its height in points, minutes of setting up, and whether it is a setup,
    so that an evening may begin with it."""

    high: float
    minutes: float
    setup: bool
    stand: int = 0
    """How many settings have to stand over night if an evening begins here."""
    last: float = 0.0
    """How high a line is, under the last row of the evening before, that tells of them."""


def parted(rows: Sequence[Row], most: float, evenings: int | None) -> list[int]:
    """The rows that an evening begins with. Where their number is not told, as few as there are
    pages, two columns of `most` points, if none takes more than one. Of all partings that one in
    which evenings are about equally long and little has to stand over night."""
    _, *others = (at for at, row in enumerate(rows) if row.setup)
    begins = [0, *others]  # what is done at the bench before the first setup is the first evening's
    ends = {start: list(_ends(rows, start, most)) for start in begins}
    if evenings:
        return _parted(rows, ends, evenings)
    for start, each in ends.items():
        ends[start] = [end for end in each if not end[1]]
    least = ceil(sum(row.high for row in rows) / (2 * most))
    counts = range(least, len(begins) + 1)
    return next(filter(None, (_parted(rows, ends, count) for count in counts)), [0])


def _parted(rows: Sequence[Row], ends: Mapping[int, Sequence[_End]], count: int) -> list[int]:
    """The rows that each of `count` evenings begins with, at the least cost; none where there is
    no such parting."""
    mean = sum(row.minutes for row in rows) / count or 1.0
    least: dict[int, tuple[float, list[int]]] = {len(rows): (0.0, [])}
    for left in range(count):
        found: dict[int, tuple[float, list[int]]] = {}
        for start in ends if left < count - 1 else (0,):
            stand = _STANDING * rows[start].stand if start else 0.0
            ways = (
                (pages * _OVER + (minutes / mean - 1) ** 2 + stand + least[end][0], end)
                for end, pages, minutes in ends[start]
                if end in least
            )
            if best := min(ways, default=None):
                found[start] = best[0], [start, *least[best[1]][1]]
        least = found
    return least[0][1] if 0 in least else []


def filled(highs: Iterable[float], most: float) -> Iterator[tuple[int, float]]:
    """The column, from 0 on, that each row stands in where columns are filled up to `most` points,
    and how much of it is then used."""
    column, used = 0, 0.0
    for high in highs:
        if used and used + high > most:
            column, used = column + 1, 0.0
        used += high
        yield column, used


def _ends(rows: Sequence[Row], start: int, most: float) -> Iterator[_End]:
    """Where an evening from `start` on may end, how many pages beyond its first one it then takes,
    and its minutes."""
    minutes = 0.0
    for at, (column, used) in enumerate(filled((row.high for row in rows[start:]), most), start):
        minutes += rows[at].minutes
        after = rows[at + 1] if at + 1 < len(rows) else None
        if after is None or after.setup:
            more = after is not None and used + after.last > most
            yield at + 1, (column + more) // 2, minutes
