"""What slotted, halved and tenoned ends lack, as corners and bars have it in common."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from sequencer.joints.base import Corner, JointSizes, end_span
from sequencer.plan import Feature, Span

ZERO = Fraction(0)


def stile_slot(corner: Corner, sizes: JointSizes) -> Feature:
    """A slot as deep, from the sawn end, as the tenon is wide and the end proud."""
    depth = corner.tenon_width + corner.proud
    along = end_span(corner.stile_end, corner.stile_length, ZERO, depth)
    box = (along, (ZERO, corner.stile_width), sizes.slot)
    return Feature("slot", corner.stile_end, box, corner.stile_mate)


def rail_cheeks(corner: Corner, sizes: JointSizes) -> Iterator[Feature]:
    """What leaves the tenon. In a frame for glass the back cheek is shorter by the rebate's depth:
    the rail's back goes on into the stile's rebate and closes its end."""
    back = corner.reach - sizes.groove_depth if sizes.rebated else corner.reach
    yield from cheeks(
        corner.rail_end,
        (corner.rail_length, corner.rail_width, sizes.thickness),
        (corner.reach, back),
        sizes.tenon,
        corner.rail_mate,
    )


def cheeks(
    at: str,
    size: tuple[Fraction, Fraction, Fraction],
    lengths: tuple[Fraction, Fraction],
    tenon: Span,
    mate: str,
) -> Iterator[Feature]:
    """The cheeks of a tenon at end `at` of a piece of that `size`, face first, `lengths` long;
    none where the tenon lies in the surface."""
    length, width, thickness = size
    for reach, z in zip(lengths, ((ZERO, tenon[0]), (tenon[1], thickness)), strict=True):
        if z[0] < z[1]:
            yield Feature("cheek", at, (end_span(at, length, ZERO, reach), (ZERO, width), z), mate)


def edge_cheek(corner: Corner, sizes: JointSizes) -> Iterator[Feature]:
    """The tenon's inner edge, where the groove's pass does not trim it."""
    edge = corner.rail_width - corner.tenon_width
    if sizes.trimmed and edge <= sizes.groove_depth:
        return
    reach = corner.reach - sizes.groove_depth if sizes.rebated else corner.reach
    along = end_span(corner.rail_end, corner.rail_length, ZERO, reach)
    box = (along, (ZERO, edge), (ZERO, sizes.thickness))
    yield Feature("edge-cheek", corner.rail_end, box, corner.rail_mate)
