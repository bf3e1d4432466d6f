"""How high a block of the sheets stands, in points, by the sizes that `sheets.css` gives its words.

A test holds what is worked out here against what WeasyPrint and a browser make of it.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from functools import lru_cache

from msgspec import Struct

from sequencer.instructions.bench import Table
from sequencer.records import replace
from sequencer.sheets import svg
from sequencer.sheets.block import Block, Chip, Dial, Item, Turn
from sequencer.sheets.checks import CheckBox, MeasureLine
from sequencer.sheets.rounds.at_saw import Picture
from sequencer.sheets.type import Run, lines, wide
from sequencer.sheets.warned import Warned

WIDE: Mapping[str, float] = {"letter": 580.0, "a4": 564.0}
"""Points that a page's text is wide."""

LEFT = 202.0
"""The pictures' column, with the gap beside it."""

FLAT = 202.0
"""The flat view, where it stands at the right, with the gap beside it."""

GAP = 4.0
"""Under a block, at the least."""

_TITLE, _RULE = 19.0, 5.0
_SMALL, _SMALL_LINE = 10.0, 12.0
_TURN, _TURN_LINE = 11.0, 13.8
_STEP, _STEP_LINE = 12.0, 16.0
_CHIP = 13.0
_SERIES, _SERIES_LINE = 11.5, 14.4
_WINDOW, _CHECK_LINE = 13.5, 13.0
_BLANK = "_" * 10
_NUMBER = 50.0
"""Points that a setup's number takes beside its settings."""

_LABEL, _TRIED, _TARGET = 41.0, 80.0, 27.0
"""Points that the words take that are the same everywhere: of a step's number, of a test cut, of a
target."""

_NBSP = "\N{NO-BREAK SPACE}"
_DIAL = 70.0  # points that are surely there for a setting's words
_SIGN = 16.0  # of a hazard, with the space behind it
_SPACE: Run = (" ", _TURN, False)


class Laid(Struct, frozen=True):
    """A setup laid out: how many of its items stand beside its pictures, how high it is, and how
    many points stay free under the words beside its pictures, where nothing goes on below both."""

    block: Block
    beside: int
    high: float
    hole: float


def placed(block: Block, page: float) -> Laid:
    """A setup laid out so that it is least high on a page `page` points wide. Its pictures stand
    under each other, with the words beside them, or at both sides of what is turned; what is ticked
    by a rule, what falls and what stays may be told under them."""
    dials = sum(max(_dial(dial), _named(dial)) + 9 for dial in block.settings)
    block = replace(block, tight=_NUMBER + dials > LEFT - 4, abreast=False)
    tried = []
    for under, low in ((False, False), (True, False), (False, True), (True, True)):
        turns = tuple(
            replace(turn, half=False, under=under and bool(turn.rule)) for turn in block.turns
        )
        laid = replace(block, turns=turns, low=low)
        tried.append(_stacked(laid, page))
        if laid.flat and laid.shown:
            tried.append(_abreast(laid, page))
    return min(tried, key=lambda each: each.high)


def _stacked(block: Block, page: float) -> Laid:
    right = page - LEFT
    block = replace(block, turns=_halved(block.turns, right))
    left = _left(block) + _picture(block.flat)
    return _least(block, (right, page), left, _head(block, right) + _turned(block, right))


def _abreast(block: Block, page: float) -> Laid:
    right, middle = page - LEFT, page - LEFT - FLAT
    block = replace(block, abreast=True)
    head, flat = _head(block, right), _picture(block.flat)
    turned = _turned(block, middle)
    made = _least(block, (middle, page), max(_left(block), head + flat), head + turned)
    return replace(made, hole=min(made.hole, max(_left(block) - head - flat, 0.0)))


def _left(block: Block) -> float:
    """The settings, the picture in the round, and what is told under the pictures."""
    ticks = (lines([(turn.words, _SMALL, True)], LEFT - 22) for turn in block.turns if turn.under)
    steady = _steady(block, LEFT - 4) if block.low else 0.0
    return _dials(block) + _round(block.shown) + sum(ticks) * (_SMALL_LINE + 0.5) + steady + 2


def _least(block: Block, widths: tuple[float, float], left: float, right: float) -> Laid:
    """With so many items at the right, in a column of the first width, that the block is least
    high; the rest stand below, in the second."""
    items = block.items
    width, page = widths
    best: Laid | None = None
    for count in range(len(items) + 1):
        right += _item(items[count - 1], width) if count else 0.0
        below = sum(_item(item, page) for item in items[count:])
        high = _RULE + max(left, right) + below
        if best is None or high < best.high - 1:
            hole = 0.0 if items[count:] else max(left - right, 0.0)
            best = Laid(block, count, high, hole)
    assert best is not None
    return best


