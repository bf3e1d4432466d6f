"""A knob's change, with all that is told of it."""

from __future__ import annotations

from fractions import Fraction

from sequencer.job.schema import Shop
from sequencer.job.sides import fence_crosses, side_in
from sequencer.plan import Change
from sequencer.saw.values import AWAY


def changed_to(
    knob: str,
    before: str | None,
    after: str,
    stood: Fraction | None,
    number: Fraction | None,
    shop: Shop,
    tilt: Fraction,
) -> Change:
    """The change of one knob; `stood` and `number` are its old and new numbers, where it has any
    by the same scale, and `tilt` is how the blade leans then."""
    crosses = knob == "fence" and after != AWAY and fence_crosses(shop)
    side = side_in(shop, "rip-fence", tilt) if crosses else None
    return Change(knob, before, after, stood, number, side)
