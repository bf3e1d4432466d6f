"""A framed leaf: slotted stiles, tenoned rails, the bars between them and what fills its lights,
sized and placed.
"""

from __future__ import annotations

from fractions import Fraction

from sequencer.doors.bars import make_bars
from sequencer.doors.fills import Fitting, fill
from sequencer.doors.leaf import Leaf, Light, hung, in_hand
from sequencer.doors.measure import ZERO, Frame, Tenons, measure
from sequencer.doors.meeting import rebated
from sequencer.doors.members import end_work, make_members, member_places
from sequencer.doors.season import leaf_season
from sequencer.doors.shape import panel_light, shaped
from sequencer.job.bars import Division, divide
from sequencer.job.schema import Door
from sequencer.joints import Joint, JointSizes
from sequencer.lengths import Unit
from sequencer.methods import Marks


def make_leaf(
    spec: Door,
    index: int,
    joint: Joint,
    sizes: JointSizes,
    tenons: Tenons,
    job: str,
    unit: Unit,
    kerf: Fraction,
    marks: Marks | None,
) -> Leaf:
    """Leaf number `index`, from the left. Raises `Refusal` where it cannot be made."""
    mark = spec.marks[index]
    frame = measure(spec, spec.hinge_of(index), joint, tenons, unit)
    division = divide(spec.bars, frame.room)
    bars = make_bars(spec, mark, 5, frame, division, sizes)
    members = make_members(spec, mark, frame, joint, sizes, bars.let_in)
    lights = _lights(frame, division)
    first = 5 + len(bars.parts)
    made_for = (panel_light(spec, frame, lights[0], unit), *lights[1:])
    filled = fill(spec, mark, first, made_for, Fitting(sizes, kerf, unit, marks))
    members, filled, shape = shaped(spec, frame, members, filled, sizes, unit)
    framed = (*members, *bars.parts)
    places = (*member_places(mark, frame), *bars.places)
    trims, flush = end_work(members, frame)
    return Leaf(
        spec=spec,
        door=hung(spec, index, job, (*places, *filled.places), filled.panes),
        joint=joint,
        sizes=sizes,
        parts=in_hand((*framed, *filled.parts), (*places, *filled.places)),
        sight=frame.sight,
        trims=trims,
        flush=flush,
        season=leaf_season(spec, mark, filled, lights, unit),
        lights=lights,
        shaped=shape,
        rebated=rebated(spec, frame, framed, places, sizes.thickness),
        orders=filled.orders,
    )


def _lights(frame: Frame, division: Division) -> tuple[Light, ...]:
    """Where each is highest: the top row under a shaped rail."""
    rise = ZERO if frame.curve is None else frame.curve.rise
    return tuple(
        Light(room.left, room.bottom, room.width, room.height + (rise if row == 1 else ZERO))
        for room, row in zip(division.lights, division.light_rows, strict=True)
    )
