"""The parts list as a table for other programs, and for this one: what the columns of a table of
pieces can say of a part's joints, they say, so that it can be read in again.
"""

from __future__ import annotations

import csv
import io
from collections.abc import Iterator, Mapping, Sequence
from fractions import Fraction

from sequencer.instructions import words
from sequencer.job.defaults import lengths
from sequencer.lengths import Unit, mixed
from sequencer.plan import Feature, Part, Plan
from sequencer.sheets.opendocument import spreadsheet
from sequencer.sheets.stock import part_joints
from sequencer.wording import Room, for_plan, lacks

JOINERY = (
    "end_a",
    "end_b",
    "depth_a",
    "depth_b",
    "slot",
    "tenon_width",
    "groove_width",
    "groove_depth",
)
COLUMNS = (
    "mark",
    "door",
    "job",
    "name",
    "material",
    "length",
    "width",
    "thickness",
    "unit",
    "joints",
    *JOINERY,
    "inside",
    "stick",
    "at_stop",
    "not_in_columns",
)
_FORMULA = ("=", "+", "-", "@", "\t", "\r")
_FINEST = 1024  # what a table of pieces takes as a fraction
_PLACES = 12
_ENDS = ("A", "B")
ZERO = Fraction(0)

Columns = dict[str, str]


def parts_csv(plan: Plan) -> str:
    """One line a part, as it leaves the saw. Lengths are exact: a fraction as on a rule, else a
    decimal (cut off after twelve places where it does not end).

    `at_stop` is the end that is at the stop as a piece comes off its stick. `not_in_columns` names
    what the joint columns cannot say, and they are empty then. A spreadsheet would run a name that
    begins like a formula: such a cell gets an apostrophe.
    """
    out = io.StringIO()
    writer = csv.writer(out, lineterminator="\n")
    for row in _rows(plan):
        writer.writerow([f"'{cell}" if cell.startswith(_FORMULA) else cell for cell in row])
    return out.getvalue()


def parts_ods(plan: Plan) -> bytes:
    """The same as a spreadsheet."""
    return spreadsheet("parts", list(_rows(plan)))


def _rows(plan: Plan) -> Iterator[Sequence[str]]:
    jobs = {door.mark: door.job for door in plan.doors}
    room = for_plan(plan)
    joined = _joined(plan, room)
    laid = {
        piece.mark: (stick.mark, words.at_stop(piece, room))
        for stick in plan.sticks
        for piece in stick.pieces
    }
    yield COLUMNS
    for part in plan.parts:
        size = part.size
        columns, rest = joined[part.mark]
        yield [
            part.mark,
            part.door,
            jobs.get(part.door, ""),
            room.say(part.name),
            part.material,
            *(_cell(length, plan.unit) for length in (size.length, size.width, size.thickness)),
            plan.unit,
            part_joints(part, room),
            *(columns.get(name, "") for name in JOINERY),
            part.inside or "",
            *laid.get(part.mark, ("", "")),
            rest,
        ]


def _cell(value: Fraction, unit: Unit) -> str:
    """A length so that it is read back as it is. A fraction alone begins with a nought, for to a
    spreadsheet 3/4 is a day.

    >>> _cell(Fraction(33, 128), "in"), _cell(Fraction(359, 1600), "in"), _cell(Fraction(7), "mm")
    ('0 33/128', '0.224375', '7')
    """
    bottom = value.denominator
    if bottom == 1 or (unit == "in" and bottom <= _FINEST and not bottom & (bottom - 1)):
        return f"0 {mixed(value)}" if 0 < value < 1 else mixed(value)
    whole, rest = divmod(round(value * 10**_PLACES), 10**_PLACES)
    return f"{whole}.{rest:0{_PLACES}d}".rstrip("0").rstrip(".")


def _joined(plan: Plan, room: Room) -> Mapping[str, tuple[Columns, str]]:
    """Each part's joint columns and what they leave out. A tenon is tried in a slot of its own
    stock: it goes in only where the piece with its slot does."""
    parts = {part.mark: part for part in plan.parts}
    clearance = lengths(plan.unit)["joint.clearance"]
    found: dict[str, tuple[Columns, str]] = {}
    for part in plan.parts:
        rest = _rest(part, room)
        columns = None if rest else _columns(part, parts, clearance, plan.unit)
        if columns is None:
            joints = part_joints(part, room)
            found[part.mark] = ({}, rest or room.text(lacks.NOT_AS_COLUMNS, joints=joints))
        else:
            found[part.mark] = (columns, "")
    for part in plan.parts:
        lone = [mark for mark in _mates(part) if found.get(mark, ({}, "-"))[1]]
        if found[part.mark][0].get("slot") and lone and "tenon" in found[part.mark][0].values():
            found[part.mark] = ({}, room.text(lacks.SLOT_NOT_IN, mark=lone[0]))
    return found


