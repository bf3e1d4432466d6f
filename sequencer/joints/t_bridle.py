"""The T-bridle: a bar's end is slotted and straddles the tongue that housings leave of what it is
let into.

The bar reaches to the crosspiece's outer edge, and its slot only to the groove, which the bar's
middle fills. In a frame for glass the bar's back is narrower by a rebate on both sides, and so is
the housing for it.
"""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from sequencer.cuts.housing import cut_housings
from sequencer.cuts.model import Operation
from sequencer.errors import Refusal
from sequencer.facts import parts
from sequencer.job.schema import Door
from sequencer.joints.base import BAR_ROLES, Cutting, JointSizes, Tee, end_span
from sequencer.joints.cutting import slots
from sequencer.plan import Feature, Part, Span

ZERO = Fraction(0)


class TBridle:
    """Mid rails and mullions slotted over tongues."""

    name = "T-bridle"
    slotted = True

    def reach(self, door: Door, across_width: Fraction) -> Fraction:
        return across_width

    def in_bar(self, tee: Tee, sizes: JointSizes) -> tuple[Feature, ...]:
        """A slot as deep as the crosspiece is wide beside its groove."""
        _tongue(tee, sizes)
        depth = tee.across_width - sizes.groove_depth
        along = end_span(tee.bar_end, tee.bar_length, ZERO, depth)
        box = (along, (ZERO, tee.bar_width), sizes.slot)
        return (Feature("slot", tee.bar_end, box, f"{tee.across}/{tee.edge}"),)

    def in_crosspiece(self, tee: Tee, sizes: JointSizes) -> tuple[Feature, ...]:
        """A housing in the face and one in the back; the tongue between is as thick as a tenon."""
        tongue = _tongue(tee, sizes)
        across = (ZERO, tee.across_width)
        mate = f"{tee.bar}/{tee.bar_end}"
        narrower = sizes.groove_depth if sizes.rebated else ZERO
        low, high = tee.at
        behind = (low + narrower, high - narrower)
        return (
            Feature("housing", "face", (tee.at, across, (ZERO, tongue[0])), mate),
            Feature("housing", "back", (behind, across, (tongue[1], sizes.thickness)), mate),
        )

    def operations(self, cutting: Cutting) -> Iterator[Operation]:
        if cutting.part.role in BAR_ROLES:
            yield from slots(cutting)
        _beside_glass(cutting.part)
        yield from cut_housings(cutting.part, cutting.scrap.rail, cutting.context)


def _tongue(tee: Tee, sizes: JointSizes) -> Span:
    if sizes.tongue is None:
        raise Refusal(parts.BAR_IN_LAPS(bar=tee.bar))
    if sizes.tongue[0] < sizes.groove[0] or sizes.groove[1] < sizes.tongue[1]:
        raise Refusal(parts.BAR_OFF_GROOVE(bar=tee.bar, across=tee.across))
    if sizes.rebated and tee.bar_width <= 2 * sizes.groove_depth:
        raise Refusal(parts.BAR_LOSES_BACK(bar=tee.bar))
    return sizes.tongue


def _beside_glass(part: Part) -> None:
    """A bar that goes right through stands in the rebate on the other side."""
    rebated = {f.at for f in part.features if f.kind == "rebate"}
    housed = any(f.kind == "housing" for f in part.features)
    if housed and {"inside-edge", "outside-edge"} <= rebated:
        raise Refusal(parts.BAR_MEETS_GLASS(part=part.mark))
