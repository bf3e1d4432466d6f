"""Sizes of a corner bridle joint and the panel groove that meets it.

Thickness, slot, tenon and groove all lie on one line through the thickness: the slot holds the
groove's range (else a void would show at the door's end), and the tenon is the slot less its
clearance.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from sequencer.errors import Refusal
from sequencer.job.schema import Door, Measured
from sequencer.lengths import Unit, show
from sequencer.methods import Choices
from sequencer.passes import free_width
from sequencer.plan import Span
from sequencer.trade import fits


@dataclass(frozen=True, slots=True)
class JointSizes:
    """z-ranges are in the piece's frame, from the show face. `centred` says that slot and groove
    may be cut by turning the piece round; `trimmed`, that the groove's pass trims the tenon."""

    thickness: Fraction
    slot: Span
    tenon: Span
    groove: Span
    groove_depth: Fraction
    panel: Fraction
    slot_centred: bool
    groove_centred: bool

    @property
    def trimmed(self) -> bool:
        return self.groove[0] <= self.tenon[0] and self.tenon[1] <= self.groove[1]

    @property
    def slot_width(self) -> Fraction:
        return self.slot[1] - self.slot[0]

    @property
    def tenon_thickness(self) -> Fraction:
        return self.tenon[1] - self.tenon[0]


def size_joint(
    door: Door, kerf: Fraction, unit: Unit, measured: Measured, choices: Choices
) -> JointSizes:
    """Decide every width and place through the thickness.

    Free widths (neither stated nor given by a panel) are what whole passes of the kerf make,
    about a third of the thickness; a free slot takes the groove's width where that is from a
    quarter to a half of the thickness, so that the groove's pass trims the tenon.
    Raises `Refusal` where the groove would leave the slot's range.
    """
    thickness = measured.thickness.get(door.thickness, door.thickness)
    groove_width = _groove_width(door, thickness, kerf, unit)
    slot_width = door.joint.slot
    if slot_width is None:
        follows = thickness / 4 <= groove_width <= thickness / 2
        slot_width = groove_width if follows else _third(thickness, kerf, unit)
    slot_width = measured.slot.get(slot_width, slot_width)
    slot = _span(door, thickness, slot_width, door.joint.offset)
    groove_offset = door.groove.offset
    if groove_offset is None and door.joint.offset is not None:
        groove_offset = door.joint.offset + (slot_width - groove_width) / 2
    groove = _span(door, thickness, groove_width, groove_offset)
    if not (slot[0] <= groove[0] and groove[1] <= slot[1]):
        raise Refusal(_void(door, slot_width, groove_width, unit))
    tenon_thickness = slot_width - door.joint.clearance
    centred = slot[0] + slot[1] == thickness
    if centred and choices.slot == "turned":
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


def _groove_width(door: Door, thickness: Fraction, kerf: Fraction, unit: Unit) -> Fraction:
    if door.groove.width is not None:
        return door.groove.width
    if door.panel.thickness is not None:
        return door.panel.thickness + fits.PANEL_FIT.of(unit)
    if door.joint.slot is not None:
        return door.joint.slot
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
