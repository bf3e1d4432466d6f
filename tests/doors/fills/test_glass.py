"""Glass: panes by the glazier's rule, stops that leave it room, and what is refused."""

from __future__ import annotations

from fractions import Fraction

import pytest

from sequencer import contract, sheets
from sequencer.errors import Refusal
from sequencer.facts import fills, parts
from sequencer.job.kinds import Glazed
from sequencer.plan import Order
from sequencer.trade.glass import CUT_BAND, PANE_OVER, SHEETS, sold_as
from tests.stages import to_job, to_leaves, to_plan
from tests.told import inch, refused

F = Fraction

DOOR = """
unit = "in"
species = "cherry"
[stock]
thickness = "3/4"
[groove]
depth = "3/8"
[joint]
slot = "1/4"
[glass]
[[door]]
[door.opening]
width = "15"
height = "20"
"""


def test_a_door_worked_by_hand() -> None:
    """Leaf 15 − 3/16 = 14 13/16 by 19 13/16, light 10 13/16 by 15 13/16 between members 2 in wide.
    The rebate reaches 3/8 in all round: 11 9/16 by 16 9/16, and the pane is ordered 1/8 in under,
    11 7/16 by 16 7/16. The rebate lies behind the slot's front, 1/4 in from the show face: 1/2 in,
    1/8 of it the pane's, 3/8 the stop's."""
    (leaf,) = to_leaves(DOOR)
    (pane,) = leaf.door.panes
    assert pane.mark == "A5"
    (left, right), (bottom, top), (front, back) = pane.box
    assert (right - left, top - bottom) == (F("11.4375"), F("16.4375"))
    assert (left, bottom) == (2 - F(3, 8) + F(1, 16), 2 - F(3, 8) + F(1, 16))
    assert (front, back) == (F(1, 4), F(3, 8))
    assert not leaf.fills
    assert [feature.kind for feature in leaf.parts[0].features].count("rebate") == 1
    orders = {order.what: order for order in leaf.orders if order.what.kind is parts.PANE}
    assert orders[parts.PANE(mark="A5")].size == (F("11.4375"), F("16.4375"), F(1, 8))
    assert orders[parts.PANE(mark="A5")].note == parts.ORDER_PANE(sold="3 mm")
    stops = [order for order in leaf.orders if order.what == parts.STOP()]
    assert [(stop.count, stop.size) for stop in stops] == [
        (2, (F("11.5625"), F(3, 8), F(3, 8))),
        (2, (F("16.5625"), F(3, 8), F(3, 8))),
    ]
    assert all(stop.note == parts.ORDER_STOP() for stop in stops)


def test_a_rebate_is_tried_on_the_edge_that_the_test_stick_can_spare() -> None:
    """The joints' tests are measured from the inside edge. The strip that the rebate's two cuts
    free is the same, but at the outside edge."""
    plan = to_plan(DOOR)
    carriers = {setup.number: setup.carrier for setup in plan.setups}
    tried = [
        (cut.down, cut.against)
        for step in plan.steps
        if step.kind == "test cut" and step.setup and carriers[step.setup] == "rip-fence"
        for cut in step.cuts
    ]
    cut = [(c.down, c.against) for step in plan.steps if step.kind == "rebate" for c in step.cuts]
    assert set(cut) == {("back", "inside-edge"), ("inside-edge", "face")}
    assert tried == [("back", "outside-edge"), ("outside-edge", "face")]


def test_the_glaziers_rules() -> None:
    """Under the rebate's size by 1/8 in in both dimensions (a glass trade's advice for cabinet
    doors, published) or by 3 mm (glaziers, published); cut panes come ±2 mm (published). By either
    a pane that comes 2 mm over still goes in, and one 2 mm under is held at both sides."""
    for text, under in ((DOOR, F(1, 8)), (METRIC, F(3))):
        job = to_job(text)
        (leaf,) = to_leaves(text)
        (pane,) = leaf.door.panes
        (light,) = leaf.lights
        depth, band = leaf.sizes.groove_depth, CUT_BAND.of(job.unit)
        for axis, across in ((0, light.width), (1, light.height)):
            low, high = pane.box[axis]
            assert across + 2 * depth - (high - low) == under
            assert high - low + band <= across + 2 * depth
            assert high - low - band > across + depth  # pushed to one side, it is held at the other


