"""On which side of the blade what guides a piece stands, for the person before the saw."""

from __future__ import annotations

from fractions import Fraction

from sequencer.job.schema import Shop, Side
from sequencer.saw.fittings import CARRIERS


def guide_side(carrier: str, tilt: Fraction, *, fence: Side, jig: Side, tilts: Side) -> Side:
    """On which side of the blade the guiding surface stands, for the person before the saw. A
    sled's stop is on the right. For a leaning blade the fence stands where the blade leans away
    from it.

    >>> guide_side("rip-fence", Fraction(-1, 8), fence="right", jig="right", tilts="right")
    'left'
    """
    body = CARRIERS[carrier].body
    if body == "jig":
        return jig
    if body == "sled":
        return "right"
    if tilt:
        return "right" if tilts == "left" else "left"
    return fence


def side_in(shop: Shop, carrier: str, tilt: Fraction) -> Side:
    """The same in one shop."""
    saw = shop.saw
    return guide_side(carrier, tilt, fence=saw.fence, jig=shop.jig.side, tilts=saw.tilts)


def fence_crosses(shop: Shop) -> bool:
    """Whether the fence goes to the other side of the blade when the blade leans."""
    return shop.saw.fence == shop.saw.tilts
