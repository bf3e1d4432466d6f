"""What the sheet of the night before says beside the plan: free dimensions that were chosen,
spacers worth making, pieces of which a spare is worth cutting along."""

from __future__ import annotations

from fractions import Fraction

from sequencer.facts import Fact, Length, advices
from sequencer.plan import Chosen, Plan
from sequencer.saved import gauges, recut
from sequencer.setups.given import Given

LOOKED_AT = 200
"""Saved settings, the latest, that are looked through for moves a spacer would serve."""


def advise(plan: Plan, given: Given) -> tuple[Fact, ...]:
    """What there is to say, in that order."""
    latest = () if given.saved is None else given.saved.latest(LOOKED_AT)
    spacers = gauges.worth_making(plan, given.shop, latest)
    return (
        *(chosen(each, plan) for each in plan.free),
        *(gauges.told(spacer, plan.unit) for spacer in spacers),
        *recut.worth_a_spare(plan, given),
    )


def chosen(dimension: Chosen, plan: Plan) -> Fact:
    """What was taken, and what the ends of the range would have cost."""

    def length(value: Fraction) -> Length:
        return Length(value, plan.unit)

    others = tuple(
        advices.COSTS_AT(minutes=cost, value=length(Fraction(end)))
        for end, cost in dimension.others.items()
    )
    return advices.CHOSEN(
        name=dimension.key,
        value=length(dimension.value),
        low=length(dimension.low),
        high=length(dimension.high),
        minutes=plan.ordering.minutes,
        others=advices.OTHERS(each=others) if others else None,
    )
