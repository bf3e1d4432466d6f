"""Sizes of a corner bridle joint and the panel groove that meets it.

Thickness, slot, tenon and groove all lie on one line through the thickness: the slot holds the
groove's range (else a void would show at the door's end), and the tenon is the slot less its
clearance.
"""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from sequencer.cuts.channel import Channel, cut_channel
from sequencer.cuts.context import Context, turned_slotting
from sequencer.cuts.model import Operation, ScrapPieces
from sequencer.cuts.tenon import cut_tenon, tenons
from sequencer.errors import Refusal
from sequencer.job.schema import Door, FaceSide, Measured
from sequencer.joints.base import Corner, JointSizes, end_span
from sequencer.lengths import Unit, show
from sequencer.methods import Choices
from sequencer.passes import free_width
from sequencer.plan import Feature, Part, Span
from sequencer.trade import fits
from sequencer.trade.fits import TENON_LEAST

ZERO = Fraction(0)


class Bridle:
    """The corner bridle joint: stiles slotted, rails tenoned, ends proud until planed."""

    name = "bridle"

    def size(
        self, door: Door, kerf: Fraction, unit: Unit, measured: Measured, choices: Choices
    ) -> JointSizes:
        return _size(door, kerf, unit, measured, choices)

    def proud(self, door: Door) -> Fraction:
        return door.joint.proud

    def reach(self, door: Door, stile_width: Fraction) -> Fraction:
        """The tenon's length: right through the stile and proud; through the wider stile at both
        ends where tenons are of one length."""
        one = door.joint.tenons == "one length"
        width = max(door.hinge_stile, door.free_stile) if one else stile_width
        return width + door.joint.proud

    def tenon_widths(
        self, door: Door, deepest: Fraction | None = None
    ) -> tuple[Fraction, Fraction]:
        """As the groove leaves them, rail width less groove depth; narrower where the slot would
        be deeper than `deepest`, but not by more than a third."""
        top, bottom = (rail - door.groove.depth for rail in (door.top_rail, door.bottom_rail))
        if deepest is None:
            return top, bottom
        most = deepest - door.joint.proud
        return _narrowed(top, most), _narrowed(bottom, most)

    def in_stile(self, corner: Corner, sizes: JointSizes) -> tuple[Feature, ...]:
        """A slot as deep, from the sawn end, as the tenon is wide and the end proud."""
        depth = corner.tenon_width + corner.proud
        along = end_span(corner.stile_end, corner.stile_length, ZERO, depth)
        mate = f"{corner.rail}/{corner.rail_end}"
        box = (along, (ZERO, corner.stile_width), sizes.slot)
        return (Feature("slot", corner.stile_end, box, mate),)

    def in_rail(self, corner: Corner, sizes: JointSizes) -> tuple[Feature, ...]:
        """Two cheeks, and the tenon's inner edge where the groove's pass does not trim it."""
        at = corner.rail_end
        along = end_span(at, corner.rail_length, ZERO, corner.reach)
        mate = f"{corner.stile}/{corner.stile_end}"
        across = (ZERO, corner.rail_width)
        thickness = (ZERO, sizes.thickness)
        waste = ((ZERO, sizes.tenon[0]), (sizes.tenon[1], sizes.thickness))
        cheeks = tuple(Feature("cheek", at, (along, across, z), mate) for z in waste)
        edge = corner.rail_width - corner.tenon_width
        if sizes.trimmed and edge <= sizes.groove_depth:
            return cheeks
        return (*cheeks, Feature("edge-cheek", at, (along, (ZERO, edge), thickness), mate))

    def operations(
        self,
        part: Part,
        sizes: JointSizes,
        face_side: FaceSide,
        scrap: ScrapPieces,
        context: Context,
    ) -> Iterator[Operation]:
        for feature in part.features:
            if feature.kind == "slot":
                along, _, span = feature.box
                channel = Channel(
                    id=f"{part.mark}/slot-{feature.at}",
                    what="slot",
                    mark=part.mark,
                    carrier="tenoning-jig",
                    down="end-A" if feature.at == "A" else "end-B",
                    span=span,
                    depth=along[1] - along[0],
                    thickness=part.size.thickness,
                    face_side=face_side,
                    scrap=scrap.stile,
                )
                turning = turned_slotting(context, sizes.slot_centred, "slot")
                yield from cut_channel(channel, context.for_slots(), by_turning=turning)
        for tenon in tenons(part):
            yield from cut_tenon(tenon, scrap, context)


