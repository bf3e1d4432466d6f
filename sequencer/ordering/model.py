"""The problem as integers: bits for alternatives, indices for values, one whole number for cost.

An *atom* is one alternative of one class of operations; a set of atoms is an int with a bit for
each. A class is finished when all its atoms' bits are set. A *setting* is an int with a small field
for each knob: 0 unset, 1 set to something useless, 2 and up the knob's values. Costs are whole
numbers: minutes times `unit`, plus the tie cost where ties are asked for.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction
from math import lcm

from sequencer.ordering.problem import Problem

UNSET, USELESS, FIRST_VALUE = 0, 1, 2


@dataclass(frozen=True, slots=True)
class Atom:
    """One alternative of one class: `needs` are pairs of knob and accepted values, by index.

    `extra` is what it costs beyond the class's cheapest alternative, all members together.
    """

    owner: int
    needs: tuple[tuple[int, tuple[int, ...]], ...]
    extra: int


class Model:
    """Everything that the search looks up, made once from a problem that has no faults.

    `classes` are the operations behind each class, `base` the cost that no order avoids.
    """

    def __init__(self, problem: Problem, *, ties: bool) -> None:
        self.problem = problem
        self.tie_room = 1 + len(problem.operations) * sum(
            max([knob.tie, *knob.tie_by_value.values()]) for knob in problem.knobs
        ) if ties else 1
        amounts = [cost for knob in problem.knobs for cost in (knob.minutes, *knob.by_value.values())]
        amounts += [alternative.minutes for operation in problem.operations
                    for alternative in operation.alternatives]
        self.scale = lcm(1, *(amount.denominator for amount in amounts))
        self.unit = self.scale * self.tie_room
        self.knob_index = {knob.name: number for number, knob in enumerate(problem.knobs)}
        self.left = [index for index in range(len(problem.operations)) if index not in problem.done]
        self._values()

    def whole(self, minutes: Fraction) -> int:
        """Minutes as a whole number of the model's cost units."""
        return int(minutes * self.unit)

    def minutes(self, cost: int) -> Fraction:
        """The minutes in a cost, its tie part left out."""
        return Fraction(cost // self.tie_room, self.scale)

    def _values(self) -> None:
        problem = self.problem
        seen: list[dict[str, int]] = [{} for _ in problem.knobs]
        for index in self.left:
            for alternative in problem.operations[index].alternatives:
                for name, values in alternative.needs.items():
                    known = seen[self.knob_index[name]]
                    for value in values:
                        known.setdefault(value, FIRST_VALUE + len(known))
        self.value_index = seen
        self.value_names = [["", "", *known] for known in seen]
        self.set_cost = [
            [0, 0, *(self.whole(knob.cost(value)) + (knob.tie_cost(value) if self.tie_room > 1 else 0)
                     for value in known)]
            for knob, known in zip(problem.knobs, seen, strict=True)
        ]
        self.first_cost = self.set_cost if not problem.first_setting_free else [
            [0, 0, *(knob.tie_cost(value) if self.tie_room > 1 else 0 for value in known)]
            for knob, known in zip(problem.knobs, seen, strict=True)
        ]


def bits(mask: int) -> Iterator[int]:
    """The positions of the bits that are set, lowest first.

    >>> list(bits(0b1010))
    [1, 3]
    """
    while mask:
        low = mask & -mask
        yield low.bit_length() - 1
        mask ^= low


def pack(fields: Sequence[int], offsets: Sequence[int]) -> int:
    """One int with every field at its offset."""
    return sum(field << offset for field, offset in zip(fields, offsets, strict=True))
