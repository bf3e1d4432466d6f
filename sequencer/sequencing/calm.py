"""An order rewritten so that it reads calmly, at the same cost.

The search cares only for minutes. Here, within one state of the saw, cuts go by kind and then by
part; bench work waits until something needs it, so that it does not interrupt a setup.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from heapq import heapify, heappop, heappush

from sequencer.errors import InternalError
from sequencer.ordering import Placed, Problem


def calm(problem: Problem, order: Sequence[Placed], ranks: Sequence[int]) -> tuple[Placed, ...]:
    """The same operations in the same states, in an order that keeps every precedence."""
    return _Calmer(problem, order, ranks).rewrite()


class _Calmer:
    def __init__(self, problem: Problem, order: Sequence[Placed], ranks: Sequence[int]) -> None:
        self.problem = problem
        self.ranks = ranks
        self.placed = {placed.operation: placed for placed in order}
        self.waiting = dict.fromkeys(self.placed, 0)
        self.followers: dict[int, list[int]] = {n: [] for n in self.placed}
        self.leaders: dict[int, list[int]] = {n: [] for n in self.placed}
        for before, after in problem.before:
            if before in self.placed and after in self.placed:
                self.waiting[after] += 1
                self.followers[before].append(after)
                self.leaders[after].append(before)
        self.runs, self.run_of = self._runs(order)
        self.state = dict(problem.start)
        self.result: list[Placed] = []
        self.ready: dict[int, list[tuple[int, int]]] = {}
        for n, count in self.waiting.items():
            if not count:
                self._make_ready(n)

    def rewrite(self) -> tuple[Placed, ...]:
        # What waits for nothing, milling above all, comes before the saw is set at all.
        self._do_bench({n for _, n in self.ready.get(-1, [])})
        for number, run in enumerate(self.runs):
            self._do_bench(self._waited_for(run))
            self._open(number, run)
            left = len(run) - 1
            while left:
                queue = self.ready.setdefault(number, [])
                if not queue and not self._do_bench(self._waited_for(run)):
                    raise InternalError("an order could not be rewritten: a cut waits for a later")
                while queue:
                    self._emit(heappop(queue)[1])
                    left -= 1
        self._do_bench(set(self.waiting))
        if self.waiting:
            raise InternalError("an order could not be rewritten: something was left over")
        return tuple(self.result)

    def _open(self, number: int, run: Sequence[int]) -> None:
        """Do the first cut of a run: one that needs every knob that is set for it."""
        state = self.placed[run[0]].state
        changed = {knob for knob, value in state.items() if self.state.get(knob) != value}
        queue = self.ready[number]
        first = min(entry for entry in queue if changed <= self._needs(entry[1]).keys())
        queue.remove(first)
        heapify(queue)
        self._emit(first[1])

    def _runs(self, order: Sequence[Placed]) -> tuple[list[list[int]], dict[int, int]]:
        """Longest runs of cuts in one state; bench work, which needs nothing, belongs to none."""
        runs: list[list[int]] = []
        run_of: dict[int, int] = {}
        held: dict[str, str] | None = None
        for placed in order:
            if self._is_bench(placed.operation):
                run_of[placed.operation] = -1
                continue
            if held != dict(placed.state):
                held = dict(placed.state)
                runs.append([])
            runs[-1].append(placed.operation)
            run_of[placed.operation] = len(runs) - 1
        return runs, run_of

    def _is_bench(self, n: int) -> bool:
        return not self._needs(n)

    def _needs(self, n: int) -> Mapping[str, tuple[str, ...]]:
        return self.problem.operations[n].alternatives[self.placed[n].alternative].needs

    def _make_ready(self, n: int) -> None:
        heappush(self.ready.setdefault(self.run_of[n], []), (self.ranks[n], n))

    def _emit(self, n: int) -> None:
        placed = self.placed[n]
        if not self._is_bench(n):
            self.state = dict(placed.state)
        self.result.append(Placed(n, placed.alternative, dict(self.state)))
        del self.waiting[n]
        for follower in self.followers[n]:
            self.waiting[follower] -= 1
            if not self.waiting[follower]:
                self._make_ready(follower)

    def _waited_for(self, run: Sequence[int]) -> set[int]:
        """Everything not yet done that a run's cuts wait for, near or far."""
        found: set[int] = set()
        stack = [n for n in run if n in self.waiting]
        while stack:
            for leader in self.leaders[stack.pop()]:
                if leader in self.waiting and leader not in found:
                    found.add(leader)
                    stack.append(leader)
        return found

    def _do_bench(self, wanted: set[int]) -> bool:
        """Do what is wanted and possible of the bench work, and with it what is of the same kind:
        one visit to the bench. Say whether any was done."""
        queue = self.ready.setdefault(-1, [])
        aside: list[tuple[int, int]] = []
        kinds = {self.ranks[n] for n in wanted}
        before = len(self.result)
        while queue:
            entry = heappop(queue)
            if entry[0] in kinds:
                self._emit(entry[1])
            else:
                aside.append(entry)
        for entry in aside:
            heappush(queue, entry)
        return len(self.result) > before
