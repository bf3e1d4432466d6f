"""The ordering problem: operations, what each needs of the knobs, and what setting a knob costs.

Nothing here knows of saws or doors. Knob values are opaque strings; operations are named by index
everywhere but in messages. A `Problem` that `faults` finds nothing wrong with can be solved.
"""

from __future__ import annotations

from collections.abc import Mapping
from fractions import Fraction

from msgspec import Struct, field

from sequencer.facts import Fact, Kind
from sequencer.facts import orders as told


class Knob(Struct, frozen=True):
    """Something that is set to a value and keeps it: a fence, a blade height, a cutter.

    Setting it costs `minutes`, or `by_value[value]` where that is given, each time. `tie` and
    `tie_by_value` are a second cost, small whole numbers, that only orders of equal minutes are
    compared by.
    """

    name: str
    minutes: Fraction
    by_value: Mapping[str, Fraction] = field(default_factory=dict)
    tie: int = 0
    tie_by_value: Mapping[str, int] = field(default_factory=dict)

    def cost(self, value: str) -> Fraction:
        """Minutes of setting the knob to `value` once."""
        return self.by_value.get(value, self.minutes)

    def tie_cost(self, value: str) -> int:
        """The second cost of setting the knob to `value` once."""
        return self.tie_by_value.get(value, self.tie)


class Alternative(Struct, frozen=True):
    """One way of doing an operation: the values that it accepts of each knob that it needs.

    `needs` of `{}` is work at the bench, which no knob matters to. `minutes` are its own, whatever
    is set.
    """

    needs: Mapping[str, tuple[str, ...]]
    minutes: Fraction = Fraction(0)


class Operation(Struct, frozen=True):
    """One cut of one piece, done once, in one of its alternatives."""

    id: str
    alternatives: tuple[Alternative, ...]


class Problem(Struct, frozen=True):
    """Operations with their precedence `before` (pairs of indices: first, later).

    `start` gives the knobs that are already set, `done` the operations already finished. With
    `first_setting_free` the minutes of a knob's first setting are nought, unless `start` sets it.
    """

    knobs: tuple[Knob, ...]
    operations: tuple[Operation, ...]
    before: tuple[tuple[int, int], ...]
    start: Mapping[str, str] = field(default_factory=dict)
    done: frozenset[int] = frozenset()
    first_setting_free: bool = False


class Placed(Struct, frozen=True):
    """One step of an order: the operation, how it is done, and every set knob as it then stands."""

    operation: int
    alternative: int
    state: Mapping[str, str]


class Order(Struct, frozen=True):
    """An order of every operation that was not done.

    `minutes` is its cost and `bound` what no order can beat. `proven` says that the two are equal
    and that this was shown; it speaks of the minutes alone, `tie` being the least that was found.
    `limit` says which limit ended the search, if one did; `quick` is then the order that is found
    at once, by the cheapest next setting.
    """

    steps: tuple[Placed, ...]
    minutes: Fraction
    bound: Fraction
    proven: bool
    tie: int
    limit: str | None = None
    quick: tuple[Placed, ...] | None = None


def faults(problem: Problem) -> tuple[Fact, ...]:
    """Everything that makes the problem unsolvable, in the order of the problem."""
    found: list[Fact] = []
    names = _repeated(found, told.KNOB, [knob.name for knob in problem.knobs])
    _repeated(found, told.OPERATION, [operation.id for operation in problem.operations])
    for knob in problem.knobs:
        costs = [(told.KNOB(name=knob.name), knob.minutes)]
        costs += [
            (told.KNOB_AT(name=knob.name, value=value), cost)
            for value, cost in knob.by_value.items()
        ]
        found += [
            told.COSTS_LESS_THAN_NOTHING(what=what, minutes=cost)
            for what, cost in costs
            if cost < 0
        ]
        if min([knob.tie, *knob.tie_by_value.values()]) < 0:
            found.append(told.TIE_BELOW_NOTHING(knob=knob.name))
    for operation in problem.operations:
        if not operation.alternatives:
            found.append(told.NO_WAY(operation=operation.id))
        for number, alternative in enumerate(operation.alternatives):
            way = told.WAY(operation=operation.id, way=number)
            if alternative.minutes < 0:
                cost = alternative.minutes
                found.append(told.COSTS_LESS_THAN_NOTHING(what=way, minutes=cost))
            for name, values in alternative.needs.items():
                if name not in names:
                    found.append(told.NEEDS_UNKNOWN(what=way, knob=name))
                if not values:
                    found.append(told.ACCEPTS_NOTHING(what=way, knob=name))
    found += [told.STARTS_UNKNOWN(knob=name) for name in problem.start if name not in names]
    size = len(problem.operations)
    strays = [pair for pair in problem.before if not all(0 <= index < size for index in pair)]
    found += [told.EDGE_OF_NOTHING(first=first, later=later) for first, later in strays]
    found += [
        told.DONE_IS_NOTHING(index=index) for index in sorted(problem.done) if not 0 <= index < size
    ]
    if not strays:
        chain = cycle(size, problem.before)
        if chain:
            marks = tuple(problem.operations[index].id for index in chain)
            found.append(told.BEFORE_ITSELF(chain=marks))
    return tuple(found)


def _repeated(found: list[Fact], kind: Kind, names: list[str]) -> dict[str, int]:
    counts: dict[str, int] = {}
    for name in names:
        counts[name] = counts.get(name, 0) + 1
    found += [
        told.NAMED_AGAIN(what=kind(name=name), n=count)
        for name, count in counts.items()
        if count > 1
    ]
    return counts


def cycle(size: int, before: tuple[tuple[int, int], ...]) -> list[int]:
    """A chain of indices that ends where it begins, or nothing when there is no cycle.

    >>> cycle(3, ((0, 1), (1, 2), (2, 1)))
    [1, 2, 1]
    """
    later: list[list[int]] = [[] for _ in range(size)]
    waiting = [0] * size
    for first, second in before:
        later[first].append(second)
        waiting[second] += 1
    ready = [index for index in range(size) if not waiting[index]]
    for index in ready:
        for second in later[index]:
            waiting[second] -= 1
            if not waiting[second]:
                ready.append(second)
    if len(ready) == size:
        return []
    earlier: list[int] = [-1] * size
    for first, second in before:
        if waiting[first] and waiting[second]:
            earlier[second] = first
    # Every operation still waiting has one before it that waits too: walk back until one repeats.
    walk = [next(index for index in range(size) if waiting[index] and earlier[index] >= 0)]
    while earlier[walk[-1]] not in walk:
        walk.append(earlier[walk[-1]])
    loop = walk[walk.index(earlier[walk[-1]]) :]
    loop.reverse()
    least = loop.index(min(loop))
    loop = loop[least:] + loop[:least]
    return [*loop, loop[0]]
