"""The cheapest next setting, against a plain rendering of the same rule; and what a search that is
cut short owes to it."""

from __future__ import annotations

from fractions import Fraction
from itertools import product

import pytest
from hypothesis import given

from sequencer.ordering import Alternative, Knob, Operation, Placed, Problem, check, solve
from sequencer.ordering.greedy import greedy
from tests.benchmarks.doors import anywhere, job
from tests.ordering.problems import problems, seeded


def plainly(problem: Problem) -> tuple[Placed, ...]:
    """Every ready operation and every way of doing it, weighed anew at each step."""
    knobs = {knob.name: knob for knob in problem.knobs}
    held = dict(problem.start)
    done = set(problem.done)
    steps: list[Placed] = []
    while len(done) < len(problem.operations):
        waits = {later for first, later in problem.before if first not in done}
        ready = [n for n in range(len(problem.operations)) if n not in done and n not in waits]

        def fits(n: int, held: dict[str, str]) -> bool:
            return any(
                all(held.get(name) in values for name, values in way.needs.items())
                for way in problem.operations[n].alternatives
            )

        best: tuple[tuple[Fraction, int, int, int], int, dict[str, str]] | None = None
        for n in ready:
            for number, way in enumerate(problem.operations[n].alternatives):
                unmet = [name for name, values in way.needs.items() if held.get(name) not in values]
                for values in product(*(way.needs[name] for name in unmet)):
                    changed = dict(zip(unmet, values, strict=True))
                    paid = [
                        name for name in unmet if name in held or not problem.first_setting_free
                    ]
                    minutes = way.minutes + sum(knobs[name].cost(changed[name]) for name in paid)
                    tie = sum(knobs[name].tie_cost(value) for name, value in changed.items())
                    after = {**held, **changed}
                    served = sum(fits(other, after) for other in ready) if changed else 0
                    key = (Fraction(minutes), tie, -served, n)
                    if best is None or key < best[0]:
                        best = (key, number, changed)
        assert best is not None
        held |= best[2]
        done.add(best[0][3])
        steps.append(Placed(best[0][3], best[1], dict(held)))
    return tuple(steps)


@given(problems(12))
def test_it_is_the_plain_rule(problem: Problem) -> None:
    assert greedy(problem) == plainly(problem)


@pytest.mark.parametrize("block", range(4))
def test_it_is_the_plain_rule_on_many(block: int) -> None:
    for seed in range(block * 200, block * 200 + 200):
        problem = seeded(seed, 14)
        steps = greedy(problem)
        assert steps == plainly(problem), seed
        check.recompute(problem, steps)


def test_operations_that_wait_for_each_other_are_told() -> None:
    cuts = tuple(Operation(f"o{n}", (Alternative({"k": ("p",)}),)) for n in range(2))
    ring = Problem((Knob("k", Fraction(1)),), cuts, ((0, 1), (1, 0)))
    with pytest.raises(ValueError, match="waits for one"):
        greedy(ring)


@pytest.mark.parametrize("states", [0, 1, 30, 200, 1000])
def test_a_search_cut_short_is_no_worse_and_says_what_none_can_beat(states: int) -> None:
    problem = job(anywhere(8, 1)).problem
    best = solve(problem)
    order = solve(problem, max_states=states)
    quick = check.recompute(problem, greedy(problem))
    assert best.proven
    assert order.bound <= best.minutes <= order.minutes <= quick.minutes
    assert order.proven == (order.bound == order.minutes)
    assert check.recompute(problem, order.steps).minutes == order.minutes
    assert states >= 1000 or order.limit == "states"
