"""Aids: what was refused for want of one is planned with it, named, ticked, made before and priced.

Each job here was refused, though guidance names what would do: a tall fence and a board clamped to
a panel (a magazine on tall fences for panels, text seen), a clamp for what is less than 6 in long
(manuals of US table saws, texts seen), a low auxiliary fence and its block under 2 in (the same).
"""

from __future__ import annotations

from fractions import Fraction

import pytest

from sequencer.facts import claims
from sequencer.job.load import load_job
from sequencer.job.schema import Shop
from sequencer.job.shop import default_shop
from sequencer.pipeline import plan as make_plan
from sequencer.plan import Aid, Plan
from sequencer.records import replace
from sequencer.safety.review import Unsafe
from sequencer.safety.rules import load
from sequencer.trade.aids import AIDS, KEYS

F = Fraction

FRAME = """
unit = "in"
species = "cherry"
[stock]
thickness = "3/4"
[stiles]
hinge = "{stile}"
[rails]
top = "2"
{more}
[[door]]
[door.opening]
width = "{width}"
height = "{height}"
"""

RAISED = """
[groove]
width = "1/4"
[panel]
thickness = "9/16"
[raised]
bevel = "1-1/4"
"""


def job(width: str, height: str, more: str = "", stile: str = "2") -> str:
    return FRAME.format(width=width, height=height, more=more, stile=stile)


def planned(text: str, shop: Shop | None = None) -> Plan:
    return make_plan([load_job(text, "job.toml")], shop or default_shop("in"))


def without_clamp() -> Shop:
    shop = default_shop("in")
    return replace(shop, sled=replace(shop.sled, clamp=False))


def with_fence(height: int) -> Shop:
    shop = default_shop("in")
    return replace(shop, saw=replace(shop.saw, fence_height=F(height)))


def aids(plan: Plan) -> dict[str, Aid]:
    return {aid.name: aid for aid in plan.aids}


def holds(plan: Plan, name: str, rule: str) -> Aid:
    """The aid, made before; ticked by its rule at each of its setups; its minutes told."""
    aid = aids(plan)[name]
    assert not aid.at_hand
    assert aid.boards
    asked = [tick for tick in plan.warnings if tick.caution.rule == rule]
    assert asked
    assert {n for tick in asked for n in tick.setups} <= set(aid.setups)
    runs = sum(n - 1 not in aid.setups for n in aid.setups)
    assert aid.minutes == AIDS[name].made + runs * AIDS[name].fitted > 0
    total = sum((each.minutes for each in plan.aids), F(0))
    assert claims.AIDS(could_save=total) in plan.ordering.left_out
    return aid


@pytest.mark.parametrize("width", ["9", "8 1/2"])
def test_a_raised_panel_of_4_to_6_in_rides_the_tall_fence_as_a_wider_one_does(width: str) -> None:
    plan = planned(job(width, "20", RAISED))
    (panel,) = (part for part in plan.parts if part.role == "panel")
    assert 4 < panel.size.width < 6
    holds(plan, "riding-board", "B08")
    wide = planned(job("13", "20", RAISED))
    assert "riding-board" in aids(wide)


def test_a_narrower_panel_stays_refused() -> None:
    with pytest.raises(Unsafe) as caught:
        planned(job("7", "20", RAISED.replace("1-1/4", "1")))
    assert {each.rule for each in caught.value.refusals} == {"J01"}


@pytest.mark.parametrize("height", [2, 3, 5])
def test_whoever_states_a_low_fence_is_no_worse_off_than_who_is_silent(height: int) -> None:
    """The panel stands 16 in tall on its end: half of it, 8 in at most, is to lie on the fence."""
    text = job("15", "20", RAISED)
    told, silent = planned(text, with_fence(height)), planned(text)
    tall = holds(told, "tall-fence", "E05")
    assert tall.boards[0].size.width >= 8 or tall.boards[0].size.width * 2 >= 16
    assert aids(silent)["tall-fence"].boards == tall.boards
    assert "tall-fence" not in aids(planned(text, with_fence(8)))


@pytest.mark.parametrize("width", ["8 1/2", "7"])
def test_a_short_rail_on_a_sled_without_a_clamp_gets_one(width: str) -> None:
    """Rails under 8 1/2 in were refused: the hand would be within 3 in of the blade."""
    plan = planned(job(width, "20"), without_clamp())
    holds(plan, "sled-clamp", "B04")
    assert "sled-clamp" not in aids(planned(job(width, "20")))


def test_a_narrow_rip_has_its_fence_and_block() -> None:
    plan = planned(job("15", "20", stile="1 3/4"))
    aid = holds(plan, "narrow-rip-fence", "B06")
    rips = {s.number for s in plan.setups if s.guard == "fitted" and (s.guide or 0) < 2}
    assert set(aid.setups) == rips
    assert "narrow-rip-fence" not in aids(planned(job("15", "20")))


def test_what_is_at_hand_is_not_made() -> None:
    shop = default_shop("in")
    plan = planned(
        job("15", "20", stile="1 3/4"), replace(shop, aids=frozenset({"narrow-rip-fence"}))
    )
    aid = aids(plan)["narrow-rip-fence"]
    assert aid.at_hand
    assert aid.made == 0
    assert aid.minutes == AIDS["narrow-rip-fence"].fitted


def test_a_piece_too_tall_for_the_room_is_refused() -> None:
    """A table of 34 in and a ceiling of 8 ft leave 62 in (worked out; the figure is ours)."""
    shop = default_shop("in")
    tall = replace(shop, sled=replace(shop.sled, longest=F(96)))
    with pytest.raises(Unsafe) as caught:
        planned(job("16", "64"), tall)
    assert {each.rule for each in caught.value.refusals} == {"E02"}
    planned(job("16", "59"), tall)
    # What the refusal names is so: stub tenons plan the same door, no stile of it on end.
    stub = planned(job("16", "64", '[joint]\nkind = "stub tenon"'), tall)
    stiles = {part.mark for part in stub.parts if part.role == "stile"}
    cuts = [cut for step in stub.steps for cut in step.cuts]
    assert not [cut for cut in cuts if cut.mark in stiles and cut.down.startswith("end")]


def test_each_aid_answers_rules_that_warn_and_each_key_is_an_aid() -> None:
    known = {
        "-".join(filter(None, (rule.id, name))): case
        for rule in load().by_id.values()
        for name, case in rule.cases.items()
    }
    answered = [rule for row in AIDS.values() for rule in row.answers]
    assert len(answered) == len(set(answered))
    for rule in answered:
        assert known[rule].tick, rule
    for row in AIDS.values():
        assert row.asks
        assert row.made > 0
        assert row.fitted > 0
        for board in row.boards:
            for inch, mm in zip(board.size("in"), board.size("mm"), strict=True):
                assert abs(inch * F(127, 5) / mm - 1) <= F(9, 100)
    assert set(KEYS.values()) == {name for name, row in AIDS.items() if row.stated}
