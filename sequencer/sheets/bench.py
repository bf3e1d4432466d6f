"""What is done at the bench: titles and sentences by the kind of step and by what the leaf is, how
much comes off where, and the marks to lay out a shaped edge by.
"""

from __future__ import annotations

import tomllib
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction
from functools import cache
from importlib.resources import files
from typing import Any

from sequencer.plan import Marked, Part, Plan, Prism, Removal, Size, Step
from sequencer.sheets import words
from sequencer.sheets.features import ordinates
from sequencer.sheets.figures import Scale
from sequencer.sheets.pieces import marked_faces
from sequencer.stock.resaw import as_planned

Said = tuple[str, str]
"""A title, and what else there is to say."""


@cache
def _texts() -> Mapping[str, Any]:
    return tomllib.loads(files(__package__).joinpath("bench.toml").read_text("utf-8"))


@dataclass(frozen=True, slots=True)
class Table:
    """Marks to lay out: what of, the columns, and a row a mark."""

    title: str
    columns: tuple[str, ...]
    rows: tuple[tuple[str, ...], ...]


def bench_words(step: Step, plan: Plan) -> Said:
    """Title and sentence; what the leaves of the step are filled with decides them. Where they
    differ, each has its own sentence."""
    fills: dict[str, list[str]] = {}
    for mark in step.marks:
        fills.setdefault(_fill(plan, mark), []).append(mark)
    told = [(_told(step.kind, fill), marks) for fill, marks in fills.items()]
    title = told[0][0][0] if len(told) == 1 else _told(step.kind, "")[0]
    hows = {how for (_, how), _ in told}
    if len(hows) == 1:
        how = hows.pop()
    else:
        leaves = {door.mark for door in plan.doors}
        how = " ".join(
            f"{', '.join(m for m in marks if m in leaves)}: {said}" for (_, said), marks in told
        )
    if step.kind == "glue-up" and _barred(plan, step.marks):
        title = title.replace("corners", "corners and bars")
    return title, how


def _told(kind: str, fill: str) -> Said:
    told = _texts().get(kind, {"title": kind.capitalize(), "how": ""})
    told = told.get(fill, told)
    return told["title"], told["how"]


def _fill(plan: Plan, mark: str) -> str:
    """What the leaf of a mark is filled with: empty for a panel, and for what is no leaf."""
    door = next((d for d in plan.doors if d.mark == mark), None)
    if door is None:
        return next((_fill(plan, p.door) for p in plan.parts if p.mark == mark), "")
    if door.panes:
        return "glass"
    roles = {part.role for part in plan.parts if part.door == mark}
    return "slab" if "slab" in roles else "boards" if "board" in roles else ""


def _barred(plan: Plan, marks: Sequence[str]) -> bool:
    return any(p.door in marks and p.role in ("mid rail", "mullion") for p in plan.parts)


def resaw_words(marks: Sequence[str], plan: Plan, scale: Scale) -> tuple[str, ...]:
    """How two of the sticks that are milled come out of one piece, so that they match."""
    return tuple(
        f"{each.first.mark} and {each.second.mark} are one piece {scale.length(size.thickness)}"
        f" thick, common practice: joint a face and an edge, resaw it in the middle at the band"
        f" saw ({scale.length(size.width)} high; no table saw), open it like a book. The two sawn"
        " faces match: mark them as the show faces, top and hinge side on both, then plane."
        for each in as_planned(plan)
        for size in (each.blank.size,)
        if each.first.mark in marks
    )


def removal_words(removes: Sequence[Removal], plan: Plan, scale: Scale) -> list[str]:
    """How much comes off which ends and edges of pieces and sticks, equal amounts together; a
    shaped edge has a table instead."""
    sizes = {stick.mark: stick.size for stick in plan.sticks}
    sizes |= {part.mark: part.size for part in plan.parts}
    marked = marked_faces(plan)
    amounts: dict[tuple[str, Fraction], dict[str, list[str]]] = {}
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
            end = "A" if x[0] + x[1] < size.length else "B"
            off = amounts.setdefault(("", x[1] - x[0]), {})
            off.setdefault(removal.mark, []).append(end)
    lines = []
    for (_, amount), marks in amounts.items():
        places: dict[str, list[str]] = {}
        for mark, ends in marks.items():
            where = "both-ends" if len(ends) == 2 else f"end {ends[0]}"
            places.setdefault(where, []).append(mark)
        told = "; ".join(f"{where} of {', '.join(found)}" for where, found in places.items())
        lines.append(f"{scale.length(amount)} off {told}.")
    return [*lines, *(f"{', '.join(marks)}: {said}." for said, marks in edges.items())]


def _off_end(removal: Removal, size: Size, scale: Scale, marked: Marked) -> str:
    x, _, z = removal.box
    end = "A" if x[0] + x[1] < size.length else "B"
    side = words.side_words(z, marked)
    return f"{scale.text(x[1] - x[0])} from end {end}, {scale.length(z[1] - z[0])} from the {side}"


def _off_edge(removal: Removal, size: Size, scale: Scale, marked: Marked) -> str:
    _, y, z = removal.box
    edge = "inside" if y[0] <= 0 else "outside"
    if z == (Fraction(0), size.thickness):
        return f"{scale.length(y[1] - y[0])} off the {edge} edge"
    side = words.side_words(z, marked)
    wide, deep = scale.text(y[1] - y[0]), scale.length(z[1] - z[0])
    return f"{wide} from the {edge} edge, {deep} from the {side}"


def _follows(prism: Prism, size: Size, scale: Scale, marked: Marked) -> str:
    """A groove along a shaped edge; its depth, square to the edge, stands among the checks."""
    low, high = prism.along
    place = "centred"
    if low + high != size.thickness:
        off = words.from_marked(prism.along, size.thickness, marked)
        place = f"{scale.text(off)} from the marked face"
    return f"groove {scale.text(high - low)} wide, {place}, follows the shaped edge"


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
        found.setdefault((columns, rows), []).append(f"{mark} {parts[mark].name}")
    return tuple(
        Table(words.spoken(marks), columns, rows) for (columns, rows), marks in found.items()
    )
