"""Finding the order: a narrow beam for a first one, then best first until nothing can beat it.

States are a term (what is left to do) and a setting, packed into one int.
"""

from __future__ import annotations

import heapq
from collections.abc import Sequence
from itertools import combinations

from sequencer.ordering.bounds import Relaxation
from sequencer.ordering.budget import Budget
from sequencer.ordering.model import Model
from sequencer.ordering.space import Space
from sequencer.ordering.terms import DONE, Move

FIRST_WIDTH = 5
LARGEST_GROUP = 4
# A question to a relaxation that takes more states than this is answered with a bound; fewer while
# groups are being tried.
MOST_STATES = 4_000
FEW_STATES = 500

Path = tuple["Path", Move] | None


class Search:
    """One problem's search: the space of all knobs, the relaxations that bound it, the best order.

    `upper` is the cost of the best order so far, `lower` what none can beat, both beyond the
    model's base.
    """

    def __init__(self, model: Model, budget: Budget) -> None:
        self.model, self.budget = model, budget
        self.space = Space(model, range(len(model.costs)), keep_dear=True)
        self.operation_of = {need: index for index, need in self.space.operation_needs.items()}
        self.root = self._root()
        self.groups = [self._relaxation((knob,)) for knob in self.space.knobs]
        self.path: list[Move] = []
        self.found = False
        self.upper = 0
        self.lower = self.bound(*self.root)

    def run(self) -> None:
        """Everything in turn; then `upper` is the cost of `path`, and `lower` what none beats.

        Out of budget before there is any order, nothing is `found`.
        """
        self.beam(FIRST_WIDTH)
        if self.found:
            self.strengthen(LARGEST_GROUP)
            self.best_first()

    def _relaxation(self, knobs: Sequence[int]) -> Relaxation:
        return Relaxation(self.space, knobs, self.budget, most_states=MOST_STATES)

    def _root(self) -> tuple[int, int]:
        """What is left after everything that the start allows."""
        model, space = self.model, self.space
        later: dict[int, list[int]] = {index: [] for index in model.left}
        waiting = {index: len(model.earlier[index]) for index in model.left}
        for index in model.left:
            for first in model.earlier[index]:
                later[first].append(index)
        ready = [index for index in model.left if not waiting[index]]
        terms: dict[int, int] = {}
        for index in ready:
            before = [terms[first] for first in model.earlier[index] if terms[first]]
            terms[index] = space.term(space.operation_needs[index], before)
            for other in later[index]:
                waiting[other] -= 1
                if not waiting[other]:
                    ready.append(other)
        if len(ready) < len(model.left):
            raise AssertionError("the precedence has a cycle")
        goal = space.goal(terms[index] for index in model.left if not later[index] and terms[index])
        return space.follow(goal, (model.start, 0, 0, 0))

    def bound(self, term: int, setting: int) -> int:
        """A cost that no way of finishing from here can beat."""
        return sum([group.cost(term, setting) for group in self.groups])

    def beam(self, width: int) -> None:
        """Keeps the `width` most promising states after each move; improves the best order."""
        if self.root[0] == DONE:
            self._improve(0, [])
            return
        layer: list[tuple[int, int, int, Path]] = [(0, *self.root, None)]
        while layer:
            found: dict[tuple[int, int], tuple[int, Path]] = {}
            for cost, term, setting, path in layer:
                if self.budget.out():
                    return
                for move in self.space.moves(term, setting):
                    child, total = self.space.follow(term, move), cost + move[1]
                    if not child[0]:
                        self._improve(total, _unwind((path, move)))
                    elif child not in found or total < found[child][0]:
                        found[child] = (total, (path, move))
            ranked = []
            for number, ((term, setting), (cost, path)) in enumerate(found.items()):
                promise = cost + self.bound(term, setting)
                if not self.found or promise < self.upper:
                    ranked.append((promise, -cost, number, term, setting, path))
            ranked.sort(key=lambda entry: entry[:3])
            layer = [
                (-minus, term, setting, path) for _, minus, _, term, setting, path in ranked[:width]
            ]

    def _improve(self, cost: int, path: list[Move]) -> None:
        if not self.found or cost < self.upper:
            self.found, self.upper, self.path = True, cost, path

    def strengthen(self, size: int) -> None:
        """Joins groups, at most `size` knobs in one, while that raises the bound at the root."""
        term, setting = self.root
        groups = self.groups
        costs = [group.cost(term, setting) for group in groups]
        tried: dict[tuple[int, int], tuple[Relaxation, int]] = {}
        numbers = list(range(len(groups)))
        while self.budget.limit is None and sum(costs[n] for n in numbers) < self.upper:
            best: tuple[tuple[int, int], tuple[int, int]] | None = None
            for pair in combinations(numbers, 2):
                first, second = pair
                if len(groups[first].space.knobs) + len(groups[second].space.knobs) > size:
                    continue
                if pair not in tried:
                    if self.budget.limit is not None:  # it would be cut short at once
                        continue
                    both = groups[first].space.knobs + groups[second].space.knobs
                    group = self._relaxation(tuple(sorted(both)))
                    group.most_states = FEW_STATES
                    tried[pair] = (group, group.cost(term, setting))
                    group.most_states = MOST_STATES
                group, cost = tried[pair]
                if group.cut:
                    continue
                rank = (costs[first] + costs[second] - cost, group.states)
                if rank[0] < 0 and (best is None or rank < best[0]):
                    best = (rank, pair)
            if best is None or self.budget.limit is not None:
                break
            first, second = best[1]
            group, cost = tried[best[1]]
            groups.append(group)
            costs.append(cost)
            numbers = [number for number in numbers if number not in best[1]] + [len(groups) - 1]
        self.groups = [groups[number] for number in numbers]
        self.lower = max(self.lower, sum(costs[number] for number in numbers))
        if self.space.tagged and self.lower < self.upper:
            self._charge_dear()

    def _charge_dear(self) -> None:
        """Lets one group, the one that gains most, count the own minutes of dear alternatives."""
        best: tuple[int, int, Relaxation] | None = None
        for number, old in enumerate(self.groups):
            group = Relaxation(
                self.space, old.space.knobs, self.budget, keep_dear=True, most_states=FEW_STATES
            )
            gain = group.cost(*self.root) - old.cost(*self.root)
            group.most_states = MOST_STATES
            if gain > 0 and not group.cut and (best is None or gain > best[0]):
                best = (gain, number, group)
        if best is not None:
            self.groups[best[1]] = best[2]
            self.lower += best[0]

    def best_first(self) -> None:
        """Looks at states in the order of their bounds until none can beat the best order."""
        width = self.model.width
        mask = (1 << width) - 1
        start = self.root[0] << width | self.root[1]
        costs, back = {start: 0}, {start: (-1, (0, 0, 0, 0))}
        queue = [(self.lower, 0, 0, start, True)]
        closed: set[int] = set()
        number = 0
        while queue:
            total, minus, _, state, judged = heapq.heappop(queue)
            self.lower = max(self.lower, total)
            if self.lower >= self.upper:
                break
            if state in closed or -minus > costs[state]:
                continue
            if self.budget.out():
                return
            term, setting = state >> width, state & mask
            if not judged:
                better = self.bound(term, setting) - minus
                if better > total:
                    if better < self.upper:
                        number += 1
                        heapq.heappush(queue, (better, minus, number, state, True))
                    continue
            closed.add(state)
            for move in self.space.moves(term, setting):
                left, held = self.space.follow(term, move)
                child, cost = left << width | held, move[1] - minus
                if child in costs and costs[child] <= cost:
                    continue
                if cost >= self.upper:
                    continue
                costs[child] = cost
                back[child] = (state, move)
                if not left:
                    self._improve(cost, _trace(back, child))
                    continue
                closed.discard(child)
                number += 1
                heapq.heappush(queue, (max(total, cost), -cost, number, child, False))
        self.lower = self.upper

    def moves(self) -> list[tuple[int, int | None]]:
        """The best order's settings, each with the operation that takes a dear alternative."""
        return [
            (setting, self.operation_of[move[2] - 1] if move[2] else None)
            for move in self.path
            for setting in self.space.unbatched(move)
        ]


def _unwind(path: Path) -> list[Move]:
    found: list[Move] = []
    while path is not None:
        path, move = path
        found.append(move)
    return found[::-1]


def _trace(back: dict[int, tuple[int, Move]], state: int) -> list[Move]:
    found: list[Move] = []
    while True:
        state, move = back[state]
        if state < 0:
            return found[::-1]
        found.append(move)
