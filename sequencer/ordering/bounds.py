"""What no order can beat: exact costs of relaxations in which only some of the knobs cost anything.

For disjoint groups of knobs the exact costs add up, since every setting belongs to one group.
"""

from __future__ import annotations

import heapq
from collections.abc import Sequence

from sequencer.ordering.budget import Budget
from sequencer.ordering.model import USELESS
from sequencer.ordering.space import Space
from sequencer.ordering.terms import DONE


class Bag:
    """A quick bound in a space: knob by knob, the values that are still needed, once each."""

    def __init__(self, space: Space) -> None:
        self.space = space
        self.needing = dict.fromkeys(space.knobs, 0)
        # Per knob: the mask of needs that accept the same values, the mask of those values, the
        # least cost of setting one, and the most that a first setting may save; few values first.
        self.sets: dict[int, list[tuple[int, int, int, int]]] = {}
        for knob in space.knobs:
            needs_of: dict[tuple[int, ...], int] = {}
            for number, choice in enumerate(space.choices):
                lists = [values for needs, _ in choice for other, values in needs if other == knob]
                if lists and len(lists) == len(choice):
                    accepted = tuple(sorted({value for values in lists for value in values}))
                    needs_of[accepted] = needs_of.get(accepted, 0) | 1 << number
                    self.needing[knob] |= 1 << number
            costs, first = space.costs[knob], space.first_costs[knob]
            self.sets[knob] = [
                (
                    needs_of[values],
                    sum(1 << value for value in values),
                    min(costs[value] for value in values),
                    max(costs[value] - first[value] for value in values),
                )
                for values in sorted(needs_of, key=lambda values: (len(values), values))
            ]
        self.known: dict[tuple[int, int, int], int] = {}

    def cost(self, term: int, setting: int) -> int:
        """A cost that nothing from here can beat."""
        left = self.space.all[term]
        total = 0
        field, known = self.space.model.field, self.known
        for knob in self.space.knobs:
            key = (knob, left & self.needing[knob], field(setting, knob))
            found = known.get(key)
            if found is None:
                found = known[key] = self._knob(*key)
            total += found
        return total

    def _knob(self, knob: int, left: int, held: int) -> int:
        covered = 1 << held if held > USELESS else 0
        total = most = 0
        for needs, values, least, saved in self.sets[knob]:
            if needs & left and not values & covered:
                total += least
                most = max(most, saved)
                covered |= values
        return max(0, total - most) if held == 0 else total


class Relaxation:
    """Exact costs in a space of few knobs, found when they are asked for and remembered."""

    def __init__(
        self,
        whole: Space,
        knobs: Sequence[int],
        budget: Budget,
        *,
        keep_dear: bool = False,
        most_states: int,
    ) -> None:
        self.whole = whole
        self.most_states = most_states
        self.space = Space(whole.model, knobs, keep_dear=keep_dear)
        self.bag = Bag(self.space)
        self.budget = budget
        self.need_map = dict(
            zip(whole.operation_needs.values(), self.space.operation_needs.values(), strict=True)
        )
        self.need_map[0] = 0
        self.projected = {DONE: DONE}
        self.asked: dict[int, int] = {}
        self.exact: dict[int, int] = {}
        self.low: dict[int, int] = {}
        self.states = 0
        self.cut = False

    def project(self, term: int) -> int:
        """The term as this space sees it."""
        found = self.projected.get(term)
        if found is None:
            inner = [one for one in map(self.project, self.whole.before[term]) if one]
            found = self.space.term(self.need_map[self.whole.need[term]], inner)
            self.projected[term] = found
        return found

    def cost(self, term: int, setting: int) -> int:
        """The least cost from here on, seen through this space."""
        mine = self.project(term)
        setting &= self.space.fields[mine]
        key = mine << self.whole.model.width | setting
        found = self.asked.get(key)
        if found is None:
            mine = self.space.rewrite(mine, setting)
            setting = self.space.canonical(mine, setting)
            found = self.asked[key] = self._search(mine, setting) if mine else 0
        return found

    def _search(self, root: int, setting: int) -> int:
        space, width = self.space, self.whole.model.width
        exact, low = self.exact, self.low
        start = root << width | setting
        if start in exact:
            return exact[start]
        mask = (1 << width) - 1
        costs = {start: 0}
        back: dict[int, int] = {}
        queue = [(self._bound(root, setting, start), 0, start)]
        closed: set[int] = set()
        while queue:
            total, minus, state = heapq.heappop(queue)
            if state in closed:
                continue
            cost = costs[state]
            if state >> width == DONE or state in exact:
                rest = exact.get(state, 0)
                if state >> width and cost + rest > total:
                    heapq.heappush(queue, (cost + rest, minus, state))
                    continue
                return self._remember(start, state, cost + rest, costs, back, closed)
            closed.add(state)
            self.states += 1
            if self.budget.out() or len(closed) > self.most_states:
                self.cut = True
                for one in closed:
                    low[one] = max(low.get(one, 0), total - costs[one])
                return total
            term, held = state >> width, state & mask
            for move in space.moves(term, held):
                then, after = space.follow(term, move)
                child = then << width | after
                new = cost + move[1]
                if child not in costs or new < costs[child]:
                    costs[child] = new
                    back[child] = state
                    closed.discard(child)
                    bound = new + self._bound(then, after, child)
                    heapq.heappush(queue, (bound, -new, child))
        raise AssertionError("the search ran dry before everything was done")

    def _bound(self, term: int, setting: int, state: int) -> int:
        known = self.exact.get(state)
        if known is not None:
            return known
        return max(self.low.get(state, 0), self.bag.cost(term, setting))

    def _remember(
        self,
        start: int,
        end: int,
        total: int,
        costs: dict[int, int],
        back: dict[int, int],
        closed: set[int],
    ) -> int:
        for state in sorted(closed):
            rest = total - costs[state]
            if rest > self.low.get(state, 0):
                self.low[state] = rest
        state = end
        while True:
            self.exact[state] = total - costs[state]
            if state == start:
                return total
            state = back[state]
