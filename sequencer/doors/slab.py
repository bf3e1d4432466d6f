"""A solid door: upright boards glued up into one piece as large as the leaf."""

from __future__ import annotations

from fractions import Fraction

from sequencer.doors.fills import Filled
from sequencer.doors.leaf import Leaf, hung, in_hand
from sequencer.doors.season import leaf_season
from sequencer.facts import parts as called
from sequencer.job.schema import Door
from sequencer.joints import JOINTS, JointSizes
from sequencer.lengths import Unit
from sequencer.measured import Measured
from sequencer.plan import Part, Place, Size

ZERO = Fraction(0)


def make_slab(spec: Door, index: int, job: str, unit: Unit, measured: Measured) -> Leaf:
    """Leaf number `index`, from the left. Its gap on the free side today is wide enough for what
    its boards will swell by: the job's reader saw to that."""
    mark = spec.marks[index]
    width, height = spec.leaf_size
    thickness = measured.thickness.get(spec.thickness, spec.thickness)
    part = Part(
        f"{mark}1",
        mark,
        "slab",
        called.NAMED(name="slab"),
        spec.species,
        Size(height, width, thickness),
        (),
    )
    places = (Place(part.mark, (ZERO, height, ZERO), ("-y", "+x", "+z")),)
    parts = in_hand((part,), places)
    door = hung(spec, index, job, places)
    return Leaf(
        spec=spec,
        door=door,
        joint=JOINTS["bridle"],
        sizes=_no_joint(thickness),
        parts=parts,
        sight=door.size,
        trims=(),
        flush=(),
        season=leaf_season(spec, mark, Filled(parts, ()), (), unit),
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
