"""The opening that a panel's year is reckoned from: the one drawn, until the leaf is fitted dry."""

from __future__ import annotations

from fractions import Fraction

import pytest

from sequencer.errors import InternalError
from sequencer.plan import Plan, Three
from sequencer.proof.seasons import check_seasons
from sequencer.records import replace
from tests.stages import to_plan

JOB = """
unit = "mm"
species = "cherry"
[stock]
thickness = "20"
[joint]
slot = "6"
[groove]
depth = "8"
[wood]
moisture = "8"
[room]
driest = "7 %"
wettest = "10 %"
[[door]]
opening = { width = "400", height = "500" }
"""


def in_opening(plan: Plan, more: Fraction) -> Plan:
    """The plan with its panel's year reckoned from an opening wider by so much, all else alike."""
    (season,) = plan.seasons
    (panel,) = season.panels
    wider = replace(
        panel,
        sight=panel.sight + more,
        reach=_each(panel.reach, -more / 2),
        leave=_each(panel.leave, more / 2),
    )
    return replace(plan, seasons=(replace(season, panels=(wider,)),))


def _each(figures: Three, more: Fraction) -> Three:
    driest, today, wettest = figures
    return driest + more, today + more, wettest + more


def test_only_a_leaf_that_was_fitted_dry_has_another_opening_than_drawn() -> None:
    plan = to_plan(JOB)
    wider = in_opening(plan, Fraction("0.4"))
    with pytest.raises(InternalError, match="other-season"):
        check_seasons(wider)
    (dry,) = (step for step in plan.steps if step.kind == "dry fit")
    check_seasons(wider, frozenset({(dry.number, "A")}))


def test_a_measured_opening_still_holds_its_panel_all_year() -> None:
    plan = to_plan(JOB)
    (dry,) = (step for step in plan.steps if step.kind == "dry fit")
    with pytest.raises(InternalError, match="binds"):
        check_seasons(in_opening(plan, Fraction(-16)), frozenset({(dry.number, "A")}))
