"""A bound at a glance: what any order pays at least, without a search."""

from __future__ import annotations

from fractions import Fraction

from sequencer.ordering.problem import Problem


def least_minutes(problem: Problem) -> Fraction:
    """The sum, over the knobs, of one setting of each value that some operation cannot do without,
    and of every operation's least own minutes. A value that a knob starts at is not counted, nor
    the dearest of each knob where first settings are free.
    """
    total = Fraction(0)
    wanted: dict[str, dict[str, None]] = {knob.name: {} for knob in problem.knobs}
    for index, operation in enumerate(problem.operations):
        if index in problem.done:
            continue
        total += min(way.minutes for way in operation.alternatives)
        if len(operation.alternatives) == 1:
            for name, values in operation.alternatives[0].needs.items():
                if len(values) == 1:
                    wanted[name][values[0]] = None
    for knob in problem.knobs:
        costs = [
            knob.cost(value)
            for value in wanted[knob.name]
            if value != problem.start.get(knob.name)
        ]
        if problem.first_setting_free and costs and knob.name not in problem.start:
            costs.remove(max(costs))
        total += sum(costs, Fraction(0))
    return total
