"""The bound at a glance: every value that something needs once, and the operations' own minutes."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given

from sequencer.ordering import Alternative, Knob, Operation, Problem
from sequencer.ordering.least import dues, least_minutes
from tests.ordering.problems import problems
from tests.ordering.reference import least_first

KNOBS = (Knob("height", Fraction(2), {"q": Fraction(3)}), Knob("fence", Fraction(1)))


def _way(minutes: int = 0, **needs: str) -> Alternative:
    return Alternative({name: tuple(values) for name, values in needs.items()}, Fraction(minutes))


CUTS = (
    Operation("a", (_way(height="p", fence="x"),)),
    Operation("b", (_way(4, height="q", fence="xy"),)),
    Operation("c", (_way(7, height="r"), _way(5, fence="z"))),
)
"""Of `b` the fence is owed nothing, for it has a choice; of `c` the lesser minutes alone."""


@pytest.mark.parametrize(
    ("start", "free", "done", "minutes"),
    [
        ({}, False, (), 2 + 1 + 3 + 4 + 5),
        ({"height": "q"}, False, (), 2 + 1 + 4 + 5),
        ({}, True, (), 2 + 4 + 5),  # of the height q is free, the fence's one value too
        ({"fence": "w"}, True, (), 2 + 1 + 4 + 5),  # the fence was set before
        ({}, False, (0, 2), 3 + 4),
    ],
)
def test_by_hand(start: dict[str, str], free: bool, done: tuple[int, ...], minutes: int) -> None:
    problem = Problem(KNOBS, CUTS, (), start, frozenset(done), free)
    assert least_minutes(problem) == minutes


def test_of_some_operations_alone() -> None:
    found = dues(Problem(KNOBS, CUTS, ()), (0,))
    assert found.settings == {("height", "p"): Fraction(2), ("fence", "x"): Fraction(1)}
    assert found.own == 0


@given(problems(6))
def test_no_order_beats_it(problem: Problem) -> None:
    best = least_first(problem)
    assert best is not None
    assert least_minutes(problem) <= best.minutes
