"""Aids on paper: listed the evening before with their wood, fitted and taken off in their place."""

from __future__ import annotations

from dataclasses import replace

import pytest

from sequencer.instructions.aids import aid_turns
from sequencer.instructions.figures import Scale
from sequencer.job.load import load_job
from sequencer.job.shop import default_shop
from sequencer.pipeline import plan as make_plan
from sequencer.plan import Plan
from sequencer.sheets import html
from sequencer.sheets.aids import aids
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


def test_each_aid_goes_on_before_its_setups_and_comes_off_behind_them(plan: Plan) -> None:
    on: set[str] = set()
    for setup in plan.setups:
        for line in aid_turns(plan, setup, ROOM):
            gone = [n for n in on if line == ROOM.text(OFF, aid=ROOM.term(f"aid.{n}"))]
            named = [a.name for a in plan.aids if ROOM.term(f"aid.{a.name}") in line]
            assert len(named) == 1
            if gone:
                on -= set(gone)
            else:
                assert named[0] not in on
                on |= set(named)
        assert on == {aid.name for aid in plan.aids if setup.number in aid.setups}
