"""Stub tenons: as long as the groove is deep, in the groove itself, which runs through.

Groove and tenon are all of the joint: no slot, and nothing stands proud. The same joint lets mid
rails and mullions into any frame whose groove it fits.
"""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from sequencer.cuts.model import Operation
from sequencer.cuts.tenon import Tried, cut_tenon, tenons
from sequencer.errors import Refusal
from sequencer.facts import Length, feels, parts
from sequencer.job.schema import Door
from sequencer.joints.base import BAR_ROLES, Corner, Cutting, JointSizes, Tee
from sequencer.joints.features import cheeks, rail_cheeks
from sequencer.joints.sizes import (
    beside_groove,
    in_groove,
    inside,
    is_centred,
    panel_edge,
    panel_groove,
    placed,
    trimmed,
)
from sequencer.lengths import Unit
from sequencer.measured import Measured
from sequencer.methods import Choices
from sequencer.plan import Feature
from sequencer.trade import fits

ZERO = Fraction(0)


class StubTenon:
    """Rails stub-tenoned into the stiles' grooves."""

    name = "stub tenon"
    slotted = False

    def size(
        self, door: Door, kerf: Fraction, unit: Unit, measured: Measured, choices: Choices
    ) -> JointSizes:
        """The groove takes the slot's place; a stated slot and its offset are the groove's, but for
        the hair by which slots in bars came out otherwise."""
        thickness = measured.thickness.get(door.thickness, door.thickness)
        if door.glazed:
            raise Refusal(parts.STUB_IN_GLASS(where=door.where))
        if door.groove.depth <= kerf:
            depth = Length(door.groove.depth, unit)
            raise Refusal(
                parts.STUB_TOO_SHORT(where=door.where, depth=depth, kerf=Length(kerf, unit))
            )
        width = panel_groove(door, thickness, kerf, unit, choices, door.joint.slot)
        offset = door.groove.offset if door.groove.offset is not None else door.joint.offset
        stated = width if door.joint.slot is None else door.joint.slot
        slot_width = measured.slot.get(width, stated)
        hair = fits.FIT_BAND.of(unit)
        alike = -hair <= slot_width - width <= 2 * hair
        if not alike or door.joint.offset not in (None, offset):
            raise Refusal(parts.STUB_HAS_NO_SLOT(where=door.where, groove=Length(width, unit)))
        groove = placed(door, thickness, width, offset)
        tenon = in_groove(door, groove, thickness, choices)
        centred = is_centred(groove, thickness)
        slot = placed(
            door,
            thickness,
            slot_width,
            None if offset is None else offset + (width - slot_width) / 2,
        )
        turned = centred and choices.slot != "one-face"
        tongue = trimmed(inside(slot, door, thickness, turned=turned), groove, hair)
        return JointSizes(
            thickness=thickness,
            slot=slot,
            tenon=tenon,
            groove=groove,
            groove_depth=door.groove.depth,
            panel=panel_edge(door, width, unit),
            slot_centred=centred,
            groove_centred=centred,
            stub=tenon,
            tongue=tenon if slot == groove else tongue,
        )

    def proud(self, door: Door) -> Fraction:
        return ZERO

    def reach(self, door: Door, stile_width: Fraction) -> Fraction:
        return door.groove.depth

    def tenon_widths(
        self, door: Door, deepest: Fraction | None = None
    ) -> tuple[Fraction, Fraction]:
        return beside_groove(door)

    def in_stile(self, corner: Corner, sizes: JointSizes) -> tuple[Feature, ...]:
        """Nothing but the groove, which every stile has."""
        return ()

    def in_rail(self, corner: Corner, sizes: JointSizes) -> tuple[Feature, ...]:
        """Two cheeks; the groove's pass trims the tenon."""
        return tuple(rail_cheeks(corner, sizes))

    def operations(self, cutting: Cutting) -> Iterator[Operation]:
        yield from _cut(cutting)


class StubBar:
    """Mid rails and mullions stub-tenoned into the grooves of what they are let into."""

    name = "stub tenon"
    slotted = False

    def reach(self, door: Door, across_width: Fraction) -> Fraction:
        return door.groove.depth

    def in_bar(self, tee: Tee, sizes: JointSizes) -> tuple[Feature, ...]:
        """Two cheeks; the grooves along both edges trim the tenon."""
        if sizes.stub is None:
            raise Refusal(parts.STUB_BAR_IN_GLASS(bar=tee.bar))
        size = (tee.bar_length, tee.bar_width, sizes.thickness)
        mate = f"{tee.across}/{tee.edge}"
        return tuple(cheeks(tee.bar_end, size, (tee.reach, tee.reach), sizes.stub, mate))

    def in_crosspiece(self, tee: Tee, sizes: JointSizes) -> tuple[Feature, ...]:
        """Nothing but the groove."""
        return ()

    def operations(self, cutting: Cutting) -> Iterator[Operation]:
        if cutting.part.role in BAR_ROLES:
            yield from _cut(cutting)


def _cut(cutting: Cutting) -> Iterator[Operation]:
    for tenon in tenons(cutting.part, Tried(cutting.scrap.rail, feels.OFFCUT())):
        yield from cut_tenon(tenon, cutting.scrap, cutting.context)
