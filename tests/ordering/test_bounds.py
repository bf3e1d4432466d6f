"""What no order can beat, told before a search: each value that is needed is set once."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given

from sequencer.ordering import Alternative, Knob, Operation, Problem, bound, solve
from tests.ordering.problems import problems, seeded
from tests.ordering.reference import least_first

HEIGHT = Knob("height", Fraction(2), {"q": Fraction(3)})


def _cuts(*accepted: str) -> tuple[Operation, ...]:
    """An operation for each text, which accepts each of its letters."""
    return tuple(
        Operation(f"o{n}", (Alternative({"height": tuple(values)}),))
        for n, values in enumerate(accepted)
    )


@pytest.mark.parametrize(
    ("accepted", "start", "free", "minutes"),
    [
        (("p", "q", "r"), None, False, 7),
        (("p", "q", "r"), "q", False, 4),  # that one stands already
        (("p", "q", "r"), "z", False, 7),  # what stands is of no use
        (("p", "pr", "r"), None, False, 4),  # either serves the second
        (("p", "qr"), None, False, 4),  # the cheaper of the two
        (("p", "q", "r"), None, True, 4),  # the first is free, at best the dearest
        (("p", "q", "r"), "z", True, 7),  # it was set before
        (("p", "pq"), "p", False, 0),  # all of it can be done as the saw stands
        ((), None, False, 0),
    ],
)
def test_each_value_once(
    accepted: tuple[str, ...], start: str | None, free: bool, minutes: int
) -> None:
    """By hand, with not one state of a search."""
    held = {} if start is None else {"height": start}
    problem = Problem((HEIGHT,), _cuts(*accepted), (), held, frozenset(), free)
    assert bound(problem, Fraction(100), max_states=0) == minutes


@given(problems(6))
def test_none_beats_it(problem: Problem) -> None:
    best = least_first(problem)
    assert best is not None
    for states in (0, 5, 50):
        assert bound(problem, best.minutes, max_states=states) <= best.minutes


def test_what_is_remembered_of_one_state_holds_for_it_alone() -> None:
    """A problem in which a search goes wrong that takes what is left from there for what was spent
    up to there."""
    problem = seeded(3565, 12)
    best = least_first(problem)
    assert best is not None
    assert solve(problem).minutes == best.minutes
