"""What is read off a leaf as it stands: lights, and how deep a shaped edge is where."""

from __future__ import annotations

from fractions import Fraction as F  # noqa: N817

import pytest

from sequencer.proof.standing import Standing, shaped_edge
from tests.proof.leaves import arched, boarded


@pytest.fixture(scope="module")
def leaf() -> Standing:
    plan = arched()
    return Standing.of(plan, plan.doors[0])


def test_a_light_under_an_arch_is_measured_where_it_is_highest(leaf: Standing) -> None:
    """By hand: 300 less two stiles of 50; 400 less rails of 80 and 50, and 30 more in the arch."""
    assert leaf.sight == (F(200), F(270))
    assert leaf.lights() == [(F(200), F(300))]
    assert leaf.lights(min) == [(F(200), F(270))]
    bottom, top = leaf.rails
    assert leaf.between() == [(*leaf.stiles, bottom, top)]


def test_an_arch_is_deepest_in_the_middle_and_its_panel_there_highest(leaf: Standing) -> None:
    """By hand: 30 · (1 − (4/6)²) = 16 2/3 at a sixth of the way along."""
    rail = leaf.rails[1]
    (panel,) = leaf.role("panel")
    arch, top = shaped_edge(leaf, rail), shaped_edge(leaf, panel)
    assert arch is not None
    assert top is not None
    sixth = F(200, 6)
    assert arch.across == (F(50), F(250))
    assert arch.at("either") == [50, 250]
    assert [arch.depth(at) for at in (F(50), 50 + sixth, F(150))] == [
        0, F(50, 3), 30,
    ]  # fmt: skip
    beside = 50 - panel.x[0]  # the panel begins in the stile's groove
    assert [top.depth(beside + at) for at in (F(0), sixth, F(100))] == [
        30, F(40, 3), 0,
    ]  # fmt: skip
    assert shaped_edge(leaf, leaf.rails[0]) is None


def test_between_boards_from_shoulder_to_edge() -> None:
    """Each stands 2 beside the shoulder behind the tongue before it."""
    plan = boarded()
    standing = Standing.of(plan, plan.doors[0])
    assert standing.board_gaps(("A5", "A6", "A7")) == [F(2), F(2)]
    assert standing.board_gaps(("A5", "A6")) == [F(2)]
