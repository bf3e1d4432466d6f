"""What stands in the lights of a frame: one module a kind, each the same function."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence

from sequencer.doors.fills.boards import boards
from sequencer.doors.fills.flat import flat_panels
from sequencer.doors.fills.glass import panes
from sequencer.doors.fills.model import Filled, Fitting
from sequencer.doors.fills.raised import raised_panels, wedge_of
from sequencer.doors.leaf import Light
from sequencer.job.kinds import Boarded, Glazed, Raised
from sequencer.job.schema import Door

__all__ = ["Filled", "Fitting", "fill", "wedge_of"]

Make = Callable[[Door, str, int, Sequence[Light], Fitting], Filled]
FILLERS: Mapping[type, Make] = {Boarded: boards, Glazed: panes, Raised: raised_panels}
"""By the kind that the job asks for; a flat panel where it asks for none."""


def fill(spec: Door, mark: str, first: int, lights: Sequence[Light], fitting: Fitting) -> Filled:
    """What fills the lights of the leaf `mark`, its parts numbered from `first`. Raises `Refusal`
    where the frame cannot take it."""
    make = FILLERS.get(type(spec.fill), flat_panels)
    return make(spec, mark, first, lights, fitting)
