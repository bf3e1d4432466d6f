"""Aids on paper: listed the evening before with their wood, fitted and taken off in their place."""

from __future__ import annotations

from dataclasses import replace

import pytest

from sequencer.instructions.aids import taken_off
from sequencer.instructions.figures import Scale
from sequencer.job.load import load_job
from sequencer.job.shop import default_shop
from sequencer.pipeline import plan as make_plan
from sequencer.plan import Plan
from sequencer.sheets import html
from sequencer.sheets.aids import aids
from sequencer.trade.aids import AIDS
from sequencer.wording import Room
from sequencer.wording.aids import OFF

NARROW = """
unit = "in"
species = "maple"
[stock]
thickness = "3/4"
[stiles]
hinge = "1-1/4"
[rails]
top = "1-1/4"
[[door]]
[door.opening]
width = "15"
height = "20"
"""
ROOM = Room("US", "paper")


@pytest.fixture(scope="module")
def plan() -> Plan:
    return make_plan([load_job(NARROW, "job.toml")], default_shop("in"))


def test_what_is_not_at_hand_is_made_and_its_wood_is_told(plan: Plan) -> None:
    told = aids(plan, Scale.of(plan, ROOM))
    assert len(told.make) == len(plan.aids) > 1
    assert sum(line.count for line in told.wood) == sum(len(aid.boards) for aid in plan.aids)
    assert told.at_hand == ()
    page = html(plan)
    for line in told.make:
        assert f"<b>{line.name}</b>" in page


def test_what_is_at_hand_is_laid_out(plan: Plan) -> None:
    there = replace(plan, aids=tuple(replace(aid, at_hand=True) for aid in plan.aids))
    told = aids(there, Scale.of(there, ROOM))
    assert (told.make, told.wood) == ((), ())
    assert len(told.at_hand) == len(plan.aids)


def test_each_aid_comes_off_once_its_setups_are_done(plan: Plan) -> None:
    for setup in plan.setups:
        gone = [
            ROOM.text(OFF, aid=ROOM.term(f"aid.{aid.name}"))
            for aid in plan.aids
            if setup.number - 1 in aid.setups and setup.number not in aid.setups
        ]
        assert list(taken_off(plan, setup, ROOM)) == gone


def test_each_setup_ticks_the_aid_that_it_needs(plan: Plan) -> None:
    for aid in plan.aids:
        for number in aid.setups:
            ticked = {t.caution.rule for t in plan.warnings if number in t.setups}
            assert ticked & {rule.partition("-")[0] for rule in AIDS[aid.name].answers}
