"""Three orders that people would follow without a search, on the same problem.

None is weakened: each takes every chance that its own rule allows, and is judged by the same
checker as the search's order.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from fractions import Fraction
from functools import lru_cache
from itertools import product

from sequencer.ordering.greedy import greedy
from sequencer.ordering.problem import Knob, Order, Placed, Problem
from sequencer.records import replace

__all__ = ["by_rank", "greedy", "group_by_group"]


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
        walk = [index for index in group if index not in bench.finished]
        taken = set(walk)
        while walk:
            index = walk.pop()
            for first in bench.earlier[index]:
                if first not in bench.finished and first not in taken:
                    taken.add(first)
                    walk.append(first)
        if not taken:
            continue
        members = sorted(taken)
        place = {index: number for number, index in enumerate(members)}
        alone = replace(
            problem,
            operations=tuple(problem.operations[index] for index in members),
            before=tuple(
                (place[first], place[later])
                for later in members
                for first in bench.earlier[later]
                if first in place
            ),
            start=dict(bench.held),
            done=frozenset(),
        )
        for step in solve(alone).steps:
            bench.held = dict(step.state)
            bench.finished.add(members[step.operation])
            bench.steps.append(replace(step, operation=members[step.operation]))
    return tuple(bench.steps)


def _sorting(
    problem: Problem, index: int
) -> list[tuple[str, tuple[tuple[int, Fraction, str], ...]]]:
    """The needed values of an operation's first alternative in knob order, to sort by."""
    alternative = problem.operations[index].alternatives[0]
    return [
        (knob.name, _by_number(min(alternative.needs[knob.name], key=_by_number)))
        for knob in problem.knobs
        if knob.name in alternative.needs
    ]


@lru_cache(maxsize=10_000)
def _by_number(text: str) -> tuple[tuple[int, Fraction, str], ...]:
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
    return tuple(key)
