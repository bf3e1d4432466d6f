"""An order rewritten so that it reads calmly, at no higher cost.

The search cares only for minutes. Here every cut is made as soon as the saw stands right for it;
within one state of the saw, cuts go by kind, those that it is tried out for before others that
share it, and then by part; bench work waits until something needs it, so that it does not interrupt
a setup, but for what can be done before the first.
"""

from __future__ import annotations

from collections.abc import Collection, Mapping, Sequence
from heapq import heapify, heappop, heappush

from sequencer.errors import InternalError
from sequencer.facts import sequences
from sequencer.ordering import Placed, Problem
from sequencer.saw.values import is_tested

_Entry = tuple[int, bool, int]
"""An operation's rank, whether it is not tried on scrap, and its index."""


def calm(
    problem: Problem,
    order: Sequence[Placed],
    ranks: Sequence[int],
    tried: Mapping[int, Collection[str]],
) -> tuple[Placed, ...]:
    """The same operations in an order that keeps every precedence and costs no more. `tried` are
    the knobs that each operation is tried for on scrap, where it is."""
    return _Calmer(problem, order, ranks, tried).rewrite()


class _Calmer:
    def __init__(
        self,
        problem: Problem,
        order: Sequence[Placed],
        ranks: Sequence[int],
        tried: Mapping[int, Collection[str]],
    ) -> None:
        self.problem = problem
        self.ranks = ranks
        self.tried = tried
        self.placed = {placed.operation: placed for placed in order}
        self.waiting = dict.fromkeys(self.placed, 0)
        self.followers: dict[int, list[int]] = {n: [] for n in self.placed}
        self.leaders: dict[int, list[int]] = {n: [] for n in self.placed}
        for before, after in problem.before:
            if before in self.placed and after in self.placed:
                self.waiting[after] += 1
                self.followers[before].append(after)
                self.leaders[after].append(before)
        self.runs = self._runs(order)
        self.state = dict(problem.start)
        self.result: list[Placed] = []
        self.bench: list[_Entry] = []
        self.saw: list[_Entry] = []
        for n, count in self.waiting.items():
            if not count:
                self._make_ready(n)

    def rewrite(self) -> tuple[Placed, ...]:
        # What waits for nothing, milling above all, comes before the saw is set at all; so does
        # what waits for nothing else, boards that are glued up: the glue sets meanwhile.
        while self._do_bench({entry[-1] for entry in self.bench}) and not self.problem.done:
            pass
        for run in self.runs:
            while left := [n for n in run if n in self.waiting]:
                self._do_bench(self._waited_for(left))
                self._open(left)
                while self._do_accepted() or self._do_bench(self._waited_for(left)):
                    pass
        self._do_bench(set(self.waiting))
        if self.waiting:
            raise InternalError(sequences.LEFT_OVER())
        return tuple(self.result)

    def _open(self, left: Sequence[int]) -> None:
        """Set the saw for what is left of a run, and do a cut that needs every knob set for it;
        where none does, set it for one cut alone. What is dialled in on scrap is so for the first
        cut: of those that share a setting, one that is tried."""
        wanted: dict[str, str] = {}
        for n in left:
            wanted |= {knob: self.placed[n].state[knob] for knob in self._needs(n)}
        changed = {knob for knob, value in wanted.items() if self.state.get(knob) != value}
        ready = [entry for entry in sorted(self.saw) if entry[-1] in left]
        if not ready:
            raise InternalError(sequences.WAITS_FOR_LATER())
        whole = [entry for entry in ready if changed <= self._needs(entry[-1]).keys()]
        fresh = {knob for knob in changed if is_tested(wanted[knob])}
        first = min(whole or ready, key=lambda each: (self._untried(fresh, each[-1]), each))
        self.state |= {knob: wanted[knob] for knob in self._needs(first[-1])}
        self.saw.remove(first)
        heapify(self.saw)
        self._emit(first[-1])

    def _untried(self, fresh: Collection[str], n: int) -> int:
        """How many of the knobs set anew an operation is not tried for."""
        return len({*fresh} - {*self.tried.get(n, ())})

    def _do_accepted(self) -> bool:
        """Make every cut that is ready and that the saw stands right for; say whether any was."""
        before = len(self.result)
        aside: list[_Entry] = []
        while self.saw:
            entry = heappop(self.saw)
            if self._accepts(entry[-1]):
                self._emit(entry[-1])
            else:
                aside.append(entry)
        self.saw = sorted(aside)
        return len(self.result) > before

    def _accepts(self, n: int) -> bool:
        return all(self.state.get(knob) in values for knob, values in self._needs(n).items())

    def _runs(self, order: Sequence[Placed]) -> list[list[int]]:
        """Longest runs of cuts in one state; bench work, which needs nothing, belongs to none."""
        runs: list[list[int]] = []
        held: dict[str, str] | None = None
        for placed in order:
            if not self._needs(placed.operation):
                continue
            if held != dict(placed.state):
                held = dict(placed.state)
                runs.append([])
            runs[-1].append(placed.operation)
        return runs

    def _needs(self, n: int) -> Mapping[str, tuple[str, ...]]:
        return self.problem.operations[n].alternatives[self.placed[n].alternative].needs

    def _make_ready(self, n: int) -> None:
        entry = (self.ranks[n], not self.tried.get(n), n)
        heappush(self.saw if self._needs(n) else self.bench, entry)

    def _emit(self, n: int) -> None:
        self.result.append(Placed(n, self.placed[n].alternative, dict(self.state)))
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
        kinds = {self.ranks[n] for n in wanted}
        aside: list[_Entry] = []
        before = len(self.result)
        while self.bench:
            entry = heappop(self.bench)
            if entry[0] in kinds:
                self._emit(entry[-1])
            else:
                aside.append(entry)
        self.bench = sorted(aside)
        return len(self.result) > before
