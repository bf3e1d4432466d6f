"""The order of least setting minutes: exact search, its bound, an independent checker, baselines."""

from __future__ import annotations

from sequencer.errors import InternalError
from sequencer.ordering import baselines, check
from sequencer.ordering.plain import solve_plainly
from sequencer.ordering.problem import (
    Alternative,
    Knob,
    Operation,
    Order,
    Placed,
    Problem,
    faults,
)

DEFAULT_STATES = 400_000

__all__ = ["DEFAULT_STATES", "Alternative", "Knob", "Operation", "Order", "Placed", "Problem",
           "baselines", "check", "faults", "solve"]


def solve(problem: Problem, *, max_states: int | None = DEFAULT_STATES,
          seconds: float | None = None) -> Order:
    """The order of fewest minutes, or the best found within the limits, with what none can beat.

    Raises InternalError for a problem that `faults` objects to, and for a result that the checker
    refuses.
    """
    wrong = faults(problem)
    if wrong:
        raise InternalError("; ".join(wrong))
    order = solve_plainly(problem, 2_000)
    if order is None:
        steps = baselines.greedy(problem)
        cost = check.recompute(problem, steps)
        from fractions import Fraction
        order = Order(steps, cost.minutes, Fraction(0), False, cost.tie, "states")
    cost = check.recompute(problem, order.steps)
    if (cost.minutes, cost.tie) != (order.minutes, order.tie):
        raise InternalError(f"the search counted {order.minutes} minutes, the steps {cost.minutes}")
    return order
