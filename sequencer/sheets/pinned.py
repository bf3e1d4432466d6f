"""The page above the saw: a row a setup, with what is read standing back from the machine."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from itertools import groupby

from msgspec import Struct

from sequencer.plan import Plan
from sequencer.records import replace
from sequencer.sheets.block import Block, Chip, Dial
from sequencer.sheets.rounds.at_saw import Picture
from sequencer.sheets.type import Run, lines
from sequencer.sheets.warned import signal
from sequencer.wording import Room, papers, saws
from sequencer.wording.cautions import parts

WIDE = 276.0
"""Points of a column, at the size that A4 and letter have."""

_LABELS, _TITLE = 250.0, 95.0
_SMALL_LINE = 10.1
_NBSP = "\N{NO-BREAK SPACE}"
_FIGURES, _BENCH = 56.0, 4.2
LARGE: Mapping[str, tuple[str, float, float]] = {
    "letter": ("11in 17in", 792 / 612, 1224.0),
    "a4": ("A3", 2**0.5, 1190.55),
}
"""The paper of two sheets: its name, how many times as large all is on it, and its height."""

HIGH = {"letter": 792 - 34 - 52.0, "a4": 841.89 - 34 - 52.0} | {
    f"{name} twice": high / times - 34 - 52.0 for name, (_, times, high) in LARGE.items()
}
"""Points of a column between head and key, and a line to spare; of two sheets, at their size."""


class Pin(Struct, frozen=True):
    """A setup. `word` is its worst signal word and what that is called, `signs` what covers the
    blade and the hazards that have a sign, each with its words."""

    number: int
    title: str
    carrier: str
    picture: Picture | None
    settings: tuple[Dial, ...]
    lies: tuple[str, ...]
    good: tuple[str, ...]
    pieces: str
    guard: str
    word: tuple[str, str]
    signs: tuple[tuple[str, str], ...]
    briefs: tuple[tuple[str, str, str], ...] = ()
    """The rule, what its signal word is called, where that is another than the last one's, and the
    one line of each caution."""


class Bench(Struct, frozen=True):
    """Steps at the bench that follow one another."""

    numbers: str
    titles: str


Column = tuple[Pin | Bench, ...]


class Pinned(Struct, frozen=True):
    """One page: two columns of rows, and the setups on it where they are not all."""

    columns: tuple[Column, Column]
    setups: str


def pinned(
    plan: Plan, blocks: Sequence[Block], paper: str, room: Room, *, brief: bool = False
) -> tuple[Pinned, ...]:
    """As many pages as it takes, each row whole and every page but the last one full; `brief` with
    the one line of every caution. What is done at the bench behind the last setup is left out where
    it would take a page by itself: it is not done at the saw."""
    rows = list(_rows(plan, blocks, room))
    if brief:
        rows = [_briefed(row, plan, room) if isinstance(row, Pin) else row for row in rows]
    highs = [_high(row) for row in rows]
    most = HIGH[paper]
    columns = _filled(rows, highs, most)
    if len(columns) % 2 and columns[1:] and all(isinstance(row, Bench) for row in columns[-1]):
        rows, columns = rows[: -len(columns[-1])], columns[:-1]
    last = (len(columns) - 1) // 2 * 2
    columns = [*columns[:last], *_evened(rows, highs, sum(map(len, columns[:last])))]
    columns += [()] * (len(columns) % 2)
    return tuple(
        Pinned((one, two), _numbers((*one, *two), room) if len(columns) > 2 else "")
        for one, two in zip(columns[::2], columns[1::2], strict=True)
    )


def _evened(rows: Sequence[Pin | Bench], highs: Sequence[float], first: int) -> list[Column]:
    """The last page's rows, from the `first` on, in two columns about equally high."""
    left, under = rows[first:], highs[first:]
    at = min(range(len(left) + 1), key=lambda at: max(sum(under[:at]), sum(under[at:])))
    return [tuple(left[:at]), tuple(left[at:])]


def _filled(rows: Sequence[Pin | Bench], highs: Sequence[float], most: float) -> list[Column]:
    """Columns filled up to `most` points."""
    columns: list[list[Pin | Bench]] = [[]]
    used = 0.0
    for row, high in zip(rows, highs, strict=True):
        if columns[-1] and used + high > most:
            columns.append([])
            used = 0.0
        columns[-1].append(row)
        used += high
    return [tuple(column) for column in columns]


