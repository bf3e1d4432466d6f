"""The cheapest next setting, always: quick, and on large problems hard to beat.

Everything is done on small whole numbers: operations that need the same are one *kind*, what a kind
would cost next is remembered by the values that the knobs it looks at hold, and which kinds a
setting serves is an `and` of masks with a bit for each alternative.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field
from fractions import Fraction
from heapq import heapify, heappop, heappush
from itertools import product
from math import lcm

from sequencer.ordering.problem import Placed, Problem

_Needs = tuple[tuple[int, tuple[int, ...]], ...]
_Way = tuple[int, tuple[tuple[int, int], ...]]
"""An alternative's number, and the knobs that it changes with their new values."""


@dataclass(slots=True)
class _Kind:
    """Operations whose alternatives are equal. `ready` is a heap of those that wait for nothing;
    `next` gives, by what the knobs of `looks_at` hold, the least cost and all ways at that cost."""

    ways: tuple[tuple[int, _Needs], ...]
    looks_at: tuple[int, ...]
    bits: int
    ready: list[int] = field(default_factory=list)
    next: dict[tuple[int, ...], tuple[tuple[int, int], list[_Way]]] = field(default_factory=dict)


def greedy(problem: Problem) -> tuple[Placed, ...]:
    """Always the cheapest next setting; of equals the one that serves most, then file order.

    Raises `ValueError` where operations wait for each other.
    """
    return _Greedy(problem).steps()


