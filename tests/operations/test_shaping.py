"""Bench work on shapes, laps and lights: when it is done, and what is to be measured."""

from __future__ import annotations

from fractions import Fraction

import networkx as nx
import pytest

from sequencer.cuts.model import Operation
from sequencer.doors import make_leaves
from sequencer.facts import Fact, Length, feels, reasons
from sequencer.job.shop import default_shop
from sequencer.measured import Measured
from sequencer.methods import Choices
from sequencer.operations import Context, Work, make_operations
from sequencer.operations.precedence import graph
from sequencer.saw.kinds import KINDS
from tests.stages import to_job, to_leaves, to_operations, to_plan, to_work

DOOR = """
unit = "in"
species = "cherry"
[stock]
thickness = "3/4"
[[door]]
[door.opening]
width = "12-3/16"
height = "20"
"""
"""A leaf of 12 in, with stiles of 2 in: a span of 8."""
ARCH = DOOR + '[door.shape]\nkind = "arch"\nrise = "2"\n'
SLOPE = DOOR + '[door.shape]\nkind = "valley"\nrise = "1"\n'


def told(operation: Operation) -> dict[str, Fraction]:
    return {str(check.measure): check.target for check in operation.checks}


@pytest.fixture(scope="module")
def work() -> Work:
    return to_work(ARCH)


@pytest.mark.parametrize(
    ("before", "after", "reason"),
    [
        ("A3/cheek-A", "A3/shape", reasons.SHAPED()),
        ("A3/edge-cheek-B", "A3/shape", reasons.SHAPED()),
        ("A3/shape", "A3/shaped-groove", reasons.FOLLOWS()),
        ("A3/shaped-groove", "A/dry-fit", reasons.WHOLE_JOINT()),
        ("A5/crosscut", "A5/shape", reasons.LENGTH()),
        ("A5/shape", "A/finish", reasons.SIZED()),
    ],
)
def test_when_a_shape_is_made(work: Work, before: str, after: str, reason: Fact) -> None:
    made = graph(work.operations, work.edges)
    assert made.edges[before, after]["reason"] == reason


def test_the_panel_is_shaped_after_the_dry_fit(work: Work) -> None:
    made = graph(work.operations, work.edges)
    assert nx.has_path(made, "A/dry-fit", "A5/shape")


def test_kinds_stand_in_an_order_that_every_edge_agrees_with(work: Work) -> None:
    ranks = dict(zip((o.id for o in work.operations), work.ranks, strict=True))
    assert all(ranks[edge.before] <= ranks[edge.after] for edge in work.edges)
    assert {o.kind for o in work.operations} <= set(KINDS)


def test_an_arch_is_laid_out_from_its_radius_and_its_ordinates() -> None:
    """Span 8 and rise 2: radius 5; 1 in from either shoulder, 3 from the middle, 4 − 3 = 1 high.
    The others by √(25 − d²) − 3. Measured are the middle and a quarter of the span."""
    (leaf,) = to_leaves(ARCH)
    assert leaf.shaped is not None
    marks = leaf.shaped.rail_marks
    assert [mark.at for mark in marks] == [0, 1, 2, 3, 4]
    assert [float(mark.height) for mark in marks] == [0, 1, 1.583, 1.899, 2]
    assert [mark.end for mark in marks] == ["either"] * 4 + ["middle"]
    made = to_operations(ARCH)
    assert told(made["A3/shape"]) == {
        "span": Fraction(8),
        "arch": Fraction(5),
        "edge-height/from-either:2 in": Fraction("1.583"),
        "edge-height/middle": Fraction(2),
    }
    along = feels.BATTEN(step=Length(Fraction(1, 1000), "in"))
    assert made["A3/shape"].checks[-1].feel == feels.FROM_LOWER_EDGE(along=along)


def test_the_panels_top_is_laid_out_from_its_own_ends() -> None:
    """11/64 in in the groove of 1/4: radius 5 11/64. The long edge lies 3/16 in the stile's groove,
    4 3/16 from the middle: √(5.171875² − 4.1875²) = 3.035 against 5.171875, 2.136 to 2.137 down."""
    checks = told(to_operations(ARCH)["A5/shape"])
    assert checks["panel-arch"] == 5 + Fraction(11, 64)
    corner = checks["panel-top/either"]
    assert Fraction("2.136") <= corner <= Fraction("2.138")
    # As far in as the rail's marks and 3/16 more.
    one = checks["panel-top/from-either:35/16 in"]
    assert abs(float(one) - (5.171875 - (5.171875**2 - 4) ** 0.5)) < 0.0011


