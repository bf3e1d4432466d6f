"""The checker names the first wrong step of every kind, and counts setups as people do."""

from __future__ import annotations

from collections.abc import Mapping
from fractions import Fraction

import pytest

from sequencer.errors import InternalError
from sequencer.ordering import (
    Alternative,
    Knob,
    Operation,
    Placed,
    Problem,
    check,
    replay,
    solve,
)

FENCE = Knob("fence", Fraction(1), {"2": Fraction(1, 2)}, 1, {"3": 5})
HEIGHT = Knob("height", Fraction(2))


def _operation(name: str, **needs: str) -> Operation:
    return Operation(name, (Alternative({knob: (value,) for knob, value in needs.items()}),))


PROBLEM = Problem(
    (FENCE, HEIGHT),
    (
        _operation("rip", fence="2"),
        _operation("groove", fence="3", height="1/4"),
        _operation("dry fit"),
        _operation("panel", fence="3"),
    ),
    ((0, 1), (1, 2), (2, 3)),
)
RIPPED = {"fence": "2"}
GROOVED = {"fence": "3", "height": "1/4"}


def _steps(*steps: tuple[int, Mapping[str, str]]) -> list[Placed]:
    return [Placed(operation, 0, state) for operation, state in steps]


GOOD = _steps((0, RIPPED), (1, GROOVED), (2, GROOVED), (3, GROOVED))


def test_cost_and_setups_by_hand() -> None:
    # fence to 2: 1/2; fence to 3: 1; height: 2. Ties: 1 + 5. The dry fit counts in no setup and
    # breaks none.
    assert check.recompute(PROBLEM, GOOD) == check.Cost(Fraction(7, 2), 6, 2)


@pytest.mark.parametrize(
    ("steps", "message"),
    [
        (GOOD[:3], 'after the last step: "panel" was never done'),
        ([*GOOD, GOOD[0]], 'step 5, "rip": was done before'),
        ([GOOD[1], GOOD[0], *GOOD[2:]], 'step 1, "groove": comes before "rip"'),
        (_steps((0, {})), 'step 1, "rip": needs "fence" at 2, not at nothing'),
        (_steps((0, {"fence": "3"})), 'step 1, "rip": needs "fence" at 2, not at 3'),
        (
            _steps((0, {**RIPPED, "height": "1/4"})),
            'step 1, "rip": changes "height", which it does not need',
        ),
        (
            _steps((0, {**RIPPED, "stop": "9"})),
            'step 1, "rip": changes "stop", which it does not need',
        ),
        (
            _steps((0, RIPPED), (1, {"height": "1/4"})),
            'step 2, "groove": "fence" is not set any more',
        ),
        (_steps((7, RIPPED)), "step 1: there is no operation 7"),
        ([Placed(0, 1, RIPPED)], 'step 1, "rip": there is no alternative 1'),
    ],
)
def test_first_wrong_step_is_named(steps: list[Placed], message: str) -> None:
    with pytest.raises(InternalError) as caught:
        check.recompute(PROBLEM, steps)
    assert str(caught.value) == message


def test_the_solver_refuses_its_own_wrong_order(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(replay, "steps", lambda *_: tuple(GOOD[:3]))
    with pytest.raises(InternalError, match='"panel" was never done'):
        solve(PROBLEM)


def test_the_solver_refuses_a_cost_that_its_steps_do_not_have(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    waste = _steps((0, RIPPED), (1, GROOVED), (2, GROOVED), (3, {"fence": "3", "height": "1/4"}))
    monkeypatch.setattr(check, "recompute", lambda *_: check.Cost(Fraction(9), 0, 2))
    monkeypatch.setattr(replay, "steps", lambda *_: tuple(waste))
    with pytest.raises(InternalError, match="its steps take 9"):
        solve(PROBLEM)


def test_a_faulty_problem_is_refused() -> None:
    knot = Problem((), (Operation("a", (Alternative({}),)), Operation("b", ())), ((0, 1), (1, 0)))
    with pytest.raises(InternalError) as caught:
        solve(knot)
    assert str(caught.value) == (
        'operation "b" has no alternative; '
        'each of these would have to come before itself: "a" before "b" before "a"'
    )


def test_nothing_to_do() -> None:
    assert solve(Problem((), (), ())).steps == ()
    everything_done = Problem(
        PROBLEM.knobs, PROBLEM.operations, PROBLEM.before, done=frozenset(range(4))
    )
    order = solve(everything_done)
    assert order.steps == ()
    assert order.minutes == 0
    assert order.proven
