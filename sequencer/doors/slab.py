"""A solid door: upright boards glued up into one piece as large as the leaf."""

from __future__ import annotations

from fractions import Fraction

from sequencer.doors.fills import Filled
from sequencer.doors.leaf import Leaf
from sequencer.doors.season import leaf_season
from sequencer.job.checked import Checked
from sequencer.job.schema import Door, Measured
from sequencer.joints import JOINTS, JointSizes
from sequencer.lengths import Unit
from sequencer.plan import Door as PlacedDoor
from sequencer.plan import Part, Place, Size

ZERO = Fraction(0)


def make_slab(spec: Door, index: int, job: str, unit: Unit, measured: Measured) -> Leaf:
    """Leaf number `index`, from the left. Its gap on the free side today is wide enough for what
    its boards will swell by: the job's reader saw to that."""
    mark = spec.marks[index]
    asked = Checked(spec, unit)
    left = index == 0 and (spec.leaves == 2 or spec.hinge == "left")
    gaps = spec.gaps
    free_gap = gaps.lock if gaps.meeting is None else gaps.meeting
    across = gaps.hinge if left else spec.opening.width - gaps.hinge - asked.width
    thickness = measured.thickness.get(spec.thickness, spec.thickness)
    size = Size(asked.height, asked.width, thickness)
    part = Part(f"{mark}1", mark, "slab", "slab", spec.species, size, ())
    door = PlacedDoor(
        mark=mark,
        job=job,
        name=spec.name,
        opening=(spec.opening.width, spec.opening.height),
        size=(asked.width, asked.height),
        at=(across, gaps.bottom),
        hinge="left" if left else "right",
        gaps={
            "top": gaps.top,
            "bottom": gaps.bottom,
            "hinge": gaps.hinge,
            "lock" if spec.leaves == 1 else "meeting": free_gap,
        },
        face_side=spec.face_side,
        pair=spec.marks,
        places=(Place(part.mark, (ZERO, asked.height, ZERO), ("-y", "+x", "+z")),),
    )
    return Leaf(
        spec=spec,
        door=door,
        joint=JOINTS["bridle"],
        sizes=_no_joint(thickness),
        parts=(part,),
        sight=door.size,
        trims=(),
        flush=(),
        season=leaf_season(spec, mark, Filled((part,), ()), (), free_gap, unit),
    )


def _no_joint(thickness: Fraction) -> JointSizes:
    nothing = (ZERO, ZERO)
    return JointSizes(
        thickness=thickness,
        slot=nothing,
        tenon=nothing,
        groove=nothing,
        groove_depth=ZERO,
        panel=ZERO,
        slot_centred=True,
        groove_centred=True,
    )
