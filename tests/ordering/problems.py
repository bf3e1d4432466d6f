"""Invented ordering problems, seeded or Hypothesis's, and changes that leave the cost alone."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction
from random import Random

from hypothesis import strategies as st

from sequencer.ordering import Alternative, Knob, Operation, Problem
from sequencer.records import replace

VALUES = "pqrs"


def seeded(seed: int, most: int = 6) -> Problem:
    """A problem of up to `most` operations with everything in it that a problem may have."""
    return _problem(Random(seed), most)


def problems(most: int = 8) -> st.SearchStrategy[Problem]:
    """Problems of up to `most` operations; Hypothesis picks and shrinks the seed's choices."""
    return st.randoms(use_true_random=False).map(lambda random: _problem(random, most))


def _problem(random: Random, most: int) -> Problem:
    values = VALUES[: random.randint(2, 4)]
    names = [f"k{number}" for number in range(random.randint(1, 4))]
    knobs = tuple(
        Knob(
            name,
            Fraction(random.randint(0, 5)),
            {
                value: Fraction(random.randint(0, 6), random.choice([1, 1, 2]))
                for value in values
                if random.random() < 0.35
            },
            random.choice([0, 0, 1]),
            {value: random.randint(0, 3) for value in values if random.random() < 0.2},
        )
        for name in names
    )
    size = random.randint(1, most)
    seen: list[tuple[Alternative, ...]] = []
    for _ in range(size):
        if seen and random.random() < 0.4:
            seen.append(random.choice(seen))
        else:
            seen.append(
                tuple(
                    _alternative(random, names, values)
                    for _ in range(random.choice([1, 1, 1, 2, 3]))
                )
            )
    operations = tuple(Operation(f"o{number}", each) for number, each in enumerate(seen))
    density = random.choice([0.1, 0.25, 0.4])
    line = random.sample(range(size), size)
    before = tuple(
        (line[first], line[later])
        for first in range(size)
        for later in range(first + 1, size)
        if random.random() < density
    )
    start = {}
    if random.random() < 0.5:
        start = {name: random.choice(values + "z") for name in names if random.random() < 0.5}
    done: frozenset[int] = frozenset()
    if random.random() < 0.3:
        done = frozenset(index for index in range(size) if random.random() < 0.2)
    return Problem(knobs, operations, before, start, done, random.random() < 0.3)


def _alternative(random: Random, names: Sequence[str], values: str) -> Alternative:
    needs = {
        name: tuple(random.sample(values, random.choice([1, 1, 2, min(3, len(values))])))
        for name in names
        if random.random() < 0.65
    }
    return Alternative(needs, Fraction(random.choice([0, 0, 0, 1, 2]), random.choice([1, 2])))


def permuted(problem: Problem, random: Random) -> Problem:
    """The same problem with knobs, operations and precedence in another order."""
    line = random.sample(range(len(problem.operations)), len(problem.operations))
    place = {old: new for new, old in enumerate(line)}
    before = [(place[first], place[later]) for first, later in problem.before]
    return replace(
        problem,
        knobs=tuple(random.sample(problem.knobs, len(problem.knobs))),
        operations=tuple(problem.operations[old] for old in line),
        before=tuple(random.sample(before, len(before))),
        done=frozenset(place[index] for index in problem.done),
    )


def renamed(problem: Problem) -> Problem:
    """The same problem with other names for knobs, values and operations."""

    def new(value: str) -> str:
        return f"value {value}"

    return replace(
        problem,
        knobs=tuple(
            Knob(
                f"knob {knob.name}",
                knob.minutes,
                {new(value): cost for value, cost in knob.by_value.items()},
                knob.tie,
                {new(value): cost for value, cost in knob.tie_by_value.items()},
            )
            for knob in problem.knobs
        ),
        operations=tuple(
            Operation(
                f"operation {operation.id}",
                tuple(
                    Alternative(
                        {
                            f"knob {name}": tuple(new(value) for value in values)
                            for name, values in alternative.needs.items()
                        },
                        alternative.minutes,
                    )
                    for alternative in operation.alternatives
                ),
            )
            for operation in problem.operations
        ),
        start={f"knob {name}": new(value) for name, value in problem.start.items()},
    )


def doubled(problem: Problem) -> Problem:
    """Every operation twice, with the own minutes of each halved: the copies cost nothing more."""
    size = len(problem.operations)
    halved = [
        tuple(
            replace(alternative, minutes=alternative.minutes / 2)
            for alternative in operation.alternatives
        )
        for operation in problem.operations
    ]
    operations = [
        Operation(f"{operation.id}/{copy}", mine)
        for copy in (1, 2)
        for operation, mine in zip(problem.operations, halved, strict=True)
    ]
    before = [
        (first + shift, later + shift) for shift in (0, size) for first, later in problem.before
    ]
    done = frozenset(index + shift for shift in (0, size) for index in problem.done)
    return replace(problem, operations=tuple(operations), before=tuple(before), done=done)
