"""Three orders that people would follow without a search, on the same problem.

None is weakened: each takes every chance that its own rule allows, and is judged by the same
checker as the search's order.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field, replace
from fractions import Fraction
from heapq import heappop, heappush
from itertools import product

from sequencer.ordering.problem import Knob, Order, Placed, Problem

_Key = tuple[Fraction, int, int, int]


@dataclass(slots=True)
class _Bench:
    """The state while an order is put together step by step."""

    problem: Problem
    finished: set[int]
    held: dict[str, str]
    knobs: dict[str, Knob]
    earlier: list[list[int]]
    steps: list[Placed] = field(default_factory=list)

    def ready(self, index: int) -> bool:
        return index not in self.finished and all(
            first in self.finished for first in self.earlier[index]
        )

    def ways(self, index: int) -> Iterator[tuple[Fraction, int, int, dict[str, str]]]:
        """Minutes, tie, alternative and changed knobs of every way of doing an operation now."""
        for number, alternative in enumerate(self.problem.operations[index].alternatives):
            names = [
                name
                for name, values in alternative.needs.items()
                if self.held.get(name) not in values
            ]
            for values in product(*(alternative.needs[name] for name in names)):
                minutes, tie = alternative.minutes, 0
                for name, value in zip(names, values, strict=True):
                    if name in self.held or not self.problem.first_setting_free:
                        minutes += self.knobs[name].cost(value)
                    tie += self.knobs[name].tie_cost(value)
                yield minutes, tie, number, dict(zip(names, values, strict=True))

    def place(self, index: int, number: int, changed: Mapping[str, str]) -> None:
        self.held |= changed
        self.finished.add(index)
        self.steps.append(Placed(index, number, dict(self.held)))


def _bench(problem: Problem) -> _Bench:
    earlier: list[list[int]] = [[] for _ in problem.operations]
    for first, later in problem.before:
        earlier[later].append(first)
    return _Bench(
        problem,
        set(problem.done),
        dict(problem.start),
        {knob.name: knob for knob in problem.knobs},
        earlier,
    )


def greedy(problem: Problem) -> tuple[Placed, ...]:
    """Always the cheapest next setting; of equals the one that serves most, then file order."""
    bench = _bench(problem)
    _work_off(bench, range(len(problem.operations)))
    return tuple(bench.steps)


def by_rank(problem: Problem, ranks: Sequence[int]) -> tuple[Placed, ...]:
    """By kind of cut: all operations of the lowest rank first, then the next, values sorted within.

    `ranks` has one number for each operation, and no operation may outrank one that must follow it;
    within a rank the operations are taken in precedence order, sorted by the values they need, as
    text with its numbers compared as numbers.
    """
    bench = _bench(problem)
    keys = [_sorting(problem, index) for index in range(len(problem.operations))]
    for rank in sorted(set(ranks)):
        waiting = sorted(
            (
                index
                for index, mine in enumerate(ranks)
                if mine == rank and index not in bench.finished
            ),
            key=lambda index: (keys[index], index),
        )
        while waiting:
            ready = [index for index in waiting if bench.ready(index)]
            if not ready:
                raise ValueError(f"rank {rank} needs an operation of a later rank first")
            # One sweep through everything that is ready, in sorted order, before the next sweep.
            for index in ready:
                way = min(bench.ways(index), key=lambda way: way[:3])
                bench.place(index, way[2], way[3])
            waiting = [index for index in waiting if index not in bench.finished]
    return tuple(bench.steps)


def group_by_group(
    problem: Problem,
    groups: Sequence[Sequence[int]],
    solve: Callable[[Problem], Order] | None = None,
) -> tuple[Placed, ...]:
    """Door by door: each group in turn ordered best alone, the knobs as the last one left them.

    A group brings along what must precede its operations and is unfinished; operations in no group
    come last, together.
    """
    if solve is None:
        from sequencer.ordering import solve as whole_search

        solve = whole_search
    bench = _bench(problem)
    for group in [*groups, range(len(problem.operations))]:
        wanted: list[int] = []
        walk = [index for index in group if index not in bench.finished]
        taken = set(walk)
        while walk:
            index = walk.pop()
            wanted.append(index)
            for first in bench.earlier[index]:
                if first not in bench.finished and first not in taken:
                    taken.add(first)
                    walk.append(first)
        if not wanted:
            continue
        rest = frozenset(range(len(problem.operations))) - taken
        alone = replace(problem, start=dict(bench.held), done=rest)
        for step in solve(alone).steps:
            bench.held = dict(step.state)
            bench.finished.add(step.operation)
            bench.steps.append(step)
    return tuple(bench.steps)


def _work_off(bench: _Bench, members: Sequence[int]) -> None:
    """Operations that need the same are weighed once: `alike` holds the ready ones by what they
    need, each heap in file order."""
    left = {index for index in members if index not in bench.finished}
    waiting = {
        index: sum(first not in bench.finished for first in bench.earlier[index]) for index in left
    }
    later: dict[int, list[int]] = {}
    for index in sorted(left):
        for first in bench.earlier[index]:
            later.setdefault(first, []).append(index)
    alike: dict[_Needs, list[int]] = {}
    for index in sorted(index for index in left if not waiting[index]):
        alike.setdefault(_needs(bench.problem, index), []).append(index)
    while alike:
        best: tuple[_Key, int, dict[str, str], _Needs] | None = None
        tried: dict[tuple[tuple[str, str], ...], int] = {}
        for needs, ready in alike.items():
            for minutes, tie, number, changed in bench.ways(ready[0]):
                served = 0
                if changed:
                    what = tuple(sorted(changed.items()))
                    if what not in tried:
                        tried[what] = _served(bench, alike, changed)
                    served = tried[what]
                key = (minutes, tie, -served, ready[0])
                if best is None or key < best[0]:
                    best = (key, number, changed, needs)
        if best is None:
            break
        (_, _, _, index), number, changed, needs = best
        bench.place(index, number, changed)
        left.remove(index)
        heappop(alike[needs])
        if not alike[needs]:
            del alike[needs]
        for other in later.get(index, ()):
            waiting[other] -= 1
            if not waiting[other]:
                heappush(alike.setdefault(_needs(bench.problem, other), []), other)
    if left:
        raise ValueError("an operation waits for one that is not among them")


_Needs = tuple[tuple[Fraction, tuple[tuple[str, tuple[str, ...]], ...]], ...]
"""All that tells one operation from another for this purpose: its alternatives."""


def _needs(problem: Problem, index: int) -> _Needs:
    return tuple(
        (way.minutes, tuple(way.needs.items())) for way in problem.operations[index].alternatives
    )


def _served(bench: _Bench, alike: Mapping[_Needs, list[int]], changed: Mapping[str, str]) -> int:
    """How many ready operations could be done with these changes."""
    held = {**bench.held, **changed}
    return sum(
        len(ready)
        for ways, ready in alike.items()
        if any(all(held.get(name) in values for name, values in needs) for _, needs in ways)
    )


def _sorting(problem: Problem, index: int) -> list[tuple[str, list[tuple[int, Fraction, str]]]]:
    """The needed values of an operation's first alternative in knob order, to sort by."""
    alternative = problem.operations[index].alternatives[0]
    return [
        (knob.name, _by_number(min(alternative.needs[knob.name], key=_by_number)))
        for knob in problem.knobs
        if knob.name in alternative.needs
    ]


def _by_number(text: str) -> list[tuple[int, Fraction, str]]:
    """A key that puts "7/8" before "1-1/4" and "9" before "10", and words after numbers.

    >>> sorted(["10", "9", "7/8 tested", "7/8", "1/2"], key=_by_number)
    ['1/2', '7/8', '7/8 tested', '9', '10']
    """
    key = []
    for word in text.replace("/", "/ ").replace("/ ", "/").split():
        try:
            key.append((0, Fraction(word), ""))
        except (ValueError, ZeroDivisionError):
            key.append((1, Fraction(0), word))
    return key
