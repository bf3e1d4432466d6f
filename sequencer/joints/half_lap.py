"""The corner half-lap: stile and rail each cut away to one plane, and laid on each other.

The stile keeps the front, the rail the back, like a bridle whose slot is open to the back. The
groove lies behind the plane, in what the rail keeps: so that it does not show at the door's ends,
the rail's lap is cut to width and the stile goes on under its inner edge.
"""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from sequencer.cuts.model import Operation
from sequencer.cuts.tenon import Tried, cut_tenon, halved, tenons
from sequencer.errors import Refusal
from sequencer.job.schema import Door
from sequencer.joints.base import Corner, Cutting, JointSizes
from sequencer.joints.features import edge_cheek, rail_cheeks, stile_slot
from sequencer.joints.sizes import Through, in_groove, in_words, panel_edge, panel_groove, placed
from sequencer.lengths import Unit
from sequencer.measured import Measured
from sequencer.methods import Choices
from sequencer.plan import Feature, Span
from sequencer.trade import fits

ZERO = Fraction(0)
TOGETHER = "by caliper: laid on the other test piece, as thick as the stock"


class HalfLap(Through):
    """Stiles halved from the back, rails from the front; ends proud until planed."""

    name = "half-lap"
    slotted = False

    def size(
        self, door: Door, kerf: Fraction, unit: Unit, measured: Measured, choices: Choices
    ) -> JointSizes:
        """Half the thickness each (Fairham, Woodwork Joints, 1921, The Halved Joint); less for the
        stile, but no less than a third, where the groove asks for it. `[joint] slot` is how thick
        the rail's lap is."""
        thickness = measured.thickness.get(door.thickness, door.thickness)
        wall = fits.LAP_WALL.of(unit)
        width = ZERO if door.glazed else panel_groove(door, thickness, kerf, unit, choices)
        if door.joint.offset is not None:
            raise Refusal(
                f"{door.where}: a half-lap is open to the back and has no offset: leave [joint] "
                "offset out; [joint] slot says how thick the rail's lap is"
            )
        plane = thickness / 2
        if door.joint.slot is not None:
            plane = thickness - door.joint.slot
        elif thickness - plane - width < wall:
            step = fits.WIDTH_STEP.of(unit)
            plane = max((thickness - width - wall) // step * step, thickness / 3)
        if not wall <= plane <= thickness - wall:
            raise Refusal(
                f"{door.where}: a half-lap leaves {in_words(wall, unit)} or more of both pieces: "
                f"[joint] slot from {in_words(wall, unit)} to {in_words(thickness - wall, unit)}, "
                "or leave it out for half the thickness"
            )
        lap = (plane, thickness)
        if door.glazed:
            return JointSizes(
                thickness, lap, lap, lap, door.groove.depth, ZERO,
                slot_centred=False, groove_centred=False,
            )  # fmt: skip
        groove = (plane, plane + width)
        if door.groove.offset is not None:
            groove = placed(door, thickness, width, door.groove.offset)
        if groove[0] < plane or thickness - groove[1] < wall:
            raise Refusal(_no_room(door, thickness, plane, groove, unit))
        return JointSizes(
            thickness=thickness,
            slot=lap,
            tenon=lap,
            groove=groove,
            groove_depth=door.groove.depth,
            panel=panel_edge(door, width, unit),
            slot_centred=False,
            groove_centred=False,
            stub=in_groove(door, groove, thickness, choices),
        )

    def in_stile(self, corner: Corner, sizes: JointSizes) -> tuple[Feature, ...]:
        return (stile_slot(corner, sizes),)

    def in_rail(self, corner: Corner, sizes: JointSizes) -> tuple[Feature, ...]:
        """The front cheek, and the lap's inner edge, but where a rebate has taken it."""
        return (*rail_cheeks(corner, sizes), *edge_cheek(corner, sizes))

    def operations(self, cutting: Cutting) -> Iterator[Operation]:
        """Waste falls on the open side: the stile's face lies against the jig, the rail's back."""
        part, scrap, context = cutting.part, cutting.scrap, cutting.context
        for end in halved(part, Tried(scrap.stile, alone=TOGETHER, shoulders="from the end")):
            yield from cut_tenon(end, scrap, context)
        for lap in tenons(part, Tried(scrap.rail, alone=TOGETHER)):
            yield from cut_tenon(lap, scrap, context)


def _no_room(door: Door, thickness: Fraction, plane: Fraction, groove: Span, unit: Unit) -> str:
    wall = fits.LAP_WALL.of(unit)
    most = thickness - (plane if door.joint.slot is not None else thickness / 3) - wall
    if groove[0] < plane:
        what = (
            f"the groove begins {in_words(groove[0], unit)} behind the face, in front of the plane "
            f"at {in_words(plane, unit)}, where the stile goes on to the door's end: leave "
            "[groove] offset out, and it lies right behind the plane"
        )
    else:
        what = (
            f"behind the groove only {in_words(max(thickness - groove[1], ZERO), unit)} of the "
            f"rail's lap are left, under {in_words(wall, unit)}: a groove of at most "
            f"{in_words(most, unit)} (a thinner panel), right behind the plane, or a bridle joint"
        )
    return f"{door.where}: {what}"
