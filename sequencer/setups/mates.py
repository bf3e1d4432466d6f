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
    mates = {part.mark: _mates(part) for part in parts}
    slots: dict[str, int] = {}
    found = list(checkpoints)
    for n, check in enumerate(checkpoints):
        if check.measure == _SLOT:
            slots |= dict.fromkeys(_cut(steps, check, "slot"), n)
        elif check.measure.what is What.TENON:
            into = {
                slots.get(mate, -1)
                for mark in _cut(steps, check, "cheek")
                for mate in mates.get(mark, ())
            }
            if len(into) == 1 and -1 not in into:
                found[n] = replace(check, after=tuple(into))
    return tuple(found)


def _cut(steps: Sequence[Step], check: Checkpoint, kind: str) -> set[str]:
    """What is cut at the setting that a check is for."""
    return {
        cut.mark
        for step in steps
        if step.setup == check.setup and step.kind == kind
        for cut in step.cuts
    }


def _mates(part: Part) -> set[str]:
    """The pieces that its tenons go into."""
    return {
        feature.mate.partition("/")[0]
        for feature in part.features
        if feature.kind == "cheek" and feature.mate
    }
