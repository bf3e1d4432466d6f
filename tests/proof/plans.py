"""Plans by the hundred: the real stages, with a quick order in place of the search.

The proof does not care how good an order is. Long runs take the search itself.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from contextlib import ExitStack, contextmanager
from fractions import Fraction
from typing import Any
from unittest.mock import patch

from sequencer import ordering, pipeline
from sequencer.errors import Refusal
from sequencer.job.schema import Job, Shop
from sequencer.measured import Measured
from sequencer.methods import Choices
from sequencer.ordering import Order, Placed, Problem
from sequencer.plan import Plan
from sequencer.setups.given import Given


def quick_steps(problem: Problem, *_: object) -> tuple[Placed, ...]:
    """Whatever can be done as the saw stands, else the first that can be done at all."""
    if not _LAST or _LAST[0] is not problem:
        _LAST[:] = [problem, tuple(_steps(problem))]
    return _LAST[1]  # type: ignore[no-any-return]


_LAST: list[Any] = []
"""The last problem with its order: one plan asks four times."""


def _steps(problem: Problem) -> Iterator[Placed]:
    waiting = [0] * len(problem.operations)
    followers: list[list[int]] = [[] for _ in problem.operations]
    for first, later in problem.before:
        if first not in problem.done:
            waiting[later] += 1
            followers[first].append(later)
    state = dict(problem.start)
    ready = [n for n in range(len(waiting)) if not waiting[n] and n not in problem.done]
    while ready:
        fits = (n for n in ready if _fits(problem, n, state))
        chosen = next(fits, ready[0])
        needs = problem.operations[chosen].alternatives[0].needs
        state |= {knob: v[0] for knob, v in needs.items() if state.get(knob) not in v}
        yield Placed(chosen, 0, dict(state))
        ready.remove(chosen)
        for later in followers[chosen]:
            waiting[later] -= 1
            if not waiting[later]:
                ready.append(later)


def _fits(problem: Problem, operation: int, state: dict[str, str]) -> bool:
    needs = problem.operations[operation].alternatives[0].needs
    return all(state.get(knob) in accepted for knob, accepted in needs.items())


def quickly(problem: Problem, **_: object) -> Order:
    """An order found without a search, its bound unknown."""
    steps = quick_steps(problem)
    cost = ordering.check.recompute(problem, steps)
    return Order(steps, cost.minutes, Fraction(0), proven=False, tie=0)


def make_plan(
    jobs: Sequence[Job], shop: Shop, measured: Measured | None = None, *, search: bool = False
) -> Plan:
    """The plan of all ways by the search (a tenth of a second for each), or of one of the open
    ways, ordered quickly: the first, from a place that the sizes asked for pick, that is safe."""
    if search:
        return pipeline.plan(jobs, shop, measured, seconds=0.1)
    return plan_one_way(jobs, shop, measured)[0]


def plan_one_way(
    jobs: Sequence[Job], shop: Shop, measured: Measured | None = None
) -> tuple[Plan, Choices]:
    """A plan ordered quickly, and the way that it goes, which it does not tell."""
    pick = sum(int(64 * (d.opening.width + d.opening.height)) for job in jobs for d in job.doors)
    ways: list[Choices] = []

    def one_way(given: Given, others: Sequence[Job] | None = None) -> tuple[Choices, ...]:
        found = every_way(given, others)
        if others is not None:  # asked by the bound, which is of all ways
            return found
        ways[:] = [found[(pick + n) % len(found)] for n in range(len(found))]
        # With another value of what is free there may be fewer.
        return (ways[min(turn, len(ways) - 1)],)

    every_way = Given.open
    turn = 0
    with ordered_quickly(), patch.object(Given, "open", one_way):
        while True:
            try:
                plan = pipeline.plan(jobs, shop, measured)
                # The way of those values that it took for what is free.
                return plan, Given.of(jobs, shop, measured).as_in(plan)[1]
            except Refusal:
                turn += 1
                if turn >= len(ways):
                    raise


@contextmanager
def going(way: Choices) -> Iterator[None]:
    """Whatever is planned meanwhile goes this way, and is ordered without a search."""
    with ordered_quickly(), patch.object(Given, "open", lambda *_: (way,)):
        yield


@contextmanager
def ordered_quickly() -> Iterator[None]:
    """Whatever is planned meanwhile is ordered without a search."""
    with ExitStack() as stack:
        stack.enter_context(patch.object(ordering, "solve", quickly))
        for name in ("greedy", "by_rank", "group_by_group"):
            stack.enter_context(patch.object(ordering.baselines, name, quick_steps))
        yield
