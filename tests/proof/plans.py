"""Plans by the hundred: the real stages, with a quick order in place of the search.

The proof does not care how good an order is. Long runs take the search itself.
"""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction
from unittest.mock import patch

from sequencer import ordering, pipeline
from sequencer.job.schema import Job, Shop
from sequencer.ordering import Order, Problem
from sequencer.plan import Plan


def quickly(problem: Problem, **_: object) -> Order:
    """A good order found without a search, its bound unknown."""
    steps = ordering.baselines.greedy(problem)
    cost = ordering.check.recompute(problem, steps)
    return Order(steps, cost.minutes, Fraction(0), proven=False, tie=0)


def make_plan(jobs: Sequence[Job], shop: Shop, *, search: bool = False) -> Plan:
    """The plan, ordered by the search (a tenth of a second for each way) or quickly."""
    if search:
        return pipeline.plan(jobs, shop, seconds=0.1)
    with patch.object(ordering, "solve", quickly):
        return pipeline.plan(jobs, shop)
