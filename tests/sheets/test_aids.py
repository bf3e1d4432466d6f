"""Aids on paper: listed the evening before with their wood, fitted and taken off in their place."""

from __future__ import annotations

from fractions import Fraction

import pytest

from sequencer.instructions.aids import entered, taken_off
from sequencer.instructions.figures import Scale
from sequencer.job.load import load_job
from sequencer.job.shop import default_shop
from sequencer.pipeline import plan as make_plan
from sequencer.plan import Plan
from sequencer.records import replace
from sequencer.saw.fittings import CARRIERS
from sequencer.sheets import html
from sequencer.sheets.aids import aids
from sequencer.trade.aids import AIDS
from sequencer.wording import Room
from sequencer.wording.aids import OFF
from tests.reader.whole import cards
from tests.texts import NARROW

ROOM = Room("US", Fraction(1, 64))


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


def test_the_fence_is_set_from_what_the_piece_runs_along(plan: Plan) -> None:
    """The scale tells nothing of an auxiliary fence: no move by it leads onto one or off one, and
    the first number behind it says that it is measured from there; page and paper alike."""
    seen = 0
    job, shop = load_job(NARROW, "job.toml"), default_shop("in")
    shown = {c["n"]: c["moves"] for c in cards(plan, [job], shop)["cards"] if c["kind"] == "set"}
    for setup in plan.setups:
        told = dict(entered(setup.changes, setup, plan, ROOM))
        along, former = map(plan.before_fence, (setup.number, setup.number - 1))
        guided = CARRIERS[setup.carrier].body == "fence"
        if "fence" in told and "push" not in told["fence"]:
            moved = "the blade" in told["fence"]
            assert not (moved and along != former), told["fence"]
            assert ("measured from" in told["fence"]) == (along not in ("", former))
        seen += guided and along != former
        assert along == former or not guided or "fence" in told
        on_page = [move.removesuffix(".").lower() for move in shown[f"setup {setup.number}"]]
        assert [t.lower() for knob, t in told.items() if knob != "guard"] == [
            move for move in on_page if not move.startswith(("take off", "guard"))
        ]
    assert seen


def test_each_setup_ticks_the_aid_that_it_needs(plan: Plan) -> None:
    for aid in plan.aids:
        for number in aid.setups:
            ticked = {t.caution.rule for t in plan.warnings if number in t.setups}
            assert ticked & {rule.partition("-")[0] for rule in AIDS[aid.name].answers}
