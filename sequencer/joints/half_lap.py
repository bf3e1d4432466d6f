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
from sequencer.facts import Fact, Length, feels, parts
from sequencer.job.schema import Door
from sequencer.joints.base import Corner, Cutting, JointSizes
from sequencer.joints.features import edge_cheek, rail_cheeks, stile_slot
from sequencer.joints.sizes import Through, in_groove, panel_edge, panel_groove, placed, widened
from sequencer.lengths import Unit
from sequencer.measured import Measured
from sequencer.methods import Choices
from sequencer.plan import Feature, Span
from sequencer.trade import fits

ZERO = Fraction(0)


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
            raise Refusal(parts.LAP_HAS_NO_OFFSET(where=door.where))
        plane = thickness / 2
        if door.joint.slot is not None:
            plane = thickness - door.joint.slot
        elif thickness - plane - width < wall:
            step = fits.WIDTH_STEP.of(unit)
            plane = max((thickness - width - wall) // step * step, thickness / 3)
        given = (door.groove.width, door.groove.offset, door.held, choices.dado)
        if not door.glazed and all(each is None for each in given):
            past = kerf - plane if door.face_side == "out" else thickness - plane
            most = thickness - plane - wall
            width = widened(width, most, past, kerf, unit, choices.marks)
        if not wall <= plane <= thickness - wall:
            raise Refusal(
                parts.LAP_TOO_THIN(
                    where=door.where, wall=Length(wall, unit), most=Length(thickness - wall, unit)
                )
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
        halves = all(
            2 * (high - low) == part.size.thickness
            for feature in part.features
            if feature.kind in ("slot", "cheek")
            for low, high in (feature.box[2],)
        )
        together = feels.LAPS_TOGETHER() if halves else feels.ALIKE_ALONG()
        for end in halved(part, Tried(scrap.stile, alone=together, shoulders="from-end")):
            yield from cut_tenon(end, scrap, context)
        for lap in tenons(part, Tried(scrap.rail, alone=together)):
            yield from cut_tenon(lap, scrap, context)


def _no_room(door: Door, thickness: Fraction, plane: Fraction, groove: Span, unit: Unit) -> Fact:
    if groove[0] < plane:
        return parts.LAP_GROOVE_IN_FRONT(
            where=door.where, groove=Length(groove[0], unit), plane=Length(plane, unit)
        )
    wall = fits.LAP_WALL.of(unit)
    most = thickness - (plane if door.joint.slot is not None else thickness / 3) - wall
    return parts.LAP_GROOVE_TOO_WIDE(
        where=door.where,
        left=Length(max(thickness - groove[1], ZERO), unit),
        wall=Length(wall, unit),
        most=Length(most, unit),
    )
