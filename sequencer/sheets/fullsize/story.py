"""Story sticks: where the parts of a door begin and end along its height and its width, at full
size, a lane for each. Exact as the plan; what is drawn is not rounded."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from fractions import Fraction
from itertools import product

from msgspec import Struct

from sequencer.instructions.figures import Scale
from sequencer.plan import Door, Plan
from sequencer.proof.grain import Grain, grain_of
from sequencer.proof.solid import bounds
from sequencer.sheets import svg
from sequencer.sheets.fullsize.paper import TILE, Drawing, Word, line
from sequencer.sheets.rounds.leaves import Member, leaf_members
from sequencer.wording import fullsize

_HEAD = 2.0
_NAME, _ROW, _FOOT = 5.0, 4.4, 1.6
"""Heights in a lane: the marks of its parts, a row of figures, what lies under them."""
_SIZE = 3.2
_BESIDE = 1.0
"""Between a mark's line and its figure."""
_NARROW = 75.0
"""Of a last tile with its name, at least."""

Lane = tuple[Fraction, ...]
"""Where a part begins, where its shoulders are, where it ends; in the plan's unit."""


class Stick(Struct, frozen=True):
    """One story stick of a leaf: the lanes with the parts that share each."""

    door: str
    upright: bool
    lanes: tuple[tuple[Lane, tuple[str, ...]], ...]


class Figure(Struct, frozen=True):
    """A mark of a lane and its figure, without words where the lane begins at the stick's end. The
    row counts from the lane's foot up; lengths in mm."""

    at: float
    words: str
    x: float
    width: float
    row: int


def story_sticks(plan: Plan, scale: Scale) -> Iterator[Drawing]:
    """Two of each leaf; leaves that have the same share theirs."""
    grain = grain_of(plan)
    found: dict[tuple[bool, tuple[Lane, ...]], list[Stick]] = {}
    for door in plan.doors:
        for stick in _of_door(plan, door, grain):
            key = (stick.upright, tuple(lane for lane, _ in stick.lanes))
            found.setdefault(key, []).append(stick)
    for sticks in found.values():
        yield _drawn(sticks, scale)


def _of_door(plan: Plan, door: Door, grain: Grain) -> Iterator[Stick]:
    members = leaf_members(plan, door, grain)
    if not members:
        return
    for axis in (1, 0):
        start = min(bounds(each.wood)[2 * axis] for each in members)
        lanes: dict[Lane, tuple[str, ...]] = {}
        for each in members:
            lane = tuple(
                Fraction(place - start) / grain.parts for place in _places(each, axis, plan)
            )
            lanes[lane] = (*lanes.get(lane, ()), each.mark)
        ordered = sorted(lanes.items(), key=lambda item: (item[0][0], -item[0][-1]))
        yield Stick(door.mark, axis == 1, tuple(ordered))


def _places(member: Member, axis: int, plan: Plan) -> list[int | Fraction]:
    """Its ends, and along its own length its shoulders."""
    box = bounds(member.wood)
    ends = [box[2 * axis], box[2 * axis + 1]]
    sizes = [box[2 * a + 1] - box[2 * a] for a in range(3)]
    if sizes[axis] < max(sizes):
        return ends
    part = next((part for part in plan.parts if part.mark == member.mark), None)
    cut = {feature.kind for feature in part.features} if part else set()
    if not cut & {"cheek", "edge-cheek"}:
        return ends
    # A shoulder is where the whole thickness begins: past the longest bits that reach an end.
    inner = sorted({bit[2 * axis + n] for bit in member.wood for n in (0, 1)} - set(ends))
    return [ends[0], *(inner[:1] + inner[-1:] if len(inner) > 1 else inner), ends[1]]


