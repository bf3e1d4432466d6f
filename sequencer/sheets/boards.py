"""The wood on the night-before pages: what to buy, what to cut from which board, what to order."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction
from math import ceil

from msgspec import Struct

from sequencer.instructions.figures import Scale
from sequencer.plan import Blank, Board, Order, Plan, RoughLine, Span
from sequencer.records import replace
from sequencer.sheets import svg
from sequencer.sheets.layouts import WIDTH, hatch
from sequencer.sheets.runs import together
from sequencer.wording import Room, papers, pictures

_TYPE = 12
_TIGHT = 9
_PAD = 2


class WoodLine(Struct, frozen=True):
    """A wood and thickness, milled together: its sticks, and how much to buy of what."""

    material: str
    thickness: str
    sticks: str
    least: str
    amount: str
    buy: str


class BoardLine(Struct, frozen=True):
    """A board to cut, in words and drawn."""

    mark: str
    size: str
    cuts: str
    left: str
    drawing: str


class OrderLine(Struct, frozen=True):
    """Something to order: how many, what, its size in the plan's unit (empty where it has none),
    and the sign of its note."""

    count: int
    what: str
    size: str
    note: str


class WoodPage(Struct, frozen=True):
    """`missing` blanks with their sizes; `idle` boards stay on the rack; `glued` says which sticks
    are glued up from which strips."""

    wood: tuple[WoodLine, ...]
    allowance: int
    boards: tuple[BoardLine, ...]
    trims: str
    idle: str
    glued: tuple[str, ...]
    says: tuple[str, ...]
    missing: tuple[str, ...]
    orders: tuple[OrderLine, ...]
    order_notes: tuple[str, ...]


def wood_page(plan: Plan, scale: Scale) -> WoodPage:
    room = scale.room
    used = [board for board in plan.boards if board.blanks]
    points = WIDTH / max((board.size.length for board in used), default=Fraction(1))
    return WoodPage(
        wood=tuple(_wood(line, scale) for line in plan.rough),
        allowance=max((line.allowance for line in plan.rough), default=0),
        boards=tuple(_board(board, points, scale) for board in used),
        trims=_trims(used, scale),
        idle=", ".join(board.mark for board in plan.boards if not board.blanks),
        glued=_glued(plan, room),
        says=tuple(room.say(fact) for fact in plan.layout),
        missing=tuple(_blank(blank, scale) for blank in plan.missing),
        orders=_orders(plan.orders, scale, room),
        order_notes=_order_notes(plan.orders, room),
    )


def _wood(line: RoughLine, scale: Scale) -> WoodLine:
    room = scale.room
    whole = [mark for mark in line.sticks if "+" not in mark]
    sticks = [together(whole)] if whole else []
    sticks += [room.text(papers.ONE_PIECE, mark=mark) for mark in line.sticks if "+" in mark]
    tests = together(line.test_sticks).split(", ") if line.test_sticks else []
    sticks += [room.text(papers.FOR_TESTS, mark=run) for run in tests]
    first = papers.FEET_FIRST if scale.unit == "in" else papers.METRES_FIRST
    feet, volume = _decimal(line.board_feet_with, 1), _decimal(line.cubic_metres_with, 4)
    return WoodLine(
        material=room.own(line.material),
        thickness=scale.text(line.thickness),
        sticks=", ".join(sticks),
        least=f"{scale.text(line.longest)} × {scale.text(line.widest)}",
        amount=room.text(first, feet=feet, volume=volume),
        buy=_buy(line, scale),
    )


def _buy(line: RoughLine, scale: Scale) -> str:
    room, thickness = scale.room, scale.told(line.bought_thickness)
    if not line.buy:
        return room.text(papers.SAWN_AT_LEAST, thickness=thickness)
    if line.yields is None:
        return room.text(papers.SAWN, buy=line.buy, thickness=thickness)
    planed = scale.told(line.yields)
    return room.text(papers.SAWN_PLANED, buy=line.buy, thickness=thickness, planed=planed)


def _decimal(value: Fraction, places: int) -> str:
    """Rounded up: nobody is to buy too little.

    >>> _decimal(Fraction(463, 100), 1)
    '4.7'
    """
    whole, rest = divmod(ceil(value * 10**places), 10**places)
    return f"{whole}.{rest:0{places}d}"


def _board(board: Board, points: Fraction, scale: Scale) -> BoardLine:
    size = board.size
    room = scale.room
    lengths = tuple(scale.text(high - low) for low, high in board.crosscuts)
    end = size.length - board.trim
    over = end - board.crosscuts[-1][1]
    return BoardLine(
        mark=board.mark,
        size=" × ".join(scale.text(v) for v in (size.length, size.width, size.thickness)),
        cuts=room.text(papers.CROSSCUT_TO, lengths=lengths),
        left=room.text(papers.LEFT_OVER, length=scale.told(over)) if over > 0 else "",
        drawing=board_drawing(board, points, scale),
    )


def board_drawing(board: Board, points: Fraction, scale: Scale) -> str:
    """The board to scale: blanks light with mark and size, crosscuts as heavy lines; what falls
    off, the trimmed ends and the straightened edge are hatched."""
    long, wide = board.size.length * points, board.size.width * points
    top = Fraction(_PAD)
    shapes = [
        svg.rect(0, top, long, wide, fill="#fff"),
        *hatch(Fraction(0), top, long, wide),
    ]
    shapes += [_end(low, high, top, wide, points) for low, high in board.crosscuts]
    for blank in board.blanks:
        shapes += _drawn(blank, top, points, scale)
    marks = tuple(blank.mark for blank in board.blanks)
    says = scale.room.text(pictures.BOARD_OF, mark=board.mark, marks=marks)
    return svg.drawing(long, wide + 2 * _PAD, shapes, says)


def _end(low: Fraction, high: Fraction, top: Fraction, wide: Fraction, points: Fraction) -> str:
    return "".join(
        svg.line(at * points, top, at * points, top + wide, width=2) for at in (low, high)
    )


def _drawn(blank: Blank, top: Fraction, points: Fraction, scale: Scale) -> list[str]:
    x, y = blank.at[0] * points, top + blank.at[1] * points
    long, wide = blank.size.length * points, blank.size.width * points
    words = f"{blank.mark}  {scale.text(blank.size.length)} × {scale.text(blank.size.width)}"
    roomy = wide >= _TYPE + 1 and svg.text_width(words, _TYPE, bold=True) <= long - 4
    size = _TYPE if roomy else _TIGHT
    if svg.text_width(words, size, bold=True) > long - 4:
        words, size = blank.mark, _TYPE if wide >= _TYPE + 1 else _TIGHT
    middle = y + wide / 2 + Fraction(size * 3, 8)
    return [
        svg.rect(x, y, long, wide, fill=svg.WOOD),
        svg.text(x + long / 2, middle, words, size, anchor="middle", bold=True),
    ]


def _trims(boards: Sequence[Board], scale: Scale) -> str:
    """What comes off before anything is laid out; boards that differ each with their own."""
    off: dict[Span, list[str]] = {}
    for board in boards:
        off.setdefault((board.trim, board.edge), []).append(board.mark)
    room = scale.room
    said = [
        (room.text(papers.TRIM, ends=scale.told(trim), edge=scale.told(edge)), marks)
        for (trim, edge), marks in off.items()
    ]
    if len(said) == 1:
        return said[0][0]
    return "; ".join(
        room.text(papers.TRIM_OF, marks=tuple(marks), off=words) for words, marks in said
    )


def _glued(plan: Plan, room: Room) -> tuple[str, ...]:
    strips: dict[str, list[str]] = {}
    placed = [blank for board in plan.boards for blank in board.blanks]
    for blank in (*placed, *plan.missing):
        if blank.mark != blank.stick:
            strips.setdefault(blank.stick, []).append(blank.mark)
    order = [stick.mark for stick in plan.sticks if stick.mark in strips]
    return tuple(
        room.text(papers.GLUED, strip=stick, marks=tuple(sorted(strips[stick]))) for stick in order
    )


def _blank(blank: Blank, scale: Scale) -> str:
    size = blank.size
    figures = " × ".join(scale.text(v) for v in (size.length, size.width, size.thickness))
    return scale.room.text(
        papers.MISSING,
        mark=blank.mark,
        material=scale.room.own(blank.material),
        size=figures,
        unit=scale.unit,
    )


def _orders(orders: Sequence[Order], scale: Scale, room: Room) -> tuple[OrderLine, ...]:
    """Equal ones together, in the order in which they are first told."""
    counts: dict[Order, int] = {}
    for order in orders:
        alike = replace(order, count=1)
        counts[alike] = counts.get(alike, 0) + order.count
    notes = [order.note for order in orders if order.note]
    signs = {note: str(n) for n, note in enumerate(dict.fromkeys(notes), 1)}
    return tuple(
        OrderLine(
            count=count,
            what=room.say(order.what),
            size=" × ".join(scale.text(length) for length in order.size),
            note="" if order.note is None else signs[order.note],
        )
        for order, count in counts.items()
    )


def _order_notes(orders: Sequence[Order], room: Room) -> tuple[str, ...]:
    """Each note once, as a sentence; its number is its sign."""
    notes = dict.fromkeys(order.note for order in orders if order.note)
    return tuple(room.sentence(note) for note in notes)
