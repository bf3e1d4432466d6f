"""How each number is set: to a mark, by a block, from the mate, or between two marks."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from fractions import Fraction

from sequencer.job.schema import Shop
from sequencer.plan import Checkpoint, Plan, SetBy, Setup
from sequencer.records import replace
from sequencer.saw.fittings import CARRIERS


def told_how(plan: Plan, shop: Shop) -> tuple[Setup, ...]:
    """The setups, each with how its guide and its height are set."""
    through = {step.setup for step in plan.steps for cut in step.cuts if cut.keeps is not None}
    checks = plan.checkpoints
    return tuple(
        replace(setup, set_by=tuple(_set_by(setup, setup.number in through, checks, shop)))
        for setup in plan.setups
    )


def _set_by(
    setup: Setup, through: bool, checkpoints: Sequence[Checkpoint], shop: Shop
) -> Iterator[SetBy]:
    if setup.guide is not None and setup.reading is not None:
        knob = CARRIERS[setup.carrier].guide_knob(shop.jig.rides)
        yield _of(knob, setup.reading, setup.guide, setup, checkpoints, shop)
    if through:
        yield SetBy("height", "any")
    else:
        yield _of("height", setup.height_shown, setup.height, setup, checkpoints, shop)


def _of(
    knob: str,
    shown: Fraction,
    between: Fraction,
    setup: Setup,
    checkpoints: Sequence[Checkpoint],
    shop: Shop,
) -> SetBy:
    """`shown` is what the scale shows, `between` what a block would fill."""
    if shown % shop.scale(knob) == 0:
        return SetBy(knob, "mark")
    if between in shop.tools.blocks:
        return SetBy(knob, "block", str(between))
    for check in checkpoints:
        mated = bool(check.after) or check.tool == "fit"
        if check.setup == setup.number and check.knob == knob and mated:
            steps = dict.fromkeys(checkpoints[n].at_step for n in check.after)
            return SetBy(knob, "mate", " ".join(map(str, steps)) or None)
    return SetBy(knob, "between marks")