class _Greedy:
    def __init__(self, problem: Problem) -> None:
        self.problem = problem
        self.names = [knob.name for knob in problem.knobs]
        self.number = {name: n for n, name in enumerate(self.names)}
        amounts = [way.minutes for each in problem.operations for way in each.alternatives]
        amounts += [c for knob in problem.knobs for c in (knob.minutes, *knob.by_value.values())]
        self.scale = lcm(1, *(amount.denominator for amount in amounts))
        self.values: list[list[str]] = [[] for _ in self.names]
        self.known: list[dict[str, int]] = [{} for _ in self.names]
        self.held = [-1] * len(self.names)  # -1: unset
        for name, value in problem.start.items():
            self.held[self.number[name]] = self._value(self.number[name], value)
        self.kinds: list[_Kind] = []
        self.kind_of: dict[int, _Kind] = {}
        self.owner: list[_Kind] = []  # of each bit
        # By knob and value, the alternatives that accept it; by knob, those that need it at all.
        self.accepting: list[dict[int, int]] = [{} for _ in self.names]
        self.needing = [0] * len(self.names)
        self._sort()
        self.costs = [
            [(self._whole(knob.cost(v)), knob.tie_cost(v)) for v in values]
            for knob, values in zip(problem.knobs, self.values, strict=True)
        ]

    def _whole(self, minutes: Fraction) -> int:
        return int(minutes * self.scale)

    def _value(self, knob: int, value: str) -> int:
        known = self.known[knob]
        if value not in known:
            known[value] = len(known)
            self.values[knob].append(value)
        return known[value]

    def _sort(self) -> None:
        """Every operation that is not done, by its kind."""
        seen: dict[object, _Kind] = {}
        for index, operation in enumerate(self.problem.operations):
            if index in self.problem.done:
                continue
            ways = tuple(
                (
                    self._whole(way.minutes),
                    tuple(
                        (self.number[name], tuple(self._value(self.number[name], v) for v in vs))
                        for name, vs in way.needs.items()
                    ),
                )
                for way in operation.alternatives
            )
            kind = seen.get(ways)
            if kind is None:
                kind = seen[ways] = self._new_kind(ways)
            self.kind_of[index] = kind

    def _new_kind(self, ways: tuple[tuple[int, _Needs], ...]) -> _Kind:
        bits = 0
        for _, needs in ways:
            bit = 1 << len(self.owner)
            bits |= bit
            for knob, values in needs:
                self.needing[knob] |= bit
                accepting = self.accepting[knob]
                for value in values:
                    accepting[value] = accepting.get(value, 0) | bit
            self.owner.append(_Kind((), (), 0))
        looks_at = tuple(dict.fromkeys(knob for _, needs in ways for knob, _ in needs))
        kind = _Kind(ways, looks_at, bits)
        self.owner[-len(ways) :] = [kind] * len(ways)
        self.kinds.append(kind)
        return kind

    def steps(self) -> tuple[Placed, ...]:
        waiting = dict.fromkeys(self.kind_of, 0)
        later: dict[int, list[int]] = {}
        for first, second in self.problem.before:
            if first in waiting and second in waiting:
                waiting[second] += 1
                later.setdefault(first, []).append(second)
        for index, count in waiting.items():
            if not count:
                self.kind_of[index].ready.append(index)
        for kind in self.kinds:
            heapify(kind.ready)
        alive = [kind for kind in self.kinds if kind.ready]
        steps: list[Placed] = []
        state = dict(self.problem.start)
        while alive:
            kind, (number, changed) = self._cheapest(alive)
            for knob, value in changed:
                self.held[knob] = value
                state[self.names[knob]] = self.values[knob][value]
            index = heappop(kind.ready)
            steps.append(Placed(index, number, dict(state)))
            if not kind.ready:
                alive.remove(kind)
            for other in later.get(index, ()):
                waiting[other] -= 1
                if not waiting[other]:
                    mine = self.kind_of[other]
                    if not mine.ready:
                        alive.append(mine)
                    heappush(mine.ready, other)
        if len(steps) < len(self.kind_of):
            raise ValueError("an operation waits for one that is not among them")
        return tuple(steps)

    def _cheapest(self, alive: Sequence[_Kind]) -> tuple[_Kind, _Way]:
        held = self.held
        least: tuple[int, int] | None = None
        among: list[tuple[_Kind, list[_Way]]] = []
        for kind in alive:
            key = tuple([held[knob] for knob in kind.looks_at])
            found = kind.next.get(key)
            if found is None:
                found = kind.next[key] = self._ways(kind)
            if least is None or found[0] < least:
                least, among = found[0], [(kind, found[1])]
            elif found[0] == least:
                among.append((kind, found[1]))
        best: tuple[tuple[int, int], _Kind, _Way] | None = None
        tried: dict[tuple[tuple[int, int], ...], int] = {}
        for kind, ways in among:
            for way in ways:
                served = 0
                if way[1]:
                    if way[1] not in tried:
                        tried[way[1]] = self._served(way[1], alive)
                    served = tried[way[1]]
                rank = (-served, kind.ready[0])
                if best is None or rank < best[0]:
                    best = (rank, kind, way)
        assert best is not None
        return best[1], best[2]

    def _ways(self, kind: _Kind) -> tuple[tuple[int, int], list[_Way]]:
        """The least cost of doing an operation of the kind now, and all ways at that cost."""
        least: tuple[int, int] | None = None
        found: list[_Way] = []
        for number, (minutes, needs) in enumerate(kind.ways):
            unmet = [(knob, values) for knob, values in needs if self.held[knob] not in values]
            for chosen in product(*(values for _, values in unmet)):
                cost, tie = minutes, 0
                for (knob, _), value in zip(unmet, chosen, strict=True):
                    takes, second = self.costs[knob][value]
                    if self.held[knob] >= 0 or not self.problem.first_setting_free:
                        cost += takes
                    tie += second
                if least is None or (cost, tie) < least:
                    least, found = (cost, tie), []
                if (cost, tie) == least:
                    changed = zip((knob for knob, _ in unmet), chosen, strict=True)
                    found.append((number, tuple(sorted(changed))))
        assert least is not None
        return least, found

    def _served(self, changed: tuple[tuple[int, int], ...], alive: Sequence[_Kind]) -> int:
        """How many ready operations could be done with these changes."""
        left = 0
        for kind in alive:
            left |= kind.bits
        new = dict(changed)
        for knob, held in enumerate(self.held):
            left &= ~self.needing[knob] | self.accepting[knob].get(new.get(knob, held), 0)
        served = 0
        while left:
            kind = self.owner[(left & -left).bit_length() - 1]
            served += len(kind.ready)
            left &= ~kind.bits
        return served