def _dial(dial: Dial) -> float:
    """How wide its figure is."""
    figure = dial.figure
    if figure is None:
        return 65.0
    bold = not dial.stays
    fraction = max(wide(figure.top, 25.0, bold), wide(figure.bottom, 25.0, bold))
    return wide(figure.whole, 28.0, bold) + (fraction + 6 if figure.top else 0)


def _named(dial: Dial) -> float:
    exact = f"({dial.figure.decimal})" if dial.figure and dial.figure.decimal else ""
    stays = wide(" stays", _SMALL) if dial.stays else 0.0
    return max(wide(dial.name, 11.5, bold=True) + stays, wide(exact, 11.0, bold=True))


def _dials(block: Block) -> float:
    """The settings, and under each what stands beside its exact value, which may take two lines."""
    noted = [
        lines([(f"{dial.figure.decimal if dial.figure else ''} {dial.note}", _SMALL, False)], _DIAL)
        for dial in block.settings
        if dial.note or (dial.figure and dial.figure.decimal)
    ]
    return 57.0 + 12.0 * max(noted, default=0)


def _head(block: Block, width: float) -> float:
    """The title, and what is warned of."""
    title = [(f"{block.title} ", 16.0, True), (f"00000 {block.carrier}", 12.0, False)]
    title.append((f" ☐{_NBSP}☐", 22.0, False))
    return 2 + lines(title, width) * _TITLE + _warned(block.warned, width)


def _turned(block: Block, width: float) -> float:
    """What is turned, and what stays."""
    halves = sum(turn.half for turn in block.turns)
    long = (_turn(turn, width) for turn in block.turns if not turn.half and not turn.under)
    steady = 0.0 if block.low else _steady(block, width)
    return halves / 2 * _TURN_LINE + sum(long) + steady + 2


def _steady(block: Block, width: float) -> float:
    steady = [run for line in block.steady for run in ((f" {line}", _SMALL, False), _wide(5.0))]
    return lines(steady, width) * _SMALL_LINE


def _halved(turns: Sequence[Turn], width: float) -> tuple[Turn, ...]:
    """Neighbours that go beside each other, in the order in which they are done."""
    made: list[Turn] = []
    short = [_taken(turn) < width * 0.485 - 19 for turn in turns]
    at = 0
    while at < len(turns):
        pair = turns[at : at + 2]
        both = all(short[at : at + 2]) and len(pair) == 2 and not any(t.under for t in pair)
        made += [replace(turn, half=both) for turn in pair[: 1 + both]]
        at += 1 + both
    return tuple(made)


def bench(block: Block, width: float) -> float:
    """A step at the bench, in a column so wide."""
    title = [_wide(62.0), (f" {block.title}", 14.0, True)]
    high = 9.0 + 17.0 * lines(title, width) + _warned(block.warned, width)
    runs = [run for chip in block.chips for run in (*_chip(chip), _wide(10.0), _SPACE)]
    runs += [(f" {line}", 11.0, False) for line in block.lines]
    high += lines(runs, width) * 15.0 + 1
    high += sum(_table(table, width) for table in block.tables)
    return high + sum(_item(item, width) for item in block.items)


def _table(table: Table, width: float) -> float:
    """Marks to be laid out, in one table or in two beside each other, whose heads break sooner."""
    halved = len(table.columns_of_rows) > 1
    room, beside = (width * 0.48, 8.0) if halved else (width, 22.0)
    rows = [row for half in table.columns_of_rows for row in half]
    columns = zip(table.columns, *rows, strict=True)
    needed = sum(max(wide(text, 11.5, bold=True) for text in each) + beside for each in columns)
    return 20 + 17 * (len(table.columns_of_rows[0]) + 1) + 14 * (needed > room)


def _wide(points: float) -> Run:
    """What takes so much in one piece."""
    return ("0" * round(points), 1 / 0.563, False)


def _picture(drawing: str) -> float:
    return svg.size_of(drawing)[1] + 2 if drawing else 0.0


def _round(picture: Picture | None) -> float:
    return picture.high + 2 if picture else 0.0


def _small(line: str, width: float) -> float:
    return lines([(line, _SMALL, False)], width) * _SMALL_LINE


def _taken(turn: Turn) -> float:
    return (_LABEL if turn.step else 0.0) + wide(turn.words, _TURN, bold=True)


