"""Whether what a check refers to is made good by it, and whether what may be off is followed."""

from __future__ import annotations

from collections.abc import Collection, Iterable

from msgspec import Struct

from sequencer.errors import InternalError
from sequencer.facts import Fact
from sequencer.facts.checks import REFERS_AMISS
from sequencer.plan import Checkpoint, Plan
from sequencer.proof.checks import named
from sequencer.proof.follow import fault
from sequencer.proof.windows import FOLLOWED, WINDOWS, too_wide


class Hangs(Struct, frozen=True):
    """The checks whose readings change how a fit comes out, and those which have a say in it whose
    readings change nothing: what is read later makes them good."""

    on: Collection[int]
    made_good: Collection[int]


def check_referring(plan: Plan, fits: Iterable[Hangs]) -> None:
    """Raises InternalError for the first check that refers to one which no fit that hangs on it
    is freed of by that: of something that it does not go into, or by another share; and for one
    whose window is as wide as only what everything goes by may have it."""
    good: dict[int, set[int]] = {}
    followed: set[int] = set()
    for fit in fits:
        followed.update(fit.made_good)
        for number in fit.on:
            good.setdefault(number, set()).update(fit.made_good)
    checks = list(enumerate(plan.checkpoints))
    for number, check in checks:
        if not good.get(number, set()).issuperset(check.after):
            raise _at(plan, check, REFERS_AMISS(measure=named(check)))
    for number, check in checks:
        if check.measure.what.value in FOLLOWED and (number in good or number not in followed):
            wrong = too_wide(check, WINDOWS[check.measure.what.value], plan.unit)
            if wrong is not None:
                raise _at(plan, check, wrong)


def _at(plan: Plan, check: Checkpoint, wrong: Fact) -> InternalError:
    step = next(step for step in plan.steps if step.number == check.at_step)
    return fault(step, check.scrap or next(iter(check.marks or step.marks), ""), wrong)
