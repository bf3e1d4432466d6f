"""What is asked of lights goes by the checks that measure them: between the very pieces, and along
a shaped edge where it is lowest."""

from __future__ import annotations

from fractions import Fraction

import pytest

from sequencer.lengths import mixed
from sequencer.plan import Plan
from sequencer.plan.requirements import Requirement
from tests.stages import to_plan

PAIR = """
unit = "in"
[stock]
thickness = "3/4"
edge_allowance = "1/32"
[stiles]
hinge = "2"
meeting = "1-1/2"
[rails]
top = "2-1/4"
bottom = "2-1/2"
{shape}
[[bar]]
kind = "mid rail"
width = "1-3/4"
at = "{at}"
[[door]]
leaves = 2
[door.opening]
width = "27-1/2"
height = "26"
"""
ARCH = """[shape]
kind = "{kind}"
rise = "1-1/4"
"""


def made(kind: str, at: str = "9") -> Plan:
    return to_plan(PAIR.format(shape=ARCH.format(kind=kind) if kind else "", at=at))


def height(plan: Plan) -> Requirement:
    (found,) = (each for each in plan.requirements if each.what == "height-in-opening")
    return found


def read(plan: Plan, required: Requirement) -> set[str]:
    """What the checks measure by which something holds."""
    return {
        str(plan.checkpoints[share.checkpoint].measure)
        for share in required.share
        if share.checkpoint is not None
    }


@pytest.mark.parametrize("kind", ["arch", "peak", "valley"])
def test_a_leaf_with_a_shaped_rail_goes_into_its_opening_as_one_without(kind: str) -> None:
    """What the year and windows leave above and below is the same, but for what a rail that is
    wider by the rise moves; and both lights are measured for it."""
    straight, shaped = made(""), made(kind)
    assert height(straight).worst_least > 0
    assert height(shaped).worst_least > 0
    assert abs(height(shaped).worst_least - height(straight).worst_least) < Fraction(1, 64)


def test_lights_of_a_shaped_rail_are_read_where_it_is_lowest() -> None:
    plan = made("arch")
    measures = {str(check.measure) for check in plan.checkpoints}
    assert {"light-height/lowest:1", "light-height/highest:1", "light-height:2"} <= measures
    assert read(plan, height(plan)) == {"light-height/lowest:1", "light-height:2"}


def test_a_light_that_is_as_high_as_another_in_the_middle_is_not_read_for_it() -> None:
    """Both are 9 21/32 in then, the upper one where it is highest."""
    plan = made("arch", "13")
    by = {str(check.measure): check for check in plan.checkpoints}
    off = by["light-height/highest:1"].exact - by["light-height:2"].exact
    moved = 13 + off / 2
    plan = made("arch", mixed(moved))
    by = {str(check.measure): check for check in plan.checkpoints}
    assert by["light-height/highest:1"].exact == by["light-height:2"].exact
    assert read(plan, height(plan)) == {"light-height/lowest:1", "light-height:2"}