def test_the_groove_is_set_up_from_the_marked_face() -> None:
    """15/64 wide in the middle of 3/4: it begins 33/128 from either face, whichever is marked."""
    checks = told(to_operations(ARCH)["A3/shaped-groove"])
    assert checks == {
        "shaped-groove-place": Fraction(33, 128),
        "shaped-groove-width": Fraction(15, 64),
        "shaped-groove-depth": Fraction(1, 4),
    }


def test_a_slope_is_laid_out_from_its_two_ends() -> None:
    checks = told(to_operations(SLOPE)["A3/shape"])
    assert checks == {
        "span": Fraction(8),
        "edge-height/left": Fraction(1),
    }
    (corner,) = told(to_operations(SLOPE)["A5/shape"]).items()
    assert corner[0] == "panel-top/right"
    # 8 3/8 of the slope of 1 in 8.
    assert abs(corner[1] - Fraction(67, 64)) <= Fraction(1, 64)


@pytest.mark.parametrize(
    ("text", "openings"),
    [
        (DOOR, {"opening-width": 8, "opening-height": Fraction(253, 16)}),
        (
            ARCH,
            {
                "opening-width": 8,
                "opening-height/stiles": Fraction(221, 16),
                "opening-height/middle": Fraction(253, 16),
            },
        ),
        (
            SLOPE,
            {
                "opening-width": 8,
                "opening-height/left": Fraction(253, 16),
                "opening-height/right": Fraction(237, 16),
            },
        ),
        (
            DOOR + '[[door.bar]]\nkind = "mid rail"\n',
            {
                "opening-width": 8,
                "each-width": 8,
                "each-height": Fraction(221, 32),
            },
        ),
        (
            # The upper light is as high in the arch's middle as the lower one, and no wise alike.
            ARCH + '[[door.bar]]\nkind = "mid rail"\nwidth = "1"\nat = "9-29/32"\n',
            {
                "opening-width": 8,
                "light-width:1": 8,
                "light-height/lowest:1": Fraction(173, 32),
                "light-height/highest:1": Fraction(237, 32),
                "light-width:2": 8,
                "light-height:2": Fraction(237, 32),
            },
        ),
        (
            DOOR + '[[door.bar]]\nkind = "mullion"\nwidth = "1"\nat = "5"\n',
            {
                "opening-height": Fraction(253, 16),
                "light-width:1": Fraction("2.5"),
                "light-height:1": Fraction(253, 16),
                "light-width:2": Fraction("4.5"),
                "light-height:2": Fraction(253, 16),
            },
        ),
    ],
)
def test_what_the_dry_frame_is_measured_for(text: str, openings: dict[str, Fraction]) -> None:
    checks = told(to_operations(text)["A/dry-fit"])
    checks.pop("diagonals")
    assert checks == openings


def test_under_a_shape_diagonals_are_taken_over_the_stiles_ends() -> None:
    """12 in and 19 13/16 + 10/64: √(144 + 19.96875²) = 23.297."""
    checks = told(to_operations(SLOPE)["A/diagonals"])
    assert checks["diagonal/outside"] == Fraction("23.297")


@pytest.mark.parametrize("text", [ARCH, SLOPE, ARCH + '[[door.bar]]\nkind = "mid rail"\n'])
def test_a_shaped_leaf_is_proven_but_for_its_shape(text: str) -> None:
    made = to_plan(text)
    assert made.proven
    kinds = [step.kind for step in made.steps]
    order = ["shape", "shaped groove", "dry fit", "shape panel", "finish"]
    assert [kind for kind in kinds if kind in order] == order


def test_a_rail_made_again_is_shaped_again() -> None:
    job = to_job(ARCH)
    whole = {o.id for o in to_work(ARCH).operations}
    assert {"A3/shape", "A3/shaped-groove", "A5/shape"} <= whole
    shop = default_shop("in")
    blade = shop.joinery_blade
    leaves = make_leaves([job], blade.kerf, Measured(), Choices())
    context = Context("in", shop, Choices(), blade, blade.kerf)
    again = {o.id for o in make_operations(leaves, context, frozenset({"A3"})).operations}
    assert {"A3/shape", "A3/shaped-groove"} <= again
    assert "A5/shape" not in again
