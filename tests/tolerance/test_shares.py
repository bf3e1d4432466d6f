"""Shares at the first try against trying it: the same saw, read and corrected so many times by
chance, and whole shops that follow the printed order (`tests.simulator.shops`)."""

from __future__ import annotations

from pathlib import Path
from random import Random

import pytest

from sequencer.tolerance.likely import accepted, milled
from tests import spaced
from tests.proof.test_intent import EXAMPLES, example
from tests.simulator.scale import Json
from tests.simulator.shops import random_plans, read, simulated
from tests.simulator.shopwork import SHOPS
from tests.stages import to_plan

ORDINARY = next(shop for shop in SHOPS if shop.name == "ordinary")
SETTINGS = [
    # window, first setting, move, passes, one pass, reading: millimetres
    (-0.05, 0.05, 0.30, 0.10, 2, 0.03, 0.02),
    (-0.05, 0.05, 0.15, 0.05, 1, 0.03, 0.02),
    (-0.03, 0.03, 0.15, 0.05, 1, 0.03, 0.01),
    (-0.02, 0.06, 0.15, 0.05, 1, 0.02, 0.02),
    (0.0, 0.4, 0.15, 0.05, 1, 0.03, 0.02),
    (-0.4, 0.2, 0.15, 0.05, 1, 0.03, 0.02),  # hardly ever tried more than twice
    (-0.15, 0.15, 0.40, 0.10, 2, 0.06, 0.04),
]


def tried(
    chance: Random, low: float, high: float, wide: float, moved: float, passes: int, sigma: float,
    wrong: float,
) -> tuple[float, float, int]:  # fmt: skip
    """A setting as it is once it is accepted, what a pass of the last try was off, and tries."""
    at, tries = chance.gauss(0, wide), 0
    while True:
        tries += 1
        made = [chance.gauss(0, sigma) for _ in range(passes)]
        found = at + sum(made) + chance.uniform(-wrong, wrong)
        if low <= found <= high:
            return at, made[0], tries
        at += chance.gauss(0, moved) - found


@pytest.mark.parametrize("given", SETTINGS, ids=str)
def test_what_was_accepted_is_as_it_is_by_chance(
    given: tuple[float, float, float, float, int, float, float], seed: int
) -> None:
    chance, times = Random(seed), 20_000
    found = [tried(chance, *given) for _ in range(times)]
    worked = accepted(*given)
    low, high, sigma = given[0], given[1], given[5]
    for bound in (low, (low + high) / 2, high, high + sigma, low - sigma):
        share = sum(at <= bound for at, _, _ in found) / times
        assert abs(share - _under(worked.value.places(), worked.value.shares, bound)) < 0.02
        assert abs(sum(tries == 1 for *_, tries in found) / times - worked.first) < 0.02
    if given[4] == 1:
        for bound in (-sigma, 0.0, sigma):
            share = sum(off <= bound for _, off, _ in found) / times
            assert abs(share - _under(worked.passed.places(), worked.passed.shares, bound)) < 0.02
    mean = sum(tries for *_, tries in found) / times
    assert abs(mean - worked.tries) < 0.03 * mean


def _under(places: list[float], shares: tuple[float, ...], bound: float) -> float:
    """The share below, half of the place itself counted."""
    step = places[1] - places[0]
    return sum(
        share * min(1.0, max(0.0, (bound - at) / step + 0.5))
        for at, share in zip(places, shares, strict=True)
    )


def test_thickness_inside_its_window(seed: int) -> None:
    chance, times, sigma = Random(seed), 30_000, 0.03
    found: list[float] = []
    while len(found) < times:
        off = chance.gauss(0, sigma)
        if -0.04 <= off + chance.uniform(-0.02, 0.02) <= 0.04:
            found.append(off)
    worked = milled(-0.04, 0.04, sigma, 0.02, 0.0075)
    for bound in (-0.04, -0.02, 0.0, 0.02, 0.05):
        share = sum(off <= bound for off in found) / times
        assert abs(share - _under(worked.places(), worked.shares, bound)) < 0.02


FEW, MANY = 200, 20_000
NEAR = 0.01
FRAMED = [path for path in EXAMPLES if path.parent.name != "key-cupboard"]


def _holds(name: str, plan: Json, leaves: int, chance: Random) -> None:
    """No must that holds at the worst is ever broken, and joints go together as often as told:
    within 0.01, or what chance leaves open. Joints of one job share their settings; the share of
    one job's joints is off its mean by about 0.3, one sigma."""
    near = max(NEAR, 4.5 * 0.3 / (leaves / len(plan["doors"])) ** 0.5)
    tally = simulated(plan, ORDINARY, leaves, chance)
    seen = [count for count in tally.counts.values() if count.seen]
    assert seen, name
    for count in seen:
        if count.told is not None:
            assert abs(count.inside / count.seen - count.told) < near, (name, count)
        elif count.holds:
            assert count.inside == count.seen, (name, count)


@pytest.mark.parametrize("path", FRAMED, ids=lambda path: path.parent.name)
def test_shops_make_the_examples(path: Path, seed: int, large: bool) -> None:
    leaves = MANY if large else FEW
    plan = read(example(path))
    _holds(path.parent.name, plan, leaves, Random(seed))


def test_shops_make_a_door_with_blocks(seed: int, large: bool) -> None:
    """What is cut with a block between jig and piece."""
    plan = to_plan(spaced.JOB, spaced.SHOP)
    assert any(setup.spacer for setup in plan.setups)
    _holds("blocks", read(plan), MANY if large else FEW, Random(seed))


@pytest.mark.large
def test_shops_make_random_doors(seed: int) -> None:
    drawn = random_plans(seed % 10_000)
    for _ in range(10):
        name, plan = next(drawn)
        _holds(name, plan, MANY, Random(seed))


def test_a_window_that_nothing_leaves() -> None:
    """Set as it is, and never corrected."""
    worked = accepted(-10.0, 10.0, 0.15, 0.05, 1, 0.03, 0.02)
    assert abs(worked.first - 1) < 1e-6
    assert abs(worked.tries - 1) < 1e-6
    assert abs(worked.value.variance - 0.15**2) < 1e-4
