"""Rows above the saw: what each setup is read by from a distance, and how high it is."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import groupby
from math import ceil

from msgspec import Struct

from sequencer.plan import Plan
from sequencer.records import replace
from sequencer.sheets.block import Block, Chip, Dial
from sequencer.sheets.rounds.at_saw import Picture
from sequencer.sheets.runs import of_pieces
from sequencer.sheets.type import Run, lines
from sequencer.sheets.warned import signal
from sequencer.wording import Room, papers, saws
from sequencer.wording.cautions import parts

# Points, by the sizes of `.pin` in sheets.css.
_NUMBER, _DIALS, _BESIDE = 25.0, 191.0, 290.0
_DIGITS, _SIGN, _BIG = 38.0, 12.5, 40.0
_SMALL_LINE, _UNDER = 10.1, 4.0
_NBSP = "\N{NO-BREAK SPACE}"
_FIGURES, _BENCH = 56.0, 4.2


class Pin(Struct, frozen=True):
    """A setup. `word` is its worst signal word and what that is called, `signs` what covers the
    blade and the hazards that have a sign, each with its words."""

    number: int
    title: str
    carrier: str
    picture: Picture | None
    settings: tuple[Dial, ...]
    lies: tuple[str, ...]
    good: tuple[tuple[str, str], ...]
    """Each measure, and from where to where it is good."""
    pieces: str
    guard: str
    word: tuple[str, str]
    signs: tuple[tuple[str, str], ...]
    briefs: tuple[tuple[str, str, str], ...] = ()
    """The rule, what its signal word is called, where that is another than the last one's, and the
    one line of each caution."""


class Bench(Struct, frozen=True):
    """Steps at the bench that follow one another; or what the saw is left with, and until when."""

    numbers: str
    titles: str


def rows(plan: Plan, blocks: Sequence[Block], room: Room) -> Iterator[Pin | Bench]:
    """All rows, in the order of work."""
    setups = {setup.number: setup for setup in plan.setups}
    for number, group in groupby(blocks, key=lambda block: block.number):
        run = list(group)
        if number is not None:
            setup = setups[number]
            guard = papers.GUARD_ON if setup.guard == "fitted" else papers.GUARD_OFF
            yield _pin(run[0], saws.carrier(setup.carrier, room).short, room.text(guard), room)
            continue
        first, last = run[0].step, run[-1].step
        told = str(first) if first == last else f"{first}–{last}"
        steps = room.counted(papers.STEPS, len(run), numbers=told)
        yield Bench(steps, "; ".join(block.title for block in run))


def _pin(block: Block, carrier: str, guard: str, room: Room) -> Pin:
    works = [item.work for item in block.items if item.work is not None]
    checks = [item.check for item in block.items if item.check is not None]
    good = [
        (measure.name, f"{measure.low}–{measure.high}" if measure.low else f"≤{measure.high}")
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
        pieces=of_pieces(
            [_marked(chip) for work in works for chip in work.chips],
            lambda doors: room.text(papers.OF_EACH, doors=doors),
        ),
        guard=guard,
        word=(word, called),
        signs=(*block.signs, *((line.sign, "") for line in told)),
    )


def briefed(pin: Pin, plan: Plan, room: Room) -> Pin:
    """The same with the one line of each of its setup's cautions."""
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


def high(row: Pin | Bench, wide: float, *, beside: bool = False) -> float:
    """Points that a row takes at the least size in a column so `wide`, its words under the figures
    or `beside` them."""
    if isinstance(row, Bench):
        told = [(f"{row.numbers}: ", 9.0, True), (row.titles, 9.0, False)]
        return _BENCH + lines(told, wide - 8) * _SMALL_LINE
    title = lines([(f"{row.title} ", 9.0, True), (row.carrier, 9.0, False)], wide - _DIALS)
    title = max(title, 1 + any(setting.note for setting in row.settings))
    figures = _FIGURES + (title - 1) * 10.4
    if not beside:
        return figures + _told(row, wide - _NUMBER)
    number = _DIGITS + ceil(len(row.signs) / 2) * _SIGN
    return max(number, figures + max(_UNDER, _told(row, wide - _BESIDE) - _BIG))


def _told(row: Pin, wide: float) -> float:
    """Points of what stands in words."""
    small, pieces = _brief_lines(row, wide) if row.briefs else _lines(row, wide)
    return small * _SMALL_LINE + pieces * 11.6


def _lines(row: Pin, wide: float) -> tuple[int, int]:
    """Lines of how the pieces lie and what is good; and of the pieces, behind their signal word."""
    lies = lines([(" / ".join(row.lies), 8.5, False)], wide)
    good = lines([(" · ".join(_in_one(row)), 8.5, False)], wide)
    word = f"☐☐ {row.word[1]}    " if row.word[0] else ""  # a sign, and room behind the word
    return lies + good, lines([(word, 10.0, True), (row.pieces, 10.0, True)], wide)


def _brief_lines(row: Pin, wide: float) -> tuple[int, int]:
    """Lines of the cautions; and of the pieces, with how they lie and what is good behind them."""
    cautions: list[Run] = [("☐ ", 12.0, False)]
    for _, word, said in row.briefs:
        cautions += [(f" {word} ", 8.5, True), (said, 8.5, False)]
    pieces: list[Run] = [(f"{row.pieces} ", 10.0, True), (" / ".join(row.lies), 8.5, False)]
    pieces += [(f" · {each}", 8.5, True) for each in _in_one(row)]
    return lines(cautions, wide), lines(pieces, wide)


def _in_one(row: Pin) -> list[str]:
    """What is good, as it may break: not within its numbers."""
    return [f"{name} {window.replace(' ', _NBSP)}" for name, window in row.good]
