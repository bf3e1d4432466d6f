"""The problem as integers: indices for values, whole numbers for costs, needs as tuples.

A *setting* is an int with a small field for each knob: 0 unset, 1 set to something useless, 2 and
up the knob's values. Costs are whole numbers: minutes times `scale` times
`tie_room`, plus the tie cost, so that orders are compared by minutes first and then by ties.
"""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from math import lcm

from sequencer.ordering.problem import Alternative, Problem

UNSET, USELESS, FIRST_VALUE = 0, 1, 2

# What one alternative needs: pairs of knob index and accepted value indices, by knob.
Needs = tuple[tuple[int, tuple[int, ...]], ...]
# An operation's alternatives with what each costs beyond the least of them.
Choice = tuple[tuple[Needs, int], ...]


class Model:
    """Everything about a faultless problem that does not change during a search.

    `choices[i]` says what operation i needs and `base` what all orders pay alike; `offsets` and
    `masks` find a knob's field in a setting.
    """

    def __init__(self, problem: Problem) -> None:
        self.problem = problem
        self.free_first = problem.first_setting_free
        # More than all the ties of any order together: a knob is set at most once an operation.
        self.tie_room = 1 + len(problem.operations) * sum(
            max([knob.tie, *knob.tie_by_value.values()]) for knob in problem.knobs
        )
        amounts = [
            cost for knob in problem.knobs for cost in (knob.minutes, *knob.by_value.values())
        ]
        amounts += [
            alternative.minutes
            for operation in problem.operations
            for alternative in operation.alternatives
        ]
        self.scale = lcm(1, *(amount.denominator for amount in amounts))
        self.left = [index for index in range(len(problem.operations)) if index not in problem.done]
        self._values()
        self._choices()
        self.earlier: list[list[int]] = [[] for _ in problem.operations]
        for first, later in problem.before:
            if first not in problem.done and later not in problem.done:
                self.earlier[later].append(first)

    def whole(self, minutes: Fraction) -> int:
        """Minutes as a whole number of cost units."""
        return int(minutes * self.scale) * self.tie_room

    def minutes(self, cost: int) -> Fraction:
        """The minutes in a cost, its tie part left out."""
        return Fraction(cost // self.tie_room, self.scale)

    def field(self, setting: int, knob: int) -> int:
        """The value index that a setting holds for a knob."""
        return (setting & self.masks[knob]) >> self.offsets[knob]

    def _values(self) -> None:
        problem = self.problem
        seen: list[dict[str, int]] = [{} for _ in problem.knobs]
        names = {knob.name: number for number, knob in enumerate(problem.knobs)}
        for index in self.left:
            for alternative in problem.operations[index].alternatives:
                for name, values in alternative.needs.items():
                    known = seen[names[name]]
                    for value in values:
                        known.setdefault(value, FIRST_VALUE + len(known))
        self.knob_index, self.value_index = names, seen
        self.value_names = [["", "", *known] for known in seen]
        self.offsets, self.masks, position = [], [], 0
        for known in seen:
            width = (len(known) + FIRST_VALUE - 1).bit_length()
            self.offsets.append(position)
            self.masks.append(((1 << width) - 1) << position)
            position += width
        self.width = position
        self.costs, self.first_costs = [], []
        for knob, known in zip(problem.knobs, seen, strict=True):
            tie = [knob.tie_cost(value) for value in known]
            cost = [self.whole(knob.cost(value)) for value in known]
            self.costs.append([0, 0, *(a + b for a, b in zip(cost, tie, strict=True))])
            self.first_costs.append([0, 0, *tie] if self.free_first else self.costs[-1])
        self.start = 0
        for name, value in problem.start.items():
            knob_number = names[name]
            held = seen[knob_number].get(value, USELESS)
            self.start |= held << self.offsets[knob_number]

    def _choices(self) -> None:
        self.choices: dict[int, Choice] = {}
        self.base = 0
        known: dict[int, Choice] = {}  # many operations share their only alternative's needs
        for index in self.left:
            alternatives = self.problem.operations[index].alternatives
            if len(alternatives) == 1:
                (only,) = alternatives
                if only.minutes:
                    self.base += self.whole(only.minutes)
                if id(only.needs) not in known:
                    known[id(only.needs)] = ((self._needs(only), 0),)
                self.choices[index] = known[id(only.needs)]
                continue
            least = min(alternative.minutes for alternative in alternatives)
            self.base += self.whole(least)
            found = [
                (self._needs(alternative), self.whole(alternative.minutes - least))
                for alternative in alternatives
            ]
            self.choices[index] = undominated(found)

    def _needs(self, alternative: Alternative) -> Needs:
        return tuple(
            sorted(
                (
                    self.knob_index[name],
                    tuple(
                        sorted({self.value_index[self.knob_index[name]][value] for value in values})
                    ),
                )
                for name, values in alternative.needs.items()
            )
        )


def weaker(first: Needs, second: Needs) -> bool:
    """Whether `first` is met wherever `second` is.

    >>> weaker(((0, (2, 3)),), ((0, (2,)), (1, (4,))))
    True
    """
    given = dict(second)
    return all(knob in given and set(given[knob]) <= set(values) for knob, values in first)


def undominated(choice: list[tuple[Needs, int]]) -> Choice:
    """The alternatives that no other beats in both needs and cost; the earlier of two equals."""
    kept: list[tuple[Needs, int]] = []
    for number, (needs, extra) in enumerate(choice):
        if not any(
            other <= extra
            and weaker(wider, needs)
            and (at < number or other < extra or not weaker(needs, wider))
            for at, (wider, other) in enumerate(choice)
            if at != number
        ):
            kept.append((needs, extra))
    return tuple(kept)


def bits(mask: int) -> Iterator[int]:
    """The positions of the bits that are set, lowest first.

    >>> list(bits(0b1010))
    [1, 3]
    """
    while mask:
        low = mask & -mask
        yield low.bit_length() - 1
        mask ^= low
