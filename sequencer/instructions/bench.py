"""What is done at the bench: titles and sentences by the kind of step and by what the door is, how
much comes off where, and the marks to lay out a shaped edge by.
"""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction

from msgspec import Struct

from sequencer.instructions import words
from sequencer.instructions.figures import Scale
from sequencer.instructions.glued import glued_words, milled_words
from sequencer.instructions.ordinates import ordinates
from sequencer.instructions.seasons import at_glue_up, at_hanging
from sequencer.instructions.words import marked_faces
from sequencer.plan import Marked, Part, Plan, Prism, Removal, Size, Step
from sequencer.stock.resaw import as_planned
from sequencer.wording import Room, benches
from sequencer.wording.benches import BENCH, BenchWords
from sequencer.wording.lacks import CENTRED, FROM_MARKED

Said = tuple[str, str]
"""A title, and what else there is to say."""


class Table(Struct, frozen=True):
    """Marks to lay out: what of, the columns, and a row a mark."""

    title: str
    columns: tuple[str, ...]
    rows: tuple[tuple[str, ...], ...]

    @property
    def columns_of_rows(self) -> tuple[tuple[tuple[str, ...], ...], ...]:
        """The rows as they stand on paper: a long table in two halves beside each other."""
        half = -(-len(self.rows) // 2)
        return (self.rows[:half], self.rows[half:]) if len(self.rows) > LONG else (self.rows,)


LONG = 6
"""Rows beyond which a table is long."""


def bench_words(step: Step, plan: Plan, room: Room) -> Said:
    """Title and sentence; what the doors of the step are filled with decides them. Where they
    differ, each has its own sentence."""
    fills: dict[str, list[str]] = {}
    for mark in step.marks:
        fills.setdefault(_fill(plan, mark), []).append(mark)
    told = [(_told(step.kind, fill), marks) for fill, marks in fills.items()]
    first = told[0][0] if len(told) == 1 else _told(step.kind, "")
    title = first.barred if first.barred and _barred(plan, step.marks) else first.title
    hows = {each.how for each, _ in told}
    if len(hows) == 1:
        how = room.text(hows.pop())
    else:
        doors = {door.mark for door in plan.doors}
        how = " ".join(
            room.text(
                benches.OF_THESE,
                marks=tuple(mark for mark in marks if mark in doors),
                how=room.text(each.how),
            )
            for each, marks in told
        )
    return room.text(title), how


def _told(kind: str, fill: str) -> BenchWords:
    by_fill = BENCH[kind]
    return by_fill.get(fill, by_fill[""])


def _fill(plan: Plan, mark: str) -> str:
    """What the door of a mark is filled with: empty for a panel, and for what is no door."""
    door = next((d for d in plan.doors if d.mark == mark), None)
    if door is None:
        return next((_fill(plan, p.door) for p in plan.parts if p.mark == mark), "")
    if door.panes:
        return "glass"
    roles = {part.role for part in plan.parts if part.door == mark}
    return "slab" if "slab" in roles else "boards" if "board" in roles else ""


def _barred(plan: Plan, marks: Sequence[str]) -> bool:
    return any(p.door in marks and p.role in ("mid rail", "mullion") for p in plan.parts)


def bench_lines(plan: Plan, step: Step, scale: Scale) -> tuple[str, tuple[str, ...]]:
    """The title of a bench step, and all that is told to be done in it, tables apart."""
    verb, how = bench_words(step, plan, scale.room)
    lines = (
        *((how,) if how else ()),
        *removal_words(step.removes, plan, scale),
        *(resaw_words(step.marks, plan, scale) if step.kind == "mill" else ()),
        *(milled_words(step.marks, plan, scale) if step.kind == "mill" else ()),
        *(glued_words(step.marks, plan, scale) if step.kind == "edge glue-up" else ()),
        *(at_glue_up(plan, step.marks, scale) if step.kind == "glue-up" else ()),
        *(at_hanging(plan, step.marks, scale) if step.kind == "hang" else ()),
    )
    return verb, lines


def resaw_words(marks: Sequence[str], plan: Plan, scale: Scale) -> tuple[str, ...]:
    """How two of the strips that are milled come out of one piece, so that they match."""
    return tuple(
        scale.room.text(
            benches.RESAWN,
            first=each.first.mark,
            second=each.second.mark,
            thickness=scale.told(size.thickness),
            width=scale.told(size.width),
        )
        for each in as_planned(plan)
        for size in (each.blank.size,)
        if each.first.mark in marks
    )


def removal_words(removes: Sequence[Removal], plan: Plan, scale: Scale) -> list[str]:
    """How much comes off which ends and edges of pieces and strips, equal amounts together; a
    shaped edge has a table instead."""
    sizes = {stick.mark: stick.size for stick in plan.sticks}
    sizes |= {part.mark: part.size for part in plan.parts}
    marked = marked_faces(plan)
    amounts: dict[Fraction, dict[str, list[str]]] = {}
    edges: dict[str, list[str]] = {}
    for removal in removes:
        size = sizes[removal.mark]
        x, y, z = removal.box
        across = y == (Fraction(0), size.width)
        face = marked.get(removal.mark, "face")
        if removal.prism is not None:
            if z != (Fraction(0), size.thickness):
                said = _follows(removal.prism, size, scale, face)
                edges.setdefault(said, []).append(removal.mark)
        elif not across:
            edges.setdefault(_off_edge(removal, size, scale, face), []).append(removal.mark)
        elif z != (Fraction(0), size.thickness):
            edges.setdefault(_off_end(removal, size, scale, face), []).append(removal.mark)
        else:
            off = amounts.setdefault(x[1] - x[0], {})
            off.setdefault(removal.mark, []).append(_end(removal, size))
    room = scale.room
    lines = []
    for amount, marks in amounts.items():
        places: dict[tuple[str, ...], list[str]] = {}
        for mark, ends in marks.items():
            places.setdefault(tuple(ends), []).append(mark)
        told = "; ".join(
            room.text(benches.BOTH_ENDS, marks=tuple(found))
            if len(ends) == 2
            else room.text(benches.END_OF, end=room.term(ends[0]), marks=tuple(found))
            for ends, found in places.items()
        )
        lines.append(room.text(benches.OFF_ENDS, amount=scale.told(amount), places=told))
    off_edges = (
        room.text(benches.OFF_PIECES, marks=tuple(marks), off=said) for said, marks in edges.items()
    )
    return [*lines, *off_edges]


def _end(removal: Removal, size: Size) -> str:
    """The term for the end that it is at."""
    low, high = removal.box[0]
    return "side.end-A" if low + high < size.length else "side.end-B"


def _off_end(removal: Removal, size: Size, scale: Scale, marked: Marked) -> str:
    x, _, z = removal.box
    room = scale.room
    return room.text(
        benches.OFF_END,
        long=scale.told(x[1] - x[0]),
        end=room.term(_end(removal, size)),
        deep=scale.told(z[1] - z[0]),
        side=room.term(words.side_term(z, marked)),
    )


def _off_edge(removal: Removal, size: Size, scale: Scale, marked: Marked) -> str:
    _, y, z = removal.box
    room = scale.room
    edge = room.term("side.inside-edge" if y[0] <= 0 else "side.outside-edge")
    wide = scale.told(y[1] - y[0])
    if z == (Fraction(0), size.thickness):
        return room.text(benches.OFF_EDGE, wide=wide, edge=edge)
    side = room.term(words.side_term(z, marked))
    deep = scale.told(z[1] - z[0])
    return room.text(benches.OFF_CORNER, wide=wide, edge=edge, deep=deep, side=side)


def _follows(prism: Prism, size: Size, scale: Scale, marked: Marked) -> str:
    """A groove along a shaped edge; its depth, square to the edge, stands among the checks."""
    low, high = prism.along
    room = scale.room
    place = room.text(CENTRED)
    if low + high != size.thickness:
        off = words.from_marked(prism.along, size.thickness, marked)
        place = room.text(FROM_MARKED, far=scale.told(off))
    return room.text(benches.FOLLOWS, width=scale.told(high - low), place=place)


def layout_tables(removes: Sequence[Removal], plan: Plan, scale: Scale) -> tuple[Table, ...]:
    """The marks of each shaped edge, pieces that are shaped alike together."""
    parts: dict[str, Part] = {part.mark: part for part in plan.parts}
    shaped: dict[str, list[Prism]] = {}
    for removal in removes:
        if removal.prism is None or removal.prism.axes != "xy":
            continue
        if removal.box[2] == (Fraction(0), parts[removal.mark].size.thickness):
            shaped.setdefault(removal.mark, []).append(removal.prism)
    found: dict[tuple[tuple[str, ...], tuple[tuple[str, ...], ...]], list[str]] = {}
    for mark, prisms in shaped.items():
        columns, rows = ordinates(prisms, parts[mark].size, scale)
        found.setdefault((columns, rows), []).append(f"{mark} {scale.room.say(parts[mark].name)}")
    return tuple(
        Table(scale.room.listed(marks), columns, rows) for (columns, rows), marks in found.items()
    )
