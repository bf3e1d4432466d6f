"""Plans by the hundred: the real stages, with a quick order in place of the search.

The proof does not care how good an order is. Long runs take the search itself.
"""

from __future__ import annotations

from collections.abc import Sequence
from contextlib import ExitStack
from fractions import Fraction
from typing import Any
from unittest.mock import patch

from sequencer import ordering, pipeline
from sequencer.doors import open_choices
from sequencer.errors import Refusal
from sequencer.job.schema import Job, Shop
from sequencer.methods import Choices
from sequencer.ordering import Order, Placed, Problem
from sequencer.plan import Plan


def quick_steps(problem: Problem, *_: object) -> tuple[Placed, ...]:
    """Whatever can be done as the saw stands, else the first that can be done at all."""
    waiting: list[set[int]] = [set() for _ in problem.operations]
    for first, later in problem.before:
        waiting[later].add(first)
    state = dict(problem.start)
    done: list[Placed] = []
    left = [n for n in range(len(problem.operations)) if n not in problem.done]
    for n in left:
        waiting[n] -= problem.done
    while left:
        ready = [n for n in left if not waiting[n]]
        chosen = min(ready, key=lambda n: (_changes(problem, n, state), n))
        needs = problem.operations[chosen].alternatives[0].needs
        state |= {knob: v[0] for knob, v in needs.items() if state.get(knob) not in v}
        done.append(Placed(chosen, 0, dict(state)))
        left.remove(chosen)
        for before in waiting:
            before.discard(chosen)
    return tuple(done)


def _changes(problem: Problem, operation: int, state: dict[str, str]) -> int:
    needs = problem.operations[operation].alternatives[0].needs
    return sum(state.get(knob) not in accepted for knob, accepted in needs.items())


def quickly(problem: Problem, **_: object) -> Order:
    """An order found without a search, its bound unknown."""
    steps = quick_steps(problem)
    cost = ordering.check.recompute(problem, steps)
    return Order(steps, cost.minutes, Fraction(0), proven=False, tie=0)


def make_plan(jobs: Sequence[Job], shop: Shop, *, search: bool = False) -> Plan:
    """The plan of all ways by the search (a tenth of a second for each), or of one of the open
    ways, ordered quickly: the first, from a place that the sizes asked for pick, that is safe."""
    if search:
        return pipeline.plan(jobs, shop, seconds=0.1)
    pick = sum(int(64 * (d.opening.width + d.opening.height)) for job in jobs for d in job.doors)
    ways: list[Choices] = []

    def one_way(*asked: Any) -> tuple[Choices, ...]:
        found = open_choices(*asked)
        ways[:] = [found[(pick + n) % len(found)] for n in range(len(found))]
        return (ways[turn],)

    with ExitStack() as stack:
        stack.enter_context(patch.object(ordering, "solve", quickly))
        stack.enter_context(patch.object(pipeline, "open_choices", one_way))
        for name in ("greedy", "by_rank", "group_by_group"):
            stack.enter_context(patch.object(ordering.baselines, name, quick_steps))
        turn = 0
        while True:
            try:
                return pipeline.plan(jobs, shop)
            except Refusal:
                turn += 1
                if turn >= len(ways):
                    raise
