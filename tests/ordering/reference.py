"""The plainest exact search: least cost first over finished operations and knob values.

Slow and sure: no reduction but doing at once what costs nothing. The tests measure the real search
by it, and very small problems may be solved by it.
"""

from __future__ import annotations

import heapq
from fractions import Fraction
from itertools import product

from sequencer.ordering.problem import Order, Placed, Problem

_State = tuple[frozenset[int], tuple[str | None, ...]]
_Cost = tuple[Fraction, int]


def solve_plainly(problem: Problem, max_states: int | None = None) -> Order | None:
    """The order of least minutes, then least tie cost; None when `max_states` did not do."""
    names = [knob.name for knob in problem.knobs]
    earlier: list[set[int]] = [set() for _ in problem.operations]
    for first, later in problem.before:
        earlier[later].add(first)
    start: _State = (problem.done, tuple(problem.start.get(name) for name in names))
    best: dict[_State, _Cost] = {start: (Fraction(0), 0)}
    back: dict[_State, tuple[_State, int, int]] = {}
    queue: list[tuple[_Cost, int, _State]] = [((Fraction(0), 0), 0, start)]
    count = 0
    closed: set[_State] = set()
    while queue:
        cost, _, state = heapq.heappop(queue)
        if state in closed:
            continue
        closed.add(state)
        if max_states is not None and len(closed) > max_states:
            return None
        done, held = state
        if len(done) == len(problem.operations):
            return _trace(problem, names, state, back, cost)
        for index, operation in enumerate(problem.operations):
            if index in done or not earlier[index] <= done:
                continue
            for number, alternative in enumerate(operation.alternatives):
                choices = []
                for knob, value in zip(problem.knobs, held, strict=True):
                    accepted = alternative.needs.get(knob.name)
                    keep = accepted is None or value in accepted
                    choices.append((value,) if keep else tuple(accepted or ()))
                for chosen in product(*choices):
                    minutes, tie = cost[0] + alternative.minutes, cost[1]
                    for knob, old, new in zip(problem.knobs, held, chosen, strict=True):
                        if old != new and new is not None:
                            if old is not None or not problem.first_setting_free:
                                minutes += knob.cost(new)
                            tie += knob.tie_cost(new)
                    after = (done | {index}, chosen)
                    total = (minutes, tie)
                    if after not in best or total < best[after]:
                        best[after] = total
                        back[after] = (state, index, number)
                        count += 1
                        heapq.heappush(queue, (total, count, after))
    return None


def _trace(problem: Problem, names: list[str], state: _State,
           back: dict[_State, tuple[_State, int, int]], cost: _Cost) -> Order:
    steps: list[Placed] = []
    while state in back:
        previous, index, number = back[state]
        held = {name: value for name, value in zip(names, state[1], strict=True)
                if value is not None}
        held |= {name: value for name, value in problem.start.items() if name not in names}
        steps.append(Placed(index, number, held))
        state = previous
    steps.reverse()
    return Order(tuple(steps), cost[0], cost[0], True, cost[1])
