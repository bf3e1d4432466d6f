"""How each number is set: to a mark, by a block, from the mate, or between two marks."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from sequencer.plan import Plan, SetBy, Setup
from sequencer.records import replace
from sequencer.saw.fittings import SPACER


def told_how(plan: Plan) -> tuple[Setup, ...]:
    """The setups, each with how its guide and its height are set."""
    through = {step.setup for step in plan.steps for cut in step.cuts if cut.keeps is not None}
    return tuple(
        replace(setup, set_by=tuple(_set_by(setup, plan, setup.number in through)))
        for setup in plan.setups
    )


def _set_by(setup: Setup, plan: Plan, through: bool) -> Iterator[SetBy]:
    if setup.stands is not None and setup.reading is not None:
        knob = plan.shop.guide_knob(setup.carrier)
        yield _of(knob, setup.reading, setup.stands, setup, plan)
    if setup.spacer:
        yield SetBy(SPACER, "block", str(setup.spacer))
    if through:
        yield SetBy("height", "any")
    else:
        yield _of("height", setup.height_shown, setup.height, setup, plan)


def _of(knob: str, shown: Fraction, between: Fraction, setup: Setup, plan: Plan) -> SetBy:
    """`shown` is what the scale shows, `between` what a block would fill."""
    if plan.shop.marked(knob, shown):
        return SetBy(knob, "mark")
    if plan.shop.tools is not None and between in plan.shop.tools.blocks:
        return SetBy(knob, "block", str(between))
    for check in plan.checkpoints:
        mated = bool(check.after) or check.tool == "fit"
        if check.setup == setup.number and check.knob == knob and mated:
            steps = dict.fromkeys(plan.checkpoints[n].at_step for n in check.after)
            return SetBy(knob, "mate", " ".join(map(str, steps)) or None)
    return SetBy(knob, "between marks")
