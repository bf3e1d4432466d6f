"""What is said of the year is said only of leaves whose year was worked out, and that have what it
is said of."""

from __future__ import annotations

import re

import pytest

from sequencer.facts import feels
from sequencer.instructions.figures import Scale
from sequencer.plan import Plan
from sequencer.saw.measures import What
from sequencer.sheets import html
from sequencer.sheets.required import required
from sequencer.sheets.season import seasons
from sequencer.wording import for_plan
from tests.stages import to_plan

DOOR = """
unit = "in"
species = "cherry"
[stock]
thickness = "3/4"
{more}
[[door]]
[door.opening]
width = "14"
height = "16"
"""
CLIMATE = """[wood]
moisture = "8"
[room]
driest = "6"
wettest = "11"
"""
SLAB = """[slab]
boards = 4
"""
OVERLAY = """[sits]
how = "overlay"
"""


def made(*more: str) -> Plan:
    return to_plan(DOOR.format(more="".join(more)))


def named(plan: Plan) -> set[str]:
    lines = required(plan, Scale.of(plan, for_plan(plan)))
    return {line.what for line in lines}


def test_what_holds_all_year_is_told_so_only_where_the_year_is_known() -> None:
    over_year = {
        "The free side’s gap at its narrowest in the year",
        "A panel’s play across the grain, at its widest",
        "A panel’s edge in each groove, at its narrowest",
    }
    plain = {
        "The free side’s gap",
        "A panel’s play across the grain",
        "A panel’s edge in each groove",
    }
    assert named(made()) & (over_year | plain) == plain
    assert named(made(CLIMATE)) & (over_year | plain) == over_year


@pytest.mark.parametrize("sits", ["", OVERLAY])
def test_a_door_with_nothing_to_leave_today_is_told_of_nothing(sits: str) -> None:
    """A slab that laps over has no gap; its year is its width."""
    plan = made(SLAB, CLIMATE, sits)
    (year,) = seasons(plan, Scale.of(plan, for_plan(plan)))
    assert bool(year.leave) == (not sits)
    assert not re.search(r"today:\s*</p>", html(plan, "letter"))


@pytest.mark.parametrize("sits", ["", OVERLAY])
def test_a_slab_closes_its_gap_only_where_it_has_one(sits: str) -> None:
    plan = made(SLAB, sits)
    (check,) = (each for each in plan.checkpoints if each.measure.what is What.SLAB_WIDTH)
    lapping = feels.SLAB_ACROSS_GRAIN_LAPPING()
    assert check.feel == (lapping if sits else feels.SLAB_ACROSS_GRAIN())