def _drawn(sticks: Sequence[Stick], scale: Scale) -> Drawing:
    first = sticks[0]
    mm = 25.4 if scale.unit == "in" else 1.0
    wide = float(max(lane[-1] for lane, _ in first.lanes)) * mm
    shapes: list[str] = []
    words: list[Word] = []
    top = _HEAD
    for n, (lane, _) in enumerate(first.lanes):
        marks = ", ".join(mark for stick in sticks for mark in stick.lanes[n][1])
        told = [(float(place) * mm, scale.text(place) if place else "") for place in lane]
        figures = placed_figures(told, wide)
        rows = 1 + max(figure.row for figure in figures)
        high = _NAME + rows * _ROW + _FOOT
        if int(top / TILE[1]) < int((top + high) / TILE[1]):
            top = int((top + high) / TILE[1]) * TILE[1] + _HEAD  # no lane lies on a seam
        shapes += _lines(figures, top + high)
        words += _words(figures, marks, top, top + high, wide)
        top += high
    high = top + _HEAD
    frame = (
        f'<path d="M0,0H{wide:.3f}V{high:.3f}H0Z" fill="none" stroke="#000" stroke-width="0.3"/>'
    )
    doors = tuple(dict.fromkeys(stick.door for stick in sticks))
    name = scale.room.text(fullsize.UPRIGHT if first.upright else fullsize.ACROSS, marks=doors)
    return Drawing(name, wide, high, (frame, *shapes), tuple(words))


def placed_figures(told: Sequence[tuple[float, str]], wide: float) -> tuple[Figure, ...]:
    """Where each figure of a lane stands, from the places of its marks in mm and their words, on a
    stick `wide` mm long: none on another, on a mark's line, or over a seam between tiles.

    The first stands after its mark and all others before theirs, in one row, where that goes; else
    they change sides, and then rows. A mark's line reaches up to its figure, no higher.
    """
    sides = [(True, False) if n == 0 else (False, True) for n in range(len(told))]
    found = (
        figures
        for rows in range(1, len(told) + 1)
        for each in product(*sides)
        for order in product(range(rows), repeat=len(told))
        if _clear(figures := _figures(told, each, order), wide)
    )
    first = next(found, None)
    # Each in a row of its own, higher and higher, is always clear where there is room beside it.
    return first or _figures(told, [n == 0 for n in range(len(told))], range(len(told)))


def _figures(
    told: Sequence[tuple[float, str]], after: Sequence[bool], rows: Sequence[int]
) -> tuple[Figure, ...]:
    return tuple(
        Figure(at, words, at + _BESIDE if right else at - _BESIDE - width, width, row)
        for (at, words), right, row in zip(told, after, rows, strict=True)
        for width in (float(svg.text_width(words, 1)) * _SIZE,)
    )


def _clear(figures: Sequence[Figure], wide: float) -> bool:
    return all(
        _on_a_tile(figure, wide)
        and not any(
            other is not figure
            and other.row >= figure.row
            and (
                figure.x - _BESIDE < other.at < figure.x + figure.width + _BESIDE
                or (
                    other.words != ""
                    and other.row == figure.row
                    and figure.x < other.x + other.width + _BESIDE
                    and other.x < figure.x + figure.width + _BESIDE
                )
            )
            for other in figures
        )
        for figure in figures
        if figure.words
    )


def _on_a_tile(figure: Figure, wide: float) -> bool:
    """Whether the figure is on one tile with its mark. Beside a last tile that is narrower than a
    figure there is room as far as the tile's name goes."""
    tile = int(min(figure.at, wide - 1) / TILE[0])
    left = tile * TILE[0]
    right = max(min(left + TILE[0], wide), left + _NARROW)
    return left <= figure.x and figure.x + figure.width <= right


def _lines(figures: Sequence[Figure], foot: float) -> Iterator[str]:
    foot -= 1
    yield line(figures[0].at, foot, figures[-1].at, foot, width=0.5)
    for each in figures:
        yield line(each.at, foot - _ROW * (each.row + 1), each.at, foot + 1, width=0.2)


def _words(
    figures: Sequence[Figure], marks: str, top: float, foot: float, wide: float
) -> Iterator[Word]:
    # Anchors are left to no renderer: in units as large as these some round each letter's width.
    length = float(svg.text_width(marks, 4, bold=True))
    x = figures[0].at + 1.5
    tile = int(x / TILE[0]) * TILE[0]
    x = max(tile, min(x, min(tile + TILE[0], wide) - 1 - length))
    yield Word(x, top + _NAME - 0.8, marks, bold=True)
    # Once more on each tile that the lane runs over.
    x = tile + TILE[0] + 4
    while x + length < figures[-1].at:
        yield Word(x, top + _NAME - 0.8, marks, bold=True)
        x += TILE[0]
    for each in figures:
        if each.words:
            yield Word(each.x, foot - 2.4 - each.row * _ROW, each.words, size=_SIZE)