def _narrowed(width: Fraction, most: Fraction) -> Fraction:
    return most if TENON_LEAST * width <= most < width else width


def _size(
    door: Door, kerf: Fraction, unit: Unit, measured: Measured, choices: Choices
) -> JointSizes:
    """Decide every width and place through the thickness.

    Free widths (neither stated nor given by a panel) are what whole passes of the kerf make,
    about a third of the thickness; a free slot takes the groove's width where that is from a
    quarter to a half of the thickness, so that the groove's pass trims the tenon.
    Raises `Refusal` where the groove would leave the slot's range.
    """
    thickness = measured.thickness.get(door.thickness, door.thickness)
    groove_width = _groove_width(door, thickness, kerf, unit, choices)
    slot_width = door.joint.slot
    if choices.dado is not None and slot_width is None:
        slot_width = choices.dado.kerf
    if slot_width is None:
        follows = thickness / 4 <= groove_width <= thickness / 2
        slot_width = groove_width if follows else _third(thickness, kerf, unit)
    # A slot that came out a hair narrower than its groove, both being cut, is what it is: the
    # tenon is fitted to it.
    hair = fits.FIT_BAND.of(unit) if slot_width in measured.slot else ZERO
    slot_width = measured.slot.get(slot_width, slot_width)
    slot = _span(door, thickness, slot_width, door.joint.offset)
    groove_offset = door.groove.offset
    if groove_offset is None and door.joint.offset is not None:
        groove_offset = door.joint.offset + (slot_width - groove_width) / 2
    groove = _span(door, thickness, groove_width, groove_offset)
    if not (slot[0] - hair <= groove[0] and groove[1] <= slot[1] + hair):
        raise Refusal(_void(door, slot_width, groove_width, unit))
    tenon_thickness = slot_width - door.joint.clearance
    centred = slot[0] + slot[1] == thickness
    if centred and choices.slot != "from the face side":
        start = (thickness - tenon_thickness) / 2
    else:
        # Cut from the face side, slot and tenon share that cheek: the clearance lies behind it,
        # and the faces stay flush.
        start = slot[0] if door.face_side == "out" else slot[1] - tenon_thickness
    panel = door.panel.thickness
    return JointSizes(
        thickness=thickness,
        slot=slot,
        tenon=(start, start + tenon_thickness),
        groove=groove,
        groove_depth=door.groove.depth,
        panel=groove_width - fits.PANEL_FIT.of(unit) if panel is None else panel,
        slot_centred=centred,
        groove_centred=groove[0] + groove[1] == thickness,
    )


def _groove_width(
    door: Door, thickness: Fraction, kerf: Fraction, unit: Unit, choices: Choices
) -> Fraction:
    if door.groove.width is not None:
        return door.groove.width
    if door.panel.thickness is not None:
        return door.panel.thickness + fits.PANEL_FIT.of(unit)
    if door.joint.slot is not None:
        return door.joint.slot
    if choices.dado is not None:
        return choices.dado.kerf
    return _third(thickness, kerf, unit)


def _third(thickness: Fraction, kerf: Fraction, unit: Unit) -> Fraction:
    return free_width(thickness / 3, kerf, fits.OVERLAP.of(unit), fits.WIDTH_STEP.of(unit))


def _span(door: Door, thickness: Fraction, width: Fraction, offset: Fraction | None) -> Span:
    if offset is None:
        offset = (thickness - width) / 2
    start = offset if door.face_side == "out" else thickness - offset - width
    return (start, start + width)


def _void(door: Door, slot: Fraction, groove: Fraction, unit: Unit) -> str:
    step = fits.WIDTH_STEP.of(unit)
    return (
        f"{door.where}: the groove ({show(groove, unit, step).text} {unit} wide) reaches outside "
        f"the slot ({show(slot, unit, step).text} {unit} wide), so a void would show at the door's "
        "top and bottom edges: make the slot as wide as the groove and in line with it "
        "([joint] slot and offset), or use a thinner panel"
    )
