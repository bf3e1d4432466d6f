"""Two plain exact searches that share nothing with the real one, to measure it by.

`cheaper` tries every order, alternative and value; `least_first` is Dijkstra's algorithm over
finished operations and knob values (E. W. Dijkstra, "A note on two problems in connexion with
graphs", Numerische Mathematik 1, 1959, 269-271). Neither reduces anything.
"""

from __future__ import annotations

import heapq
from collections.abc import Iterator
from fractions import Fraction
from itertools import product

from sequencer.ordering import Alternative, Order, Placed, Problem

State = tuple[frozenset[int], tuple[str | None, ...]]
Cost = tuple[Fraction, int]


def least_first(problem: Problem, max_states: int | None = None) -> Order | None:
    """The order of least minutes, then least tie cost; None when `max_states` did not do."""
    names = [knob.name for knob in problem.knobs]
    earlier: list[set[int]] = [set() for _ in problem.operations]
    for first, later in problem.before:
        earlier[later].add(first)
    start: State = (problem.done, tuple(problem.start.get(name) for name in names))
    best: dict[State, Cost] = {start: (Fraction(0), 0)}
    back: dict[State, tuple[State, int, int]] = {}
    queue: list[tuple[Cost, int, State]] = [((Fraction(0), 0), 0, start)]
    count = 0
    closed: set[State] = set()
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
                for minutes, tie, chosen in ways(problem, alternative, held):
                    after = (done | {index}, chosen)
                    total = (cost[0] + minutes, cost[1] + tie)
                    if after not in best or total < best[after]:
                        best[after] = total
                        back[after] = (state, index, number)
                        count += 1
                        heapq.heappush(queue, (total, count, after))
    return None


def ways(
    problem: Problem, alternative: Alternative, held: tuple[str | None, ...], needless: bool = False
) -> Iterator[tuple[Fraction, int, tuple[str | None, ...]]]:
    """Minutes, tie cost and knob values after each way of doing an alternative now.

    With `needless`, a knob may also leave a value that would do for another that does.
    """
    choices: list[tuple[str | None, ...]] = []
    for knob, value in zip(problem.knobs, held, strict=True):
        accepted = alternative.needs.get(knob.name)
        keep = accepted is None or (value in accepted and not needless)
        choices.append((value,) if keep else accepted or ())
    for chosen in product(*choices):
        minutes, tie = alternative.minutes, 0
        for knob, old, new in zip(problem.knobs, held, chosen, strict=True):
            if old != new and new is not None:
                if old is not None or not problem.first_setting_free:
                    minutes += knob.cost(new)
                tie += knob.tie_cost(new)
        yield minutes, tie, chosen


def cheaper(problem: Problem, than: Cost) -> Cost | None:
    """The minutes and tie cost of some order that beats `than`, of all orders there are.

    Needless settings are tried only where operations are few: there are very many of them.
    """
    needless = len(problem.operations) <= 4
    earlier: list[set[int]] = [set() for _ in problem.operations]
    for first, later in problem.before:
        earlier[later].add(first)

    def go(done: frozenset[int], held: tuple[str | None, ...], cost: Cost) -> Cost | None:
        if cost >= than:
            return None
        if len(done) == len(problem.operations):
            return cost
        for index, operation in enumerate(problem.operations):
            if index not in done and earlier[index] <= done:
                for alternative in operation.alternatives:
                    for minutes, tie, chosen in ways(problem, alternative, held, needless):
                        found = go(done | {index}, chosen, (cost[0] + minutes, cost[1] + tie))
                        if found is not None:
                            return found
        return None

    return go(
        problem.done,
        tuple(problem.start.get(knob.name) for knob in problem.knobs),
        (Fraction(0), 0),
    )


def _trace(
    problem: Problem,
    names: list[str],
    state: State,
    back: dict[State, tuple[State, int, int]],
    cost: Cost,
) -> Order:
    steps: list[Placed] = []
    while state in back:
        previous, index, number = back[state]
        held = {
            name: value for name, value in zip(names, state[1], strict=True) if value is not None
        }
        held |= {name: value for name, value in problem.start.items() if name not in names}
        steps.append(Placed(index, number, held))
        state = previous
    steps.reverse()
    return Order(tuple(steps), cost[0], cost[0], True, cost[1])
