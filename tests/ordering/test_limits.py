"""What ends a search: proof, or the limit that was given, and no other."""

from __future__ import annotations

import json
import subprocess
import sys
import time

import pytest

from sequencer.ordering import Problem, as_json, check, solve, solver
from sequencer.ordering.budget import LOOK_EVERY, Budget, taken_megabytes
from tests.benchmarks.doors import anywhere, job

FEW = 200


@pytest.fixture(scope="module")
def hard() -> Problem:
    """Twenty doors on 1/8 in: not proven within a second."""
    return job(anywhere(20, 1)).problem


def test_seconds_given_are_seconds_used(hard: Problem, monkeypatch: pytest.MonkeyPatch) -> None:
    """With as few states as usual it is over at once; the seconds do not ask for them."""
    monkeypatch.setattr(solver, "DEFAULT_STATES", FEW)
    assert solve(hard).limit == "states"
    begun = time.monotonic()
    order = solve(hard, seconds=0.5)
    assert order.limit == "seconds"
    assert time.monotonic() - begun >= 0.5
    assert check.recompute(hard, order.steps).minutes == order.minutes >= order.bound


def test_states_given_beside_seconds_are_kept(hard: Problem) -> None:
    assert solve(hard, max_states=FEW, seconds=600).limit == "states"


def test_seconds_end_with_the_proof(monkeypatch: pytest.MonkeyPatch) -> None:
    problem = job(anywhere(2, 1)).problem
    monkeypatch.setattr(solver, "DEFAULT_STATES", 1)
    order = solve(problem, seconds=600)
    assert (order.proven, order.limit) == (True, None)


def test_memory_that_runs_out_is_named(hard: Problem) -> None:
    order = solve(hard, seconds=600, megabytes=1)
    assert order.limit == "memory"
    assert order.bound < order.minutes


def test_memory_is_looked_at_now_and_then() -> None:
    budget = Budget(None, None, megabytes=1)
    assert taken_megabytes() is not None
    assert [budget.out() for _ in range(LOOK_EVERY)] == [False] * (LOOK_EVERY - 1) + [True]


def test_without_a_measure_of_memory_states_are_the_limit(
    hard: Problem, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("sequencer.ordering.budget.resource", None)
    monkeypatch.setattr(solver, "MOST_STATES", FEW)
    assert solve(hard, seconds=600).limit == "states"


def test_the_command_says_that_memory_ended_it(hard: Problem) -> None:
    done = subprocess.run(
        [sys.executable, "-m", "sequencer.ordering", "-", "--seconds", "60", "--megabytes", "1"],
        input=json.dumps(as_json(hard)), capture_output=True, text=True, check=True,
    )  # fmt: skip
    assert json.loads(done.stdout)["proven"] is False
    assert done.stderr.startswith("the limit of memory ended the search; at most ")
