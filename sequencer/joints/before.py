"""What of the joints' cuts must come before what, beyond slots, shoulders and cheeks."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence

from sequencer.cuts.housing import named
from sequencer.cuts.model import Edge, Operation
from sequencer.facts import reasons
from sequencer.plan import Part
from sequencer.records import replace


def joint_edges(
    frame: Sequence[Part], by_mark: Mapping[str, Sequence[Operation]]
) -> Iterator[Edge]:
    """The edges among a frame's parts; `by_mark` gives each part's operations."""
    for part in frame:
        own = by_mark.get(part.mark, ())
        for at in ("A", "B"):
            mitres = [o for o in own if o.kind == "mitre" and _at(o, at)]
            for operation in own:
                if operation.kind in ("slot", "shoulder", "cheek") and _at(operation, at):
                    yield from (Edge(mitre.id, operation.id, reasons.BACKED()) for mitre in mitres)
        for feature in part.features:
            if feature.kind == "housing" and feature.mate is not None:
                trench = [o for o in own if replace(o.name.whole, side="") == named(part, feature)]
                for near in (o.name for o in trench if o.name.made_by == "near"):
                    yield Edge(str(near), str(replace(near, made_by="far")), reasons.NEAR_FIRST())
                for slot in by_mark.get(feature.mate_mark, ()):
                    if slot.kind == "slot" and _at(slot, feature.mate_at):
                        yield from (Edge(slot.id, o.id, reasons.TONGUE_FITTED()) for o in trench)


def _at(operation: Operation, end: str) -> bool:
    return any(f"end-{end}" in (cut.down, cut.against) for cut in operation.cuts)
