"""What the sheet of the night before says beside the plan: free dimensions that were chosen,
spacers worth making, pieces of which a spare is worth cutting along."""

from __future__ import annotations

from fractions import Fraction

from sequencer.lengths import show
from sequencer.plan import Chosen, Plan
from sequencer.saved import gauges, recut
from sequencer.sequencing.given import Given
from sequencer.sheets.figures import minutes, short_minutes
from sequencer.wording import Room

LOOKED_AT = 200
"""Saved settings, the latest, that are looked through for moves a spacer would serve."""


def advise(plan: Plan, given: Given) -> tuple[str, ...]:
    """Lines in that order; none that is empty."""
    latest = () if given.saved is None else given.saved.latest(LOOKED_AT)
    spacers = gauges.worth_making(plan, given.shop, latest)
    return (
        *(chosen_words(each, plan) for each in plan.free),
        *(
            f"worth making once: {gauges.words(spacer, plan.unit, given.shop.graduation)}"
            for spacer in spacers
        ),
        *recut.worth_a_spare(plan, given),
    )


def chosen_words(chosen: Chosen, plan: Plan) -> str:
    """As `groove width: 15/64 in taken of 7/32 to 9/32 in; 64 minutes, 67 at 7/32`."""

    def say(length: Fraction) -> str:
        shown = show(length, plan.unit, plan.shop.graduation)
        return shown.text if shown.exact else shown.decimal

    others = ", ".join(
        f"{short_minutes(cost)} at {say(Fraction(end))}" for end, cost in chosen.others.items()
    )
    name = Room(plan.shop.words).term(chosen.key)
    return (
        f"{name}: {say(chosen.value)} {plan.unit} taken of {say(chosen.low)} to "
        f"{say(chosen.high)} {plan.unit}; {minutes(plan.ordering.minutes)}"
        + (f", {others}" if others else "")
    )
