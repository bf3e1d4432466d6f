"""How each number is set: to a mark, by a block, from the mate, or between two marks."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from fractions import Fraction

from sequencer.job.schema import Shop
from sequencer.plan import Checkpoint, SetBy, Setup, Step
from sequencer.records import replace
from sequencer.saw.fittings import CARRIERS


def told_how(
    setups: Sequence[Setup], steps: Sequence[Step], checkpoints: Sequence[Checkpoint], shop: Shop
) -> tuple[Setup, ...]:
    """The setups, each with how its guide and its height are set."""
    through = {step.setup for step in steps for cut in step.cuts if cut.keeps is not None}
    return tuple(
        replace(setup, set_by=tuple(_set_by(setup, setup.number in through, checkpoints, shop)))
        for setup in setups
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
        if check.setup == setup.number and check.knob == knob and check.after:
            mate = checkpoints[check.after[0]]
            return SetBy(knob, "mate", str(mate.at_step))
    return SetBy(knob, "between marks")
