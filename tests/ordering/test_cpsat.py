"""The search against OR-Tools CP-SAT, on small problems that it can prove.

OR-Tools (https://github.com/google/or-tools, Apache-2.0) shares nothing with the search.
"""

from __future__ import annotations

import pytest

from sequencer.ordering import solve
from tests.benchmarks import cpsat
from tests.ordering.problems import seeded


@pytest.mark.parametrize("block", range(5))
def test_cpsat_agrees_on_small_problems(block: int) -> None:
    for seed in range(7000 + block * 10, 7010 + block * 10):
        problem = seeded(seed, 7)
        answer = cpsat.solve(problem, 60, workers=1)
        assert answer.proven, seed
        assert answer.minutes == solve(problem).minutes, seed
