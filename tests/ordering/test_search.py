"""The parts of the search by themselves, where the whole would make up for a slip of one."""

from __future__ import annotations

from random import Random

from sequencer.ordering import solve
from sequencer.ordering.budget import Budget
from sequencer.ordering.model import Model
from sequencer.ordering.search import Search
from tests.ordering.problems import seeded


def test_a_beam_that_drops_nothing_finds_the_best(seed: int) -> None:
    """Of two ways to one state it keeps the cheaper."""
    chance = Random(seed)
    for _ in range(60):
        number = chance.getrandbits(32)
        problem = seeded(number, 8)
        model = Model(problem)
        search = Search(model, Budget(None, None))
        search.beam(1_000_000)
        assert model.minutes(search.upper + model.base) == solve(problem).minutes, number
