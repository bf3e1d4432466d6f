"""The search against plain searches, against itself without reductions, and under changes."""

from __future__ import annotations

from random import Random

import pytest
from hypothesis import given

from sequencer.ordering import Problem, check, solve
from sequencer.ordering.space import Space
from sequencer.records import replace
from tests.ordering.problems import doubled, permuted, problems, renamed, seeded
from tests.ordering.reference import cheaper, least_first


@given(problems(8))
def test_no_order_at_all_is_better(problem: Problem) -> None:
    order = solve(problem)
    best = least_first(problem)
    assert best is not None
    assert order.proven
    assert (order.minutes, order.tie) == (best.minutes, best.tie)
    if len(problem.operations) <= 7:
        assert cheaper(problem, (order.minutes, order.tie)) is None


@pytest.mark.parametrize("block", range(20))
def test_two_thousand_small_problems_by_force(block: int) -> None:
    for seed in range(block * 100, block * 100 + 100):
        problem = seeded(seed)
        order = solve(problem)
        assert order.proven, seed
        assert cheaper(problem, (order.minutes, order.tie)) is None, seed


@pytest.mark.parametrize("block", range(8))
def test_two_thousand_problems_of_this_run_least_first(block: int, seed: int) -> None:
    random = Random(seed * 8 + block)
    for _ in range(250):
        number = random.getrandbits(32)
        problem = seeded(number, 8)
        order, best = solve(problem), least_first(problem)
        assert best is not None
        assert (order.minutes, order.tie, order.proven) == (best.minutes, best.tie, True), number


@pytest.mark.large
@pytest.mark.parametrize("block", range(40))
def test_ten_thousand_problems_least_first(block: int) -> None:
    for seed in range(100_000 + block * 250, 100_000 + block * 250 + 250):
        problem = seeded(seed, 8)
        order, best = solve(problem), least_first(problem)
        assert best is not None
        assert (order.minutes, order.tie, order.proven) == (best.minutes, best.tie, True), seed


@given(problems(7))
def test_the_checker_accepts_the_plain_order_at_its_own_cost(problem: Problem) -> None:
    best = least_first(problem)
    assert best is not None
    cost = check.recompute(problem, best.steps)
    assert (cost.minutes, cost.tie) == (best.minutes, best.tie)


def _all_terms_kept(_: Space, __: int, before: list[int]) -> list[int]:
    return sorted(set(before))


def _every_value(_: Space, __: int, values: tuple[int, ...], *___: object) -> list[int]:
    return list(values)


_PLAN = Space._plan


def _never_safe(space: Space, need: int, setting: int) -> object:
    return replace(_PLAN(space, need, setting), safe=False)


REDUCTIONS = {
    "terms as they stand": ("_simplify", _all_terms_kept),
    "no value marked useless": ("canonical", lambda _, __, setting: setting),
    "no forced move": ("_plan", _never_safe),
    "no value dropped": ("_worthwhile", _every_value),
}


@pytest.mark.parametrize(
    "off", [*[[name] for name in REDUCTIONS], [*REDUCTIONS]], ids=[*REDUCTIONS, "none at all"]
)
def test_reductions_leave_the_cost(off: list[str], monkeypatch: pytest.MonkeyPatch) -> None:
    cases = [seeded(seed, 7) for seed in range(5000, 5080)]
    with_all = [solve(problem) for problem in cases]
    for name in off:
        monkeypatch.setattr(Space, *REDUCTIONS[name])
    for problem, order in zip(cases, with_all, strict=True):
        bare = solve(problem)
        assert bare.proven
        assert (bare.minutes, bare.tie) == (order.minutes, order.tie)


@given(problems(7))
def test_permuting_renaming_and_doubling_leave_the_cost(problem: Problem) -> None:
    order = solve(problem)
    for other in (permuted(problem, Random(1)), renamed(problem)):
        same = solve(other)
        assert (same.minutes, same.tie) == (order.minutes, order.tie)
    assert solve(doubled(problem)).minutes == order.minutes


@given(problems(7))
def test_going_on_half_way_costs_what_is_left(problem: Problem) -> None:
    order = solve(problem)
    half = len(order.steps) // 2
    first = order.steps[:half]
    held = dict(first[-1].state) if first else dict(problem.start)
    rest = solve(
        replace(problem, start=held, done=problem.done | {step.operation for step in first})
    )
    if problem.first_setting_free:  # what start sets is paid for, what it leaves is still free
        assert rest.proven
    finished = check.recompute(problem, [*first, *rest.steps])
    assert finished.minutes == order.minutes
