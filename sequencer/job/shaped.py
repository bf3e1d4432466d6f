"""The shape of the top rail's lower edge, read: `[shape]`, and what can be made of it."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from fractions import Fraction
from typing import Any, Literal, cast

from sequencer.errors import Fault
from sequencer.facts import doors, shapes
from sequencer.job.checked import Checked
from sequencer.job.document import Path
from sequencer.job.kinds import Shape
from sequencer.job.reader import Reader
from sequencer.lengths import Unit

SHAPE = ("kind", "rise")
SHAPES = ("straight", "arch", "peak", "valley")

STEEPEST: Mapping[str, Fraction] = {
    "arch": Fraction(1, 4),
    "peak": Fraction(1, 2),
    "valley": Fraction(1, 2),
}
"""The most rise of a shape, as a share of the span: beyond it the rail's ends are short grain that
breaks off at the shoulder, and the groove's depth is no longer nearly upright. Ours."""

LEAST_RISE: Mapping[Unit, Fraction] = {"in": Fraction(1, 8), "mm": Fraction(3)}
"""Less is taken for a slip of saw or plane. Ours."""

JOINTS = ("bridle",)
"""Corner joints that a shaped rail is made with."""


def read_shape(reader: Reader, path: Path) -> Any:
    """What stands at a key of `[shape]`; `None` where it is wrong."""
    if path[-1] == "kind":
        return reader.choice(path, SHAPES)
    found = reader.length(path)
    if found == 0:
        reader.fault(path, doors.NOTHING(key="rise"), shapes.RISE_OR_STRAIGHT())
        return None
    return found


def shape_of(reader: Reader, values: Mapping[str, tuple[Any, Path]]) -> Shape | None:
    """The shape that the keys tell of, by dotted key with their content and place; `None` where the
    rail is straight, or where something is missing, which the reader keeps."""
    kind, rise = values.get("shape.kind"), values.get("shape.rise")
    if kind is None and rise is None:
        return None
    if kind is None and rise is not None:
        hint = doors.WRITE_BESIDE(lines=tuple(f'kind = "{each}"' for each in STEEPEST))
        reader.fault(rise[1], shapes.NO_KIND(), hint, key=True)
    elif kind is not None and kind[0] not in (None, SHAPES[0]):
        if rise is None:
            example = "1-1/2" if reader.unit == "in" else "40"
            hint = shapes.WRITE_RISE(example=example)
            reader.fault(kind[1], shapes.RISE_MISSING(shape=kind[0]), hint, key=True)
        elif rise[0] is not None:
            return Shape(cast(Literal["arch", "peak", "valley"], kind[0]), rise[0])
    return None


def rules(c: Checked) -> Iterator[Fault]:
    """What a shape may stand beside, and how steep it may be."""
    door, shape = c.door, c.door.shape
    if shape is None:
        return
    place = "shape.kind"
    if door.slab is not None:
        yield c.fault(place, shapes.ON_SLAB(), shapes.LEAVE_SHAPE_OUT())
        return
    if door.fill is not None:
        yield c.fault(place, shapes.FLAT_PANEL_ALONE(), shapes.STRAIGHT_OR_NO_FILL())
    if door.joint.kind not in JOINTS:
        hint = doors.WRITE_UNDER(line='kind = "bridle"', table="door.joint")
        yield c.fault(place, shapes.JOINT_UNSUITED(joint=door.joint.kind), hint)
    rows = {bar.row for bar in door.bars if bar.kind == "mullion"}
    if rows & {None, 1}:
        yield c.fault(place, shapes.MULLION_ON_SLOPE(), shapes.MULLIONS_BELOW())
    if c.sight_width < c.limit("least_sight"):
        return
    least = LEAST_RISE[c.unit]
    if shape.rise < least:
        hint = shapes.LESS_FLAT(least=c.length(least))
        yield c.fault("shape.rise", shapes.TOO_FLAT(rise=c.length(shape.rise)), hint)
    most = STEEPEST[shape.kind] * c.sight_width
    if shape.rise > most:
        message = shapes.TOO_STEEP(rise=c.length(shape.rise), span=c.length(c.sight_width))
        step = Fraction(1, 16) if c.unit == "in" else Fraction(1)
        hint = shapes.LESS_STEEP(most=c.length(most // step * step))
        yield c.fault("shape.rise", message, hint)
