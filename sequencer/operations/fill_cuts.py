"""What fills a frame, at the bench: glass bedded and held by its stops."""

from __future__ import annotations

from collections.abc import Iterator

from sequencer.cuts.context import Context
from sequencer.cuts.model import Check, Operation
from sequencer.doors import Leaf
from sequencer.plan import Pane
from sequencer.trade.glass import CUT_BAND


def glaze(leaf: Leaf, context: Context) -> Iterator[Operation]:
    """Panes into the finished frame. Kind: glaze."""
    mark = leaf.door.mark
    checks = tuple(check for pane in leaf.door.panes for check in _pane(pane, context))
    if checks:
        yield Operation(f"{mark}/glaze", "glaze", mark, checks=checks, marks=(mark,))


def _pane(pane: Pane, context: Context) -> Iterator[Check]:
    """As it comes from the glazier, before it is bedded: a larger one may not go in."""
    band = context.fact(CUT_BAND)
    for name, (low, high) in (("width", pane.box[0]), ("height", pane.box[1])):
        size = high - low
        yield Check(
            measure=f"{name} of the pane {pane.mark}",
            target=size,
            low=size - band,
            high=size + band,
            feel="at both ends, before it is bedded; it lies in its rebate with air all round",
            marks=(pane.mark,),
        )