def _mates(part: Part) -> list[str]:
    mates = (f.mate_mark for f in part.features if f.kind == "cheek" and f.mate)
    return list(dict.fromkeys(mates))


def _rest(part: Part, room: Room) -> str:
    """Kinds of features that a table of pieces has no columns for."""
    known = ("slot", "cheek", "edge-cheek", "groove")
    odd = [f.kind for f in part.features if f.kind not in known or f.prism is not None]
    return ", ".join(dict.fromkeys(room.term(f"lacks.{kind}") for kind in odd))


def _columns(
    part: Part, parts: Mapping[str, Part], clearance: Fraction, unit: Unit
) -> Columns | None:
    """The joint columns; `None` where a joint is not centred, or not what they would mean."""
    size = part.size
    grooves = [f for f in part.features if f.kind == "groove"]
    if len(grooves) > 1 or not all(_plain_groove(f, part) for f in grooves):
        return None
    groove_depth = grooves[0].box[1][1] if grooves else ZERO
    made: Columns = {}
    if grooves:
        made["groove_width"] = _cell(_deep(grooves[0], 2), unit)
        made["groove_depth"] = _cell(groove_depth, unit)
    slots: list[Fraction] = []
    tenons: list[Fraction] = []
    for at in _ENDS:
        own = [f for f in part.features if f.at == at]
        if not own:
            continue
        if [f.kind for f in own] == ["slot"] and _centred(own[0], part):
            made[f"end_{at.lower()}"] = "slot"
            slots.append(_deep(own[0], 2))
            made[f"depth_{at.lower()}"] = _cell(_deep(own[0], 0), unit)
            continue
        tenon = _tenon(own, part, groove_depth)
        if tenon is None:
            return None
        length, thick, width = tenon
        mated = _slot_of(own, parts)
        if mated is not None and mated != thick + clearance:
            return None
        made[f"end_{at.lower()}"] = "tenon"
        made[f"depth_{at.lower()}"] = _cell(length, unit)
        slots.append(thick + clearance)
        tenons.append(width)
    if len(set(slots)) > 1 or len(set(tenons)) > 1:
        return None
    if slots:
        made["slot"] = _cell(slots[0], unit)
    if tenons and tenons[0] != size.width - groove_depth:
        made["tenon_width"] = _cell(tenons[0], unit)
    return made


def _deep(feature: Feature, axis: int) -> Fraction:
    low, high = feature.box[axis]
    return high - low


def _centred(feature: Feature, part: Part) -> bool:
    return sum(feature.box[2]) == part.size.thickness and _deep(feature, 1) == part.size.width


def _plain_groove(feature: Feature, part: Part) -> bool:
    (start, end), (low, _), through = feature.box
    whole = (start, end) == (ZERO, part.size.length)
    return (
        feature.at == "inside-edge" and whole and low == 0 and sum(through) == part.size.thickness
    )


def _tenon(
    own: Sequence[Feature], part: Part, groove_depth: Fraction
) -> tuple[Fraction, Fraction, Fraction] | None:
    """Length, thickness and width of a tenon in the middle of the thickness."""
    cheeks = sorted((f for f in own if f.kind == "cheek"), key=lambda f: f.box[2])
    edges = [f for f in own if f.kind == "edge-cheek"]
    if len(cheeks) != 2 or len(edges) > 1 or len(cheeks) + len(edges) != len(own):
        return None
    front, back = cheeks
    edge = edges[0].box[1] if edges else (ZERO, groove_depth)
    centred = front.box[2][1] + back.box[2][0] == part.size.thickness
    if not centred or front.box[:2] != back.box[:2] or edge[0] != 0:
        return None
    return _deep(front, 0), back.box[2][0] - front.box[2][1], part.size.width - edge[1]


def _slot_of(own: Sequence[Feature], parts: Mapping[str, Part]) -> Fraction | None:
    """How wide the slot is that the tenon goes into, where the plan has its piece."""
    mated = next((f for f in own if f.mate), None)
    if mated is None or mated.mate_mark not in parts:
        return None
    there = parts[mated.mate_mark].features
    slots = (f for f in there if f.kind == "slot" and f.at == mated.mate_at)
    return next((_deep(f, 2) for f in slots), None)
