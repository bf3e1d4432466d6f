"""The corner bridle joint, right through and with square shoulders on both faces."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from sequencer.cuts.model import Operation
from sequencer.job.schema import Door
from sequencer.joints.base import Corner, Cutting, JointSizes
from sequencer.joints.cutting import slots_and_tenons
from sequencer.joints.features import edge_cheek, rail_cheeks, stile_slot
from sequencer.joints.sizes import Through, beside_groove, in_line
from sequencer.lengths import Unit
from sequencer.measured import Measured
from sequencer.methods import Choices
from sequencer.plan import Feature
from sequencer.trade.fits import TENON_LEAST


class Bridle(Through):
    """The corner bridle joint: stiles slotted, rails tenoned, ends proud until planed."""

    name = "bridle"
    slotted = True

    def size(
        self, door: Door, kerf: Fraction, unit: Unit, measured: Measured, choices: Choices
    ) -> JointSizes:
        return in_line(door, kerf, unit, measured, choices)

    def tenon_widths(
        self, door: Door, deepest: Fraction | None = None
    ) -> tuple[Fraction, Fraction]:
        """As the groove leaves them, rail width less groove depth; narrower where the slot would
        be deeper than `deepest`, but not by more than a third."""
        top, bottom = beside_groove(door)
        if deepest is None:
            return top, bottom
        most = deepest - door.joint.proud
        return _narrowed(top, most), _narrowed(bottom, most)

    def in_stile(self, corner: Corner, sizes: JointSizes) -> tuple[Feature, ...]:
        return (stile_slot(corner, sizes),)

    def in_rail(self, corner: Corner, sizes: JointSizes) -> tuple[Feature, ...]:
        """Two cheeks, and the tenon's inner edge where the groove's pass does not trim it."""
        return (*rail_cheeks(corner, sizes), *edge_cheek(corner, sizes))

    def operations(self, cutting: Cutting) -> Iterator[Operation]:
        yield from slots_and_tenons(cutting)


def _narrowed(width: Fraction, most: Fraction) -> Fraction:
    return most if TENON_LEAST * width <= most < width else width
