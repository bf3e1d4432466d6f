"""Ties the search together: model, search within its limits, steps, and the independent check."""

from __future__ import annotations

import sys
from collections.abc import Iterator
from contextlib import contextmanager
from fractions import Fraction
from math import ceil

from sequencer.errors import InternalError
from sequencer.facts import orders as told
from sequencer.ordering import check, replay
from sequencer.ordering.budget import Budget, taken_megabytes
from sequencer.ordering.greedy import greedy
from sequencer.ordering.model import Model
from sequencer.ordering.problem import Order, Problem, faults
from sequencer.ordering.search import LARGEST_GROUP, Search

DEFAULT_STATES = 100_000
MEGABYTES = 2_000
MOST_STATES = 1_000_000
"""Where the system does not tell how much memory is taken: about as many as fill so much."""
# Terms lie as deep in one another as the longest chain of operations.
FRAMES_A_LEVEL = 4


def solve(
    problem: Problem,
    *,
    max_states: int | None = None,
    seconds: float | None = None,
    megabytes: float = MEGABYTES,
) -> Order:
    """The order of fewest minutes, or the best found within the limits, with what none can beat.

    Where seconds are given, they are used until the order is proven, unless states are given too
    or memory runs out; where neither is, `DEFAULT_STATES` are the limit. Raises InternalError for
    a problem that `faults` objects to, and for a result that the checker refuses.
    """
    wrong = faults(problem)
    if wrong:
        raise InternalError(*wrong)
    if max_states is None and (seconds is None or taken_megabytes() is None):
        max_states = DEFAULT_STATES if seconds is None else MOST_STATES
    budget = Budget(max_states, seconds, megabytes if max_states is None else None)
    model = Model(problem)
    with _room_to_recurse(len(problem.operations)):
        search = Search(model, budget)
        search.run()
    bound = model.minutes(search.lower + model.base)
    orders = []
    if search.found:
        orders.append(replay.steps(model, search.moves()))
    quick = None
    if budget.limit is not None:  # a search cut short may have worse than is found at once
        quick = greedy(problem)
        orders.append(quick)
    costs = [check.recompute(problem, steps) for steps in orders]
    most = model.minutes(search.upper + model.base)
    if (search.found and costs[0].minutes > most) or any(cost.minutes < bound for cost in costs):
        found = costs[0].minutes
        raise InternalError(told.MISCOUNTED(counted=most, bound=bound, found=found))
    steps, cost = min(zip(orders, costs, strict=True), key=lambda o: (o[1].minutes, o[1].tie))
    return Order(steps, cost.minutes, bound, bound == cost.minutes, cost.tie, budget.limit, quick)


def bound(
    problem: Problem, enough: Fraction, *, max_states: int | None = DEFAULT_STATES
) -> Fraction:
    """Minutes that no order of the problem can beat, found without looking for one; no effort is
    made beyond `enough`.

    Raises InternalError for a problem that `faults` objects to.
    """
    wrong = faults(problem)
    if wrong:
        raise InternalError(*wrong)
    model = Model(problem)
    with _room_to_recurse(len(problem.operations)):
        search = Search(model, Budget(max_states, None))
        search.upper = model.whole(Fraction(ceil(enough * model.scale), model.scale)) - model.base
        if search.lower < search.upper:
            search.strengthen(LARGEST_GROUP)
    return model.minutes(search.lower + model.base)


@contextmanager
def _room_to_recurse(depth: int) -> Iterator[None]:
    before = sys.getrecursionlimit()
    sys.setrecursionlimit(before + FRAMES_A_LEVEL * depth)
    try:
        yield
    finally:
        sys.setrecursionlimit(before)
