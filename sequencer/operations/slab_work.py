"""A solid door at the bench: cut to size from boards that were glued up, finished and hung."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from sequencer.cuts.context import Context
from sequencer.cuts.model import Check, Operation
from sequencer.doors import Leaf
from sequencer.facts import feels
from sequencer.operations.bench import diagonal, free_gap
from sequencer.saw.measures import Measure, What
from sequencer.saw.operation import OperationId
from sequencer.trade import fits


def make_slab_work(leaf: Leaf, context: Context) -> Iterator[Operation]:
    """In the order it is done. Kinds: finish, hang."""
    mark = leaf.door.mark
    (slab,) = leaf.parts
    yield Operation(
        OperationId(mark, "finish"),
        "finish",
        mark,
        checks=tuple(_sizes(leaf, context)),
        marks=(slab.mark,),
    )
    yield Operation(
        OperationId(mark, "hang"), "hang", mark, checks=free_gap(leaf, context), marks=(mark,)
    )


def _sizes(leaf: Leaf, context: Context) -> Iterator[Check]:
    """Square, and no wider than its gaps allow."""
    (slab,) = leaf.parts
    size = slab.size
    zero, band = Fraction(0), context.fact(fits.DIAGONAL_BAND)
    gaps = leaf.door.gaps
    # Where it laps over the case at both sides, it has no gap to close.
    closes = any(gaps.get(side, -1) >= 0 for side in ("hinge", "lock", "meeting"))
    yield Check(
        measure=Measure(What.SLAB_WIDTH),
        target=size.width,
        low=size.width - context.fact(fits.OPENING_BAND),
        high=size.width + context.fact(fits.SLAB_OVER),
        feel=feels.SLAB_ACROSS_GRAIN() if closes else feels.SLAB_ACROSS_GRAIN_LAPPING(),
        marks=(slab.mark,),
    )
    whole = diagonal(size.length, size.width)
    feel = feels.SLAB_CORNERS()
    corners = Measure(What.DIAGONAL, "slab")
    near = context.fact(fits.CORNERS_BAND)
    yield Check(corners, whole, whole - near, whole + near, feel, (slab.mark,))
    yield Check(Measure(What.DIAGONALS), zero, zero, band, feel, (slab.mark,))
