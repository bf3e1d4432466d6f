"""Which checks refer to what an earlier one measured: a tenon to the slot that it goes into."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from sequencer.plan import Checkpoint, Part, Step
from sequencer.saw.measures import Measure, What

_SLOT = Measure(What.CHANNEL_WIDTH, "slot")


def referred(
    checkpoints: Sequence[Checkpoint], parts: Sequence[Part], steps: Sequence[Step]
) -> tuple[Checkpoint, ...]:
    """The checks, those of tenons with the check of their slots' width, where all that are cut at
    the setting go into slots that one check stands for."""
    into = {f.mate: p.mark for p in parts for f in p.features if f.kind == "slot" and f.mate}
    slots: dict[str, int] = {}
    found = list(checkpoints)
    for n, check in enumerate(checkpoints):
        if check.measure == _SLOT:
            slots |= {mark: n for mark, _ in _cut(steps, check, "slot")}
        elif check.measure.what is What.TENON:
            mates = {
                slots.get(into.get(f"{mark}/{end}", ""), -1)
                for mark, end in _cut(steps, check, "cheek")
            }
            if len(mates) == 1 and -1 not in mates:
                found[n] = replace(check, after=tuple(mates))
    return tuple(found)


def _cut(steps: Sequence[Step], check: Checkpoint, kind: str) -> set[tuple[str, str]]:
    """What is cut at the setting that a check is for, and at which end."""
    return {
        (cut.mark, cut.down.removeprefix("end-"))
        for step in steps
        if step.setup == check.setup and step.kind == kind
        for cut in step.cuts
    }
