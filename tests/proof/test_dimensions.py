"""What a measure at the bench should read, worked out from places: by hand; nothing where there is
no such thing."""

from __future__ import annotations

from collections.abc import Callable
from fractions import Fraction as F  # noqa: N817

import pytest

from sequencer.plan import Measure, Plan
from sequencer.proof.dimensions import FOUND, On
from sequencer.proof.standing import Standing
from sequencer.records import replace
from sequencer.saw.measures import What
from tests.proof import hand
from tests.proof.leaves import arched, flat, slab

SHAPED = ("span", "arch", "edge-height", "shaped-groove-place", "shaped-groove-width",
          "shaped-groove-depth", "panel-arch", "panel-top")  # fmt: skip


def reads(what: str, mark: str, plan: Plan | None, place: str = "") -> set[F]:
    """What the measure reads on a piece or leaf; with no plan, on one of another plan's."""
    made = hand.make()
    check = replace(made.checkpoints[0], measure=Measure(What(what), place), marks=(mark,))
    leaf = None if plan is None else Standing.of(plan, plan.doors[0])
    return set(FOUND[what](On(check, mark, leaf, made.steps[0])))


@pytest.mark.parametrize("what", SHAPED)
@pytest.mark.parametrize("plan", [flat, slab])
def test_a_straight_leaf_has_nothing_shaped(what: str, plan: Callable[[], Plan]) -> None:
    """Neither its top rail A3 nor its panel A5, nor a slab."""
    for mark in ("A", "A1", "A3", "A5"):
        assert reads(what, mark, plan(), "either") == set()


@pytest.mark.parametrize("what", FOUND)
def test_nothing_is_read_where_the_leaf_is_in_another_plan(what: str) -> None:
    """But of diagonals, whose difference is nought on any leaf."""
    nothing = {F(0)} if what == "diagonals" else set()
    assert reads(what, "A3", None, "either") == nothing


def test_an_arched_panel_by_hand() -> None:
    """A chord of 200 and 30 high: (100² + 30²) / 60 = 181 2/3 to the rail's edge. The panel's is
    about the same centre, and 8 higher."""
    assert reads("panel-arch", "A5", arched()) == {F(100**2 + 30**2, 60) + 8}
    assert reads("opening-width", "A", arched()) == {F(200)}
