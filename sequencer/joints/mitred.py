"""The mitred bridle: a bridle joint that looks like a mitre from the front.

Slot, tenon and back are square, as in a bridle; the layer in front of the slot meets at 45°, from
the door's corner to the light's.
"""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from sequencer.cuts.mitre import cut_mitres
from sequencer.cuts.model import Operation
from sequencer.errors import Refusal
from sequencer.facts import Length, parts
from sequencer.job.schema import Door
from sequencer.joints.base import Corner, Cutting, JointSizes
from sequencer.joints.cutting import slots_and_tenons
from sequencer.joints.features import rail_cheeks, stile_slot
from sequencer.joints.sizes import Through, in_line, trimmed
from sequencer.lengths import Unit
from sequencer.measured import Measured
from sequencer.methods import Choices
from sequencer.plan import Feature, Prism
from sequencer.records import replace
from sequencer.trade import fits

ZERO = Fraction(0)


class MitredBridle(Through):
    """Stiles slotted, rails tenoned, both mitred in front of slot and tenon; a tenon narrower than
    the groove leaves it would have its mitre's tip cut off."""

    name = "mitred bridle"
    slotted = True

    def size(
        self, door: Door, kerf: Fraction, unit: Unit, measured: Measured, choices: Choices
    ) -> JointSizes:
        """As a bridle, but the clearance lies behind the tenon: one depth then lays bare the
        slot's front in the stile and the tenon's in the rail."""
        _as_wide(door, unit)
        sizes = in_line(door, kerf, unit, measured, choices)
        front = max(sizes.slot[0], sizes.groove[0])
        uncut = (front, front + sizes.tenon_thickness)
        tenon = trimmed(uncut, sizes.groove, fits.FIT_BAND.of(unit))
        stub = tenon if sizes.groove == sizes.slot else sizes.stub
        made = replace(sizes, tenon=tenon, stub=stub)
        if not made.trimmed:
            groove = sizes.groove[1] - sizes.groove[0]
            raise Refusal(
                parts.MITRE_NOT_TRIMMED(
                    where=door.where,
                    groove=Length(groove, unit),
                    tenon=Length(sizes.tenon_thickness, unit),
                )
            )
        return made

    def in_stile(self, corner: Corner, sizes: JointSizes) -> tuple[Feature, ...]:
        # Where the groove is narrower than the slot, the mitre's tip lies in front of it.
        depth = max(sizes.slot[0], sizes.groove[0])
        mitre = _mitre(
            corner.stile_end,
            corner.stile_length,
            corner.stile_width,
            corner.proud,
            depth,
            corner.stile_mate,
        )
        return (stile_slot(corner, sizes), mitre)

    def in_rail(self, corner: Corner, sizes: JointSizes) -> tuple[Feature, ...]:
        """The mitre in the front cheek's place, and the back cheek."""
        surplus = corner.reach - corner.stile_width
        mitre = _mitre(
            corner.rail_end,
            corner.rail_length,
            corner.rail_width,
            surplus,
            sizes.tenon[0],
            corner.rail_mate,
        )
        behind = (f for f in rail_cheeks(corner, sizes) if f.box[2][0] > 0)
        return (mitre, *behind)

    def operations(self, cutting: Cutting) -> Iterator[Operation]:
        yield from cut_mitres(cutting.part, cutting.scrap.rail, cutting.context)
        yield from slots_and_tenons(cutting)


def _mitre(
    at: str, length: Fraction, width: Fraction, start: Fraction, depth: Fraction, mate: str
) -> Feature:
    """All beyond the line that crosses the outside edge at `start` from end `at`, and the inside
    edge as much further in as the piece is wide."""
    corners = [(ZERO, ZERO), (start + width, ZERO), (start, width)]
    if start:
        corners.append((ZERO, width))
    if at == "B":
        corners = [(length - x, y) for x, y in corners]
    prism = Prism("xy", tuple(corners), (ZERO, depth))
    return Feature("mitre", at, prism.box, mate, prism)


def _as_wide(door: Door, unit: Unit) -> None:
    widths = {
        "hinge-stile": door.hinge_stile,
        f"{door.free_side}-stile": door.free_stile,
        "top-rail": door.top_rail,
        "bottom-rail": door.bottom_rail,
    }
    if any(width != door.hinge_stile for width in widths.values()):
        pieces = (
            parts.PIECE_WIDTH(piece=piece, width=Length(width, unit))
            for piece, width in widths.items()
        )
        raise Refusal(parts.MITRE_WIDTHS_DIFFER(where=door.where, pieces=tuple(pieces)))
