"""Recomputes an order's cost from the problem alone, and refuses an order that cannot be followed.

Shares no code with the search: everything is done again on names and exact minutes.
"""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction

from msgspec import Struct

from sequencer.errors import InternalError
from sequencer.facts import Fact
from sequencer.facts import orders as told
from sequencer.ordering.problem import Placed, Problem


class Cost(Struct, frozen=True):
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
            raise InternalError(told.NO_SUCH_OPERATION(step=number, index=step.operation))
        operation = problem.operations[step.operation]
        if step.operation in finished:
            raise _at(number, operation.id, told.DONE_BEFORE())
        for first in earlier[step.operation]:
            if first not in finished:
                name = problem.operations[first].id
                raise _at(number, operation.id, told.COMES_BEFORE(first=name))
        if not 0 <= step.alternative < len(operation.alternatives):
            raise _at(number, operation.id, told.NO_SUCH_WAY(way=step.alternative))
        alternative = operation.alternatives[step.alternative]
        changed = False
        for name in [*held, *(name for name in step.state if name not in held)]:
            if name not in step.state:
                raise _at(number, operation.id, told.FORGOTTEN(knob=name))
            value = step.state[name]
            if held.get(name) == value:
                continue
            if name not in alternative.needs:
                raise _at(number, operation.id, told.CHANGES_UNNEEDED(knob=name))
            if name in held or not problem.first_setting_free:
                minutes += knobs[name].cost(value)
            tie += knobs[name].tie_cost(value)
            changed = True
        for name, values in alternative.needs.items():
            if step.state.get(name) not in values:
                raise _at(number, operation.id, _needs(name, tuple(values), step.state.get(name)))
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
        raise InternalError(told.NEVER_DONE(operation=left[0]))
    return Cost(minutes, tie, setups)


def _at(step: int, operation: str, what: Fact) -> InternalError:
    return InternalError(told.AT_STEP(step=step, operation=operation, what=what))


def _needs(knob: str, values: tuple[str, ...], found: str | None) -> Fact:
    if found is None:
        return told.NEEDS_UNSET(knob=knob, values=values)
    return told.NEEDS(knob=knob, values=values, found=found)
