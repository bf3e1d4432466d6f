"""The pages above the saw: a row a setup, with what is read standing back from the machine."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from fractions import Fraction
from itertools import groupby

from msgspec import Struct

from sequencer.plan import Plan
from sequencer.records import replace
from sequencer.sheets.block import Block
from sequencer.sheets.evenings import Row, filled, parted
from sequencer.sheets.heights import WIDE
from sequencer.sheets.pins import Bench, Pin, briefed, high, rows
from sequencer.wording import Room, papers

LARGE: Mapping[str, tuple[str, float, float]] = {
    "letter": ("11in 17in", 792 / 612, 1224.0),
    "a4": ("A3", 2**0.5, 1190.55),
}
"""The paper of two sheets: its name, how many times as large all is on it, and its height."""

HIGH = {"letter": 792 - 34 - 42.0, "a4": 841.89 - 34 - 42.0} | {
    f"{name} twice": tall / times - 34 - 52.0 for name, (_, times, tall) in LARGE.items()
}
"""Points of a column between head and key, and a line to spare; of two sheets, at their size."""

_BETWEEN = 12.0

LARGER = (1.4, 1.35, 1.3, 1.25, 1.2, 1.15, 1.1, 1.05)
"""How many times as large rows may be that have a page's width. Figures of 28 points can be read
from 1.5 m, of 38 with ease (16 and 22 minutes of arc; ISO 9241-3): 31 at the least size here."""

Column = tuple[Pin | Bench, ...]


class Pinned(Struct, frozen=True):
    """One page: two columns of rows, or one of rows so many `times` as large, and what its heading
    says of its setups where they are not all."""

    columns: tuple[Column, ...]
    setups: str = ""
    times: float = 1.0


def pinned(
    plan: Plan,
    blocks: Sequence[Block],
    paper: str,
    room: Room,
    *,
    brief: bool = False,
    evenings: int | None = None,
) -> tuple[Pinned, ...]:
    """A page an evening, each row whole; where no number of `evenings` is told, as few pages as it
    takes. `brief` with the one line of every caution. What is done at the bench behind the last
    setup is left out where it would take a page by itself: it is not done at the saw."""
    made: Column = tuple(rows(plan, blocks, room))
    if brief:
        made = tuple(briefed(row, plan, room) if isinstance(row, Pin) else row for row in made)
    minutes = plan.taking
    most, wide = HIGH[paper], WIDE[paper.removesuffix(" twice")]
    starts = _starts(made, minutes, most, wide / 2 - _BETWEEN, evenings, room)
    found: list[Pinned] = []
    for count, (start, end) in enumerate(zip(starts, [*starts[1:], len(made)], strict=True), 1):
        after = (_left(made, end, room),) if end < len(made) else ()
        sheets = _sheets((*made[start:end], *after), most, wide, last=not after)
        for sheet in sheets:
            told = "" if len(sheets) == len(starts) == 1 else _told_of(sheet, minutes, room)
            if told and evenings and evenings > 1:
                told = room.text(papers.EVENING, n=count, all=len(starts), setups=told)
            found.append(replace(sheet, setups=told))
    return tuple(found)


def _starts(
    made: Column,
    minutes: Mapping[int, Fraction],
    most: float,
    wide: float,
    evenings: int | None,
    room: Room,
) -> list[int]:
    """The rows that pages or evenings begin with."""
    told = [
        Row(
            high(row, wide),
            float(minutes[row.number]),
            True,
            len(_standing(made[at:])),
            high(_left(made, at, room), wide),
        )
        if isinstance(row, Pin)
        else Row(high(row, wide), 0.0, False)
        for at, row in enumerate(made)
    ]
    last = max(at for at, row in enumerate(told) if row.setup)
    without = parted(told[: last + 1], most, evenings)
    wanted = parted(told, most, evenings)
    return wanted if len(wanted) == len(without) else without


def _standing(later: Column) -> tuple[str, ...]:
    """The settings that have to stand while the saw is left: what a `later` setup finds as an
    earlier one left it."""
    first: dict[str, bool] = {}
    for row in later:
        if isinstance(row, Pin):
            for setting in row.settings:
                first.setdefault(setting.name, setting.stays)
    return tuple(name for name, stays in first.items() if stays)


def _left(made: Column, end: int, room: Room) -> Bench:
    """How the saw may be left before the setup that stands in the row `end`."""
    number, *_ = _setups(made[end:])
    standing = _standing(made[end:])
    words = papers.LEAVE_SET if standing else papers.NOTHING_SET
    return Bench(
        room.text(papers.UNTIL, n=number), room.text(words, settings=room.listed(standing))
    )


def _sheets(made: Column, most: float, wide: float, *, last: bool) -> list[Pinned]:
    """The pages of an evening: one, of large rows, where they go in a column; else all but the last
    one full, its two columns about equally high. Of the `last` evening, without a column that is
    done at the bench alone."""
    for times in LARGER:
        if sum(high(row, wide / times, beside=True) for row in made) * times <= most:
            return [Pinned((made,), times=times)]
    column = wide / 2 - _BETWEEN
    columns = _filled(made, most, column)
    alone = all(isinstance(row, Bench) for row in columns[-1])
    if last and alone and len(columns) % 2 and columns[1:]:
        columns = columns[:-1]
    full = (len(columns) - 1) // 2 * 2
    columns[full:] = _evened([row for each in columns[full:] for row in each], column)
    return [Pinned(both) for both in zip(columns[::2], columns[1::2], strict=True)]


def _evened(left: Sequence[Pin | Bench], wide: float) -> list[Column]:
    """The last page's rows in two columns about equally high."""
    highs = [high(row, wide) for row in left]
    at = min(range(len(left) + 1), key=lambda at: max(sum(highs[:at]), sum(highs[at:])))
    return [tuple(left[:at]), tuple(left[at:])]


def _filled(made: Column, most: float, wide: float) -> list[Column]:
    """Columns filled up to `most` points."""
    placed = filled((high(row, wide) for row in made), most)
    columns = groupby(zip(placed, made, strict=True), key=lambda each: each[0][0])
    return [tuple(row for _, row in column) for _, column in columns]


def _setups(made: Sequence[Pin | Bench]) -> list[int]:
    return [row.number for row in made if isinstance(row, Pin)]


def _told_of(sheet: Pinned, minutes: Mapping[int, Fraction], room: Room) -> str:
    """A page's setups and their minutes."""
    found = _setups([row for column in sheet.columns for row in column])
    if not found:
        return ""
    told = str(found[0]) if found[0] == found[-1] else f"{found[0]}–{found[-1]}"
    total = sum((minutes[number] for number in found), Fraction(0))
    setups = papers.setups(found, told, room)
    return room.text(papers.SETTING_UP, setups=setups, minutes=room.minutes(total))
