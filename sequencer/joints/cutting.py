"""The cuts that joints have in common."""

from __future__ import annotations

from collections.abc import Iterator

from sequencer.cuts.channel import cut_slots
from sequencer.cuts.model import Operation
from sequencer.cuts.tenon import cut_tenon, tenons
from sequencer.joints.base import Cutting


def slots(cutting: Cutting) -> Iterator[Operation]:
    """The slots of one part, turned where they are centred and the plan's method has it so."""
    yield from cut_slots(
        cutting.part,
        cutting.face_side,
        cutting.scrap.stile,
        cutting.context,
        centred=cutting.sizes.slot_centred,
    )


def slots_and_tenons(cutting: Cutting) -> Iterator[Operation]:
    """A bridle's, whichever of the two the part has."""
    yield from slots(cutting)
    for tenon in tenons(cutting.part):
        yield from cut_tenon(tenon, cutting.scrap, cutting.context)