METRIC = """
unit = "mm"
species = "cherry"
[stock]
thickness = "19"
[groove]
depth = "9"
[glass]
[[door]]
[door.opening]
width = "380"
height = "500"
"""


def test_glass_by_its_name() -> None:
    """ASTM C1036, least thicknesses, published: 2.16, 2.92, 3.78, 4.57, 5.56 mm; the most, 2.57,
    3.40, 4.19, 5.05 and 6.20 mm, from memory."""
    assert [float(sheet.least) for sheet in SHEETS] == [2.16, 2.92, 3.78, 4.57, 5.56]
    assert [float(sheet.most) for sheet in SHEETS] == [2.57, 3.40, 4.19, 5.05, 6.20]
    assert sold_as(F(1, 8), "in") == "3 mm"
    assert sold_as(F(1, 4), "in") is None  # 6.35 mm, over any 6 mm pane
    assert sold_as(F(4), "mm") == "4 mm"


def test_a_pane_and_a_stop_that_the_rebate_has_no_room_for() -> None:
    """1/2 in of rebate and a pane of 3/8 in leave 1/8 in; a stop takes 3/16."""
    text = DOOR.replace("[glass]", '[glass]\nthickness = "3/8"')
    with pytest.raises(Refusal, match=r"room=1/8 in, least=3/16 in") as refused:
        to_leaves(text)
    assert "more=1/16 in" in str(refused.value)
    to_leaves(text.replace('"3/4"', '"7/8"'))


@pytest.mark.parametrize("depth", ["1/8", "3/16", "7/32", "15/64", "1/4"])
def test_a_rebate_that_a_pane_may_slip_out_of(depth: str) -> None:
    """1/8 under, 5/64 in of the cut's tolerance and 1/32 in of hold: 15/64 in."""
    text = DOOR.replace("3/8", depth)
    if F(depth) >= F(15, 64):
        assert isinstance(to_job(text).doors[0].fill, Glazed)
        return
    told = refused(lambda: to_job(text))
    deeper = [fact for fact in told if "depth" in fact.given and fact.kind is not fills.PANE_SLIPS]
    assert [fact.given["depth"] for fact in deeper] == [inch("15/64")]


@pytest.mark.parametrize("kind", ["bridle", "mitred bridle", "half-lap"])
def test_the_virtual_saw_proves_it(kind: str) -> None:
    text = DOOR.replace("[joint]", f'[joint]\nkind = "{kind}"')
    # A half-lap's slot is open to the back: the rebate is as deep as it, not deeper.
    plan = to_plan(text.replace('slot = "1/4"\n', "") if kind == "half-lap" else text)
    assert "proof.panes-held" in str(plan.proven[1])
    assert contract.from_json(contract.to_json(plan)) == plan


def test_lights_between_bars_are_glazed_one_by_one() -> None:
    """A pair of doors, each with a mid rail, T-bridled: four panes to order, and their stops."""
    text = DOOR.replace("[glass]", '[glass]\n[[bar]]\nkind = "mid rail"').replace(
        "[joint]", '[joint]\nbars = "T-bridle"'
    )
    text = text.replace("[[door]]", "[[door]]\nleaves = 2").replace('"15"', '"28"')
    plan = to_plan(text + '[door.gaps]\nmeeting = "1/8"\n')
    assert [pane.mark for door in plan.doors for pane in door.panes] == ["A6", "A7", "B6", "B7"]
    panes = [order for order in plan.orders if order.what.kind is parts.PANE]
    assert len(panes) == 4
    stops = [order for order in plan.orders if order.what == parts.STOP()]
    assert sum(stop.count for stop in stops) == 16


def test_orders_say_equal_things_once_and_the_bench_glazes_last() -> None:
    """Two doors alike: four stops of each length in one line."""
    plan = to_plan(DOOR.replace("[[door]]", "[[door]]\ncount = 2"))
    stops: list[Order] = [order for order in plan.orders if order.what == parts.STOP()]
    assert [stop.count for stop in stops] == [4, 4]
    kinds = [step.kind for step in plan.steps]
    assert kinds.index("flush") < kinds.index("glaze") < kinds.index("hang")
    points = {str(point.measure): point for point in plan.checkpoints}
    width = points["pane-width:A5"]
    assert (width.target, width.target - width.low) == (F("11.4375"), CUT_BAND.inch)
    assert width.high - width.target == PANE_OVER.inch
    page = sheets.html(plan)
    assert "glass stop" in page
