"""A bound at a glance: what any order pays at least, without a search."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from fractions import Fraction

from msgspec import Struct, field

from sequencer.ordering.problem import Problem


class Dues(Struct, frozen=True):
    """What must be paid at least: for each knob and each value that some operation cannot do
    without, the minutes of setting it once; and the operations' own minutes."""

    settings: Mapping[tuple[str, str], Fraction] = field(default_factory=dict)
    own: Fraction = Fraction(0)

    @property
    def minutes(self) -> Fraction:
        return sum(self.settings.values(), self.own)


def dues(problem: Problem, only: Iterable[int] | None = None) -> Dues:
    """The dues of a problem, or of some of its operations, by index. A value that a knob starts
    at is not counted, nor the dearest of each knob where first settings are free.
    """
    costs = {knob.name: knob for knob in problem.knobs}
    settings: dict[tuple[str, str], Fraction] = {}
    own = Fraction(0)
    for index in range(len(problem.operations)) if only is None else only:
        if index in problem.done:
            continue
        ways = problem.operations[index].alternatives
        least = min(way.minutes for way in ways) if len(ways) > 1 else ways[0].minutes
        if least:
            own += least
        for name, values in ways[0].needs.items() if len(ways) == 1 else ():
            if len(values) == 1 and values[0] != problem.start.get(name):
                settings[name, values[0]] = costs[name].cost(values[0])
    if problem.first_setting_free:
        for name in costs.keys() - problem.start.keys():
            paid = [key for key in settings if key[0] == name]
            if paid:
                del settings[max(paid, key=lambda key: settings[key])]
    return Dues(settings, own)


def least_minutes(problem: Problem) -> Fraction:
    """What no order of the problem can beat; weak, and quick."""
    return dues(problem).minutes
