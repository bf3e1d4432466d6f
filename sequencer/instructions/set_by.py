"""What is said beside a number of how it is set."""

from __future__ import annotations

from fractions import Fraction

from sequencer.plan import Plan, Setup
from sequencer.trade.tools import How
from sequencer.wording.tools import SET_BY


def how_set(plan: Plan, setup: Setup, knob: str) -> How | None:
    """What is to be said: by a block, from the mate, between marks; `None` where the large figure
    is enough."""
    how = setup.how(knob)
    if how == "between marks" and not misses(plan, setup, knob):
        return None
    return how if how in SET_BY else None


def misses(plan: Plan, setup: Setup, knob: str) -> bool:
    """Whether a measure would not be good at the nearest mark, which the large figure shows."""
    number = setup.height_shown if knob == "height" else setup.reading or Fraction(0)
    step = plan.shop.scale(knob)
    off = round(number / step) * step - number
    return any(
        not check.low <= check.exact + off * check.per_unit <= check.high
        for check in plan.checkpoints
        if check.setup == setup.number and check.knob == knob and check.per_unit
    )
