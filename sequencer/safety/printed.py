"""What a finished plan says of its hazards, held once more against the rules: nothing was dropped,
emptied or played down on the way to paper."""

from __future__ import annotations

from collections.abc import Sequence

from sequencer.errors import InternalError
from sequencer.facts import Fact
from sequencer.facts import promises as told
from sequencer.job.schema import Shop
from sequencer.plan import Caution, Plan, ToTick
from sequencer.safety.review import review


def check_printed(plan: Plan, shop: Shop) -> None:
    """Raises InternalError, with setup and rule, for the first caution, look or tick that is not
    as the rules have it."""
    found = review(plan, shop)
    for setup in plan.setups:
        rule = _differs(setup.cautions, found.cautions.get(setup.number, ()))
        if rule is not None:
            raise InternalError(told.OTHER_CAUTIONS(setup=setup.number, rule=rule))
    for step in plan.steps:
        rule = _differs(step.cautions, found.at_bench.get(step.kind, ()))
        if rule is not None:
            raise InternalError(told.OTHER_AT_BENCH(step=step.number, rule=rule))
    rule = _differs(plan.standing, found.standing)
    if rule is not None:
        raise InternalError(told.OTHER_STANDING(rule=rule))
    for there, wanted in (
        (plan.before_power, found.before_power),
        (plan.before_leaving, found.before_leaving),
    ):
        if there != wanted:
            raise InternalError(told.OTHER_LOOK(look=_missing(there, wanted)))
    ticks = tuple(ToTick(flag.tick, flag.setups, flag.caution) for flag in found.warnings)
    for tick in ticks:
        if tick not in plan.warnings:
            setups = tick.setups
            raise InternalError(told.OTHER_TICK(rule=tick.caution.rule, setups=setups))
    if len(plan.warnings) != len(ticks):
        raise InternalError(told.OTHER_TICK(rule=plan.warnings[-1].caution.rule, setups=()))


def _differs(there: Sequence[Caution], wanted: Sequence[Caution]) -> str | None:
    """The rule of the first that is missing or otherwise, or too many; `None` where all agree."""
    if tuple(there) == tuple(wanted):
        return None
    odd = [one for one in wanted if one not in there] or [one for one in there if one not in wanted]
    return (odd or list(there))[0].rule


def _missing(there: Sequence[Fact], wanted: Sequence[Fact]) -> str:
    return next((one.id for one in wanted if one not in there), there[-1].id if there else "")
