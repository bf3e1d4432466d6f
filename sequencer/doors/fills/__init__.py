"""What stands in the lights of a frame: one module a kind, each the same function."""

from __future__ import annotations

from collections.abc import Sequence

from sequencer.doors.fills.flat import flat_panels
from sequencer.doors.fills.model import Filled
from sequencer.doors.leaf import Light
from sequencer.job.schema import Door
from sequencer.joints import JointSizes

__all__ = ["Filled", "fill"]


def fill(spec: Door, mark: str, first: int, lights: Sequence[Light], sizes: JointSizes) -> Filled:
    """What fills the lights of the leaf `mark`, its parts numbered from `first`."""
    return flat_panels(spec, mark, first, lights, sizes)
