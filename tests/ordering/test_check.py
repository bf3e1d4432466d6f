"""The checker names the first wrong step of every kind, and counts setups as people do."""

from __future__ import annotations

from collections.abc import Mapping
from fractions import Fraction

import pytest

from sequencer.errors import InternalError
from sequencer.facts import orders
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
        (GOOD[:3], "order.never-done(operation=panel)"),
        ([*GOOD, GOOD[0]], "order.at-step(step=5, operation=rip, what=order.done-before())"),
        (
            [GOOD[1], GOOD[0], *GOOD[2:]],
            "order.at-step(step=1, operation=groove, what=order.comes-before(first=rip))",
        ),
        (
            _steps((0, {})),
            (
                "order.at-step(step=1, operation=rip, "
                "what=order.needs-unset(knob=fence, values=(2)))"
            ),
        ),
        (
            _steps((0, {"fence": "3"})),
            (
                "order.at-step(step=1, operation=rip, "
                "what=order.needs(knob=fence, values=(2), found=3))"
            ),
        ),
        (
            _steps((0, {**RIPPED, "height": "1/4"})),
            "order.at-step(step=1, operation=rip, what=order.changes-unneeded(knob=height))",
        ),
        (
            _steps((0, {**RIPPED, "stop": "9"})),
            "order.at-step(step=1, operation=rip, what=order.changes-unneeded(knob=stop))",
        ),
        (
            _steps((0, RIPPED), (1, {"height": "1/4"})),
            "order.at-step(step=2, operation=groove, what=order.forgotten(knob=fence))",
        ),
        (_steps((7, RIPPED)), "order.no-such-operation(step=1, index=7)"),
        (
            [Placed(0, 1, RIPPED)],
            "order.at-step(step=1, operation=rip, what=order.no-such-way(way=1))",
        ),
    ],
)
def test_first_wrong_step_is_named(steps: list[Placed], message: str) -> None:
    with pytest.raises(InternalError) as caught:
        check.recompute(PROBLEM, steps)
    assert str(caught.value) == message


def test_the_solver_refuses_its_own_wrong_order(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(replay, "steps", lambda *_: tuple(GOOD[:3]))
    with pytest.raises(InternalError, match=r"never-done.operation=panel"):
        solve(PROBLEM)


def test_the_solver_refuses_a_cost_that_its_steps_do_not_have(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    waste = _steps((0, RIPPED), (1, GROOVED), (2, GROOVED), (3, {"fence": "3", "height": "1/4"}))
    monkeypatch.setattr(check, "recompute", lambda *_: check.Cost(Fraction(9), 0, 2))
    monkeypatch.setattr(replay, "steps", lambda *_: tuple(waste))
    with pytest.raises(InternalError, match=r"order\.miscounted\(.*found=9"):
        solve(PROBLEM)


def test_a_faulty_problem_is_refused() -> None:
    knot = Problem((), (Operation("a", (Alternative({}),)), Operation("b", ())), ((0, 1), (1, 0)))
    with pytest.raises(InternalError) as caught:
        solve(knot)
    assert caught.value.says == (
        orders.NO_WAY(operation="b"),
        orders.BEFORE_ITSELF(chain=("a", "b", "a")),
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
