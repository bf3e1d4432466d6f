"""Recomputes an order's cost from the problem alone, and refuses an order that cannot be followed.

Shares no code with the search: everything is done again on names and exact minutes.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction

from sequencer.errors import InternalError
from sequencer.ordering.problem import Placed, Problem


@dataclass(frozen=True, slots=True)
class Cost:
    """What an order costs.

    `setups` counts the longest runs of steps between which no needed knob changes; steps that need
    no knob count in none.
    """

    minutes: Fraction
    tie: int
    setups: int


def recompute(problem: Problem, steps: Sequence[Placed]) -> Cost:
    """The cost of following `steps`.

    Raises InternalError naming the first step that is wrong: an operation that is not there, done
    already or done twice, one before what must precede it, a need that is not met, a knob that
    changes although the step does not need it; or, at the end, an operation left out.
    """
    knobs = {knob.name: knob for knob in problem.knobs}
    earlier: list[list[int]] = [[] for _ in problem.operations]
    for first, later in problem.before:
        earlier[later].append(first)
    finished = set(problem.done)
    held = dict(problem.start)
    minutes, tie, setups = Fraction(0), 0, 0
    for number, step in enumerate(steps, 1):
        if not 0 <= step.operation < len(problem.operations):
            raise InternalError(f"step {number}: there is no operation {step.operation}")
        operation = problem.operations[step.operation]
        place = f'step {number}, "{operation.id}"'
        if step.operation in finished:
            raise InternalError(f"{place}: was done before")
        for first in earlier[step.operation]:
            if first not in finished:
                raise InternalError(f'{place}: comes before "{problem.operations[first].id}"')
        if not 0 <= step.alternative < len(operation.alternatives):
            raise InternalError(f"{place}: there is no alternative {step.alternative}")
        alternative = operation.alternatives[step.alternative]
        changed = False
        for name in [*held, *(name for name in step.state if name not in held)]:
            if name not in step.state:
                raise InternalError(f'{place}: "{name}" is not set any more')
            value = step.state[name]
            if held.get(name) == value:
                continue
            if name not in alternative.needs:
                raise InternalError(f'{place}: changes "{name}", which it does not need')
            if name in held or not problem.first_setting_free:
                minutes += knobs[name].cost(value)
            tie += knobs[name].tie_cost(value)
            changed = True
        for name, values in alternative.needs.items():
            if step.state.get(name) not in values:
                raise InternalError(
                    f'{place}: needs "{name}" at {" or ".join(values)}, '
                    f"not at {step.state.get(name, 'nothing')}"
                )
        if alternative.needs and (changed or not setups):
            setups += 1
        if alternative.minutes:
            minutes += alternative.minutes
        held = dict(step.state)
        finished.add(step.operation)
    left = [
        operation.id for index, operation in enumerate(problem.operations) if index not in finished
    ]
    if left:
        raise InternalError(f'after the last step: "{left[0]}" was never done')
    return Cost(minutes, tie, setups)
