"""Whether what a check refers to is made good by it."""

from __future__ import annotations

from collections.abc import Collection, Iterable

from msgspec import Struct

from sequencer.facts.checks import REFERS_AMISS
from sequencer.plan import Plan
from sequencer.proof.checks import named
from sequencer.proof.follow import fault


class Hangs(Struct, frozen=True):
    """The checks whose readings change how a fit comes out, and those which have a say in it whose
    readings change nothing: what is read later makes them good."""

    on: Collection[int]
    made_good: Collection[int]


def check_referring(plan: Plan, fits: Iterable[Hangs]) -> None:
    """Raises InternalError for the first check that refers to one which no fit that hangs on it
    is freed of by that: of something that it does not go into, or by another share."""
    good: dict[int, set[int]] = {}
    for fit in fits:
        for number in fit.on:
            good.setdefault(number, set()).update(fit.made_good)
    for number, check in enumerate(plan.checkpoints):
        if not good.get(number, set()).issuperset(check.after):
            step = next(step for step in plan.steps if step.number == check.at_step)
            mark = check.scrap or next(iter(check.marks or step.marks), "")
            raise fault(step, mark, REFERS_AMISS(measure=named(check)))