def _numbers(rows: Column, room: Room) -> str:
    found = [row.number for row in rows if isinstance(row, Pin)]
    if not found:
        return ""
    told = str(found[0]) if found[0] == found[-1] else f"{found[0]}–{found[-1]}"
    return papers.setups(found, told, room)


def _rows(plan: Plan, blocks: Sequence[Block], room: Room) -> Iterator[Pin | Bench]:
    setups = {setup.number: setup for setup in plan.setups}
    for number, group in groupby(blocks, key=lambda block: block.number):
        run = list(group)
        if number is not None:
            setup = setups[number]
            guard = papers.GUARD_ON if setup.guard == "fitted" else papers.GUARD_OFF
            yield _pin(
                run[0],
                saws.carrier(setup.carrier, room).short,
                room.text(guard),
            )
            continue
        first, last = run[0].step, run[-1].step
        told = str(first) if first == last else f"{first}–{last}"
        steps = room.counted(papers.STEPS, len(run), numbers=told)
        yield Bench(steps, "; ".join(block.title for block in run))


def _pin(block: Block, carrier: str, guard: str) -> Pin:
    works = [item.work for item in block.items if item.work is not None]
    checks = [item.check for item in block.items if item.check is not None]
    good = [
        f"{measure.name} {measure.low or '≤'}{'–' if measure.low else ''}{measure.high}"
        for check in checks
        for measure in check.measures
        if not measure.by_fit
    ]
    word, called, _ = block.warned[0] if block.warned else ("", "", ())
    told = [line for _, _, each in block.warned for line in each if line.sign]
    assert block.number is not None
    return Pin(
        number=block.number,
        title=block.title,
        carrier=carrier,
        picture=block.small,
        settings=block.settings,
        lies=(
            *((block.between,) if block.between else ()),
            *dict.fromkeys(work.how for work in works if work.how),
        ),
        good=tuple(good),
        pieces=" ".join(_marked(chip) for work in works for chip in work.chips),
        guard=guard,
        word=(word, called),
        signs=(*block.signs, *((line.sign, "") for line in told)),
    )


def _briefed(pin: Pin, plan: Plan, room: Room) -> Pin:
    cautions = next(setup.cautions for setup in plan.setups if setup.number == pin.number)
    told, last = [], ""
    for each in cautions:
        word = signal(each.word, room)
        told.append((each.rule, "" if word == last else word, parts(room, each).brief))
        last = word
    return replace(pin, briefs=tuple(told))


def _marked(chip: Chip) -> str:
    """A mark with the ends that are cut, where they are named."""
    return "/".join((chip.mark, *(tick for tick in chip.ticks if len(tick) == 1)))


def _high(row: Pin | Bench) -> float:
    if isinstance(row, Bench):
        told = [(f"{row.numbers}: ", 9.0, True), (row.titles, 9.0, False)]
        return _BENCH + lines(told, WIDE - 8) * _SMALL_LINE
    title = lines([(f"{row.title} ", 9.0, True), (row.carrier, 9.0, False)], _TITLE)
    title = max(title, 1 + any(setting.note for setting in row.settings))
    small, pieces = _briefly_told(row) if row.briefs else _told(row)
    return _FIGURES + (title - 1) * 10.4 + small * _SMALL_LINE + pieces * 11.6


def _told(row: Pin) -> tuple[int, int]:
    """Lines of how the pieces lie and what is good; and of the pieces, behind their signal word."""
    lies = lines([(" / ".join(row.lies), 8.5, False)], _LABELS)
    good = lines([(" · ".join(row.good), 8.5, False)], _LABELS)
    word = f"☐ {row.word[1]} " if row.word[0] else ""
    return lies + good, lines([(word, 10.0, True), (row.pieces, 10.0, True)], _LABELS)


def _briefly_told(row: Pin) -> tuple[int, int]:
    """Lines of the cautions; and of the pieces, with how they lie and what is good behind them."""
    cautions: list[Run] = [("☐ ", 10.0, False)]
    for _, word, said in row.briefs:
        cautions += [(f" {word} ", 8.5, True), (said, 8.5, False)]
    pieces: list[Run] = [(f"{row.pieces} ", 10.0, True), (" / ".join(row.lies), 8.5, False)]
    pieces += [(f" · {each.replace(' ', _NBSP)}", 8.5, True) for each in row.good]
    return lines(cautions, _LABELS), lines(pieces, _LABELS)
