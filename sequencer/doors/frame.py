"""A framed leaf: slotted stiles, tenoned rails, the bars between them and what fills its lights,
sized and placed.
"""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

from sequencer.doors.bars import make_bars
from sequencer.doors.fills import Filled, Fitting, fill
from sequencer.doors.leaf import Leaf, Light
from sequencer.doors.measure import ZERO, Frame, Tenons, hinge_side, measure
from sequencer.doors.meeting import rebated
from sequencer.doors.members import end_work, make_members, member_places
from sequencer.doors.season import leaf_season
from sequencer.doors.shape import panel_light, shaped
from sequencer.job.bars import Division, divide
from sequencer.job.schema import Door
from sequencer.joints import Joint, JointSizes
from sequencer.lengths import Unit
from sequencer.plan import Door as PlacedDoor
from sequencer.plan import Pane, Place, Season


def make_leaf(
    spec: Door,
    index: int,
    joint: Joint,
    sizes: JointSizes,
    tenons: Tenons,
    job: str,
    unit: Unit,
    kerf: Fraction,
) -> Leaf:
    """Leaf number `index`, from the left. Raises `Refusal` where it cannot be made."""
    mark = spec.marks[index]
    frame = measure(spec, hinge_side(spec, index), joint, tenons, unit)
    division = divide(spec.bars, frame.room)
    bars = make_bars(spec, mark, 5, frame, division, sizes)
    members = make_members(spec, mark, frame, joint, sizes, bars.let_in)
    lights = _lights(frame, division)
    first = 5 + len(bars.parts)
    made_for = (panel_light(spec, frame, lights[0], unit), *lights[1:])
    filled = fill(spec, mark, first, made_for, Fitting(sizes, kerf, unit))
    members, filled, shape = shaped(spec, frame, members, filled, sizes, unit)
    framed = (*members, *bars.parts)
    places = (*member_places(mark, frame), *bars.places)
    trims, flush = end_work(members, frame)
    return Leaf(
        spec=spec,
        door=_placed(spec, mark, job, frame, (*places, *filled.places), filled.panes),
        joint=joint,
        sizes=sizes,
        parts=(*framed, *filled.parts),
        sight=frame.sight,
        trims=trims,
        flush=flush,
        season=_season(spec, mark, filled, lights, unit),
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


def _placed(
    spec: Door,
    mark: str,
    job: str,
    frame: Frame,
    places: tuple[Place, ...],
    panes: tuple[Pane, ...],
) -> PlacedDoor:
    gaps = spec.gaps
    at = gaps.hinge if frame.hinge == "left" else spec.opening.width - gaps.hinge - frame.width
    free = "lock" if spec.leaves == 1 else "meeting"
    return PlacedDoor(
        mark=mark,
        job=job,
        name=spec.name,
        opening=(spec.opening.width, spec.opening.height),
        size=(frame.width, frame.height),
        at=(at, gaps.bottom),
        hinge=frame.hinge,
        gaps={"top": gaps.top, "bottom": gaps.bottom, "hinge": gaps.hinge, free: _free_gap(spec)},
        face_side=spec.face_side,
        pair=spec.marks,
        places=places,
        panes=panes,
    )


def _free_gap(spec: Door) -> Fraction:
    return spec.gaps.lock if spec.gaps.meeting is None else spec.gaps.meeting


def _season(
    spec: Door, mark: str, filled: Filled, lights: tuple[Light, ...], unit: Unit
) -> Season | None:
    """A free side that laps over its case has no gap to close."""
    gap = _free_gap(spec)
    season = leaf_season(spec, mark, filled, lights, gap, unit)
    return season if season is None or gap >= 0 else replace(season, gap=None)