def _turn(turn: Turn, width: float) -> float:
    runs = [_wide(_LABEL), _SPACE] if turn.step else []
    return lines([*runs, (turn.words, _TURN, True)], width - 18) * _TURN_LINE


def _warned(warned: Warned, width: float) -> float:
    """The box of cautions: a line a signal word."""
    if not warned:
        return 0.0
    runs: list[Run] = []
    for word, called, told in warned:
        runs += [] if word == "NOTICE" else [_SPACE, _wide(_SIGN)]
        runs.append((called, _SMALL, True))
        for line in told:
            runs += [_SPACE, _wide(_SIGN)] if line.sign else []
            runs.append((f" {line.lead}", _SMALL, True))
            runs.append((f" {line.rest}", _SMALL, False))
        runs.append((f"{_NBSP} ", _SMALL, False))
    return 9.0 + lines(runs, width - 13) * (_SMALL_LINE + 0.5)


@lru_cache(maxsize=2048)
def _item(item: Item, width: float) -> float:
    high = 0.0
    if item.check:
        high += _check(item.check, width - 12)
    if item.work:
        work = item.work
        runs: list[Run] = []
        if work.verb:
            runs = [_wide(_LABEL), (f" {work.verb}: {work.how}. ", _STEP, False)]
        for chip in work.chips:
            runs += [*_chip(chip), _wide(10.0), _SPACE]
        high += 2 + lines(runs, width) * _STEP_LINE
    return high


def _chip(chip: Chip) -> list[Run]:
    """A mark in bold, where it comes from and its boxes, never broken."""
    note = f"{_NBSP}{chip.note}".replace(" ", _NBSP) if chip.note else ""
    boxes = "".join(f"{_NBSP}{tick}☐" for tick in chip.ticks)
    return [(chip.mark, _CHIP, True), (note, _SMALL, False), (boxes, _CHIP, False)]


def _check(check: CheckBox, width: float) -> float:
    high = 8.5
    if check.scrap:
        how = f": {check.how}" if check.how else ""
        told = (f" {check.scrap}{how}.", _TURN, False)
        high += lines([_wide(_LABEL), _SPACE, _wide(_TRIED), told], width) * _TURN_LINE
    for measure in check.measures:
        high += _measure(measure, bool(check.scrap), width)
    if check.series:
        high += 16.4 + sum(_row(measure, check.few, width) for measure in check.series)
        high += _small(check.series[-1].feel, width)
    return high


def _filled_in(words: str) -> str:
    """What stands before a blank, the blank, and the room behind it."""
    return f"{words}{_NBSP}{_BLANK}{_NBSP}{_NBSP}"


def _row(measure: MeasureLine, few: bool, width: float) -> float:
    """Points of a measure in a table, its columns as wide as the sheets have them."""
    known = measure.target and measure.target.text
    window = f"{measure.low} – {measure.high} "
    marks = measure.marks or ("",)
    blanks = " ".join(_filled_in(mark) for mark in marks)
    name = 0.41 if few else 0.24
    taken: list[tuple[float, list[Run]]] = [
        (name, [(measure.name, _SERIES, False)]),
        (0.10, [(known or "", _SERIES, False)]),
        (0.20, [(window.replace(" ", _NBSP), _SERIES, True), (measure.tool, _SERIES, False)]),
        (0.62 - name, [(blanks, _SERIES, False)]),
    ]
    return 2.0 + max(lines(runs, share * width) for share, runs in taken) * _SERIES_LINE


def _measure(measure: MeasureLine, tried: bool, width: float) -> float:
    runs: list[Run] = [] if tried else [("☐ ", 16, False)]
    runs.append((f"{measure.name} ", _TURN, False))
    if measure.by_fit:
        runs.append((measure.tool.replace(" ", _NBSP), _WINDOW, True))
    else:
        low = f"{measure.low} – " if measure.low else "0" * 7
        runs.append((f"{low}{measure.high}".replace(" ", _NBSP), _WINDOW, True))
        runs.append((f" {measure.unit} {measure.tool}", _SMALL, False))
        if measure.target:
            target = f"{measure.target.text}{'0000' if measure.target.decimal else ''}"
            runs += [(", ", _SMALL, False), _wide(_TARGET), (f" {target}", _SMALL, False)]
    alone = () if measure.by_fit else (measure.blank,)
    for mark in measure.marks or alone:
        runs.append((f" {_filled_in(mark)}", _SMALL, False))
    if measure.as_measured:
        runs.append((f" {_filled_in(measure.as_measured)}", _SMALL, False))
    runs.append((f" {measure.corrections} {measure.feel}", _SMALL, False))
    return lines(runs, width) * _CHECK_LINE
