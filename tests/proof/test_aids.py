"""The proof asks for aids by a table of its own: what a plan leaves out, it finds."""

from __future__ import annotations

from collections.abc import Callable
from fractions import Fraction

import pytest

from sequencer.errors import InternalError
from sequencer.facts import claims
from sequencer.job.load import load_job
from sequencer.job.schema import Shop
from sequencer.job.shop import default_shop
from sequencer.pipeline import plan as make_plan
from sequencer.plan import Aid, Plan, Size
from sequencer.proof.aids import TABLE, check_aids
from sequencer.records import replace
from tests.texts import NARROW

F = Fraction

RAISED = """
unit = "in"
species = "cherry"
[stock]
thickness = "3/4"
[stiles]
hinge = "1-3/4"
[rails]
top = "2"
[groove]
width = "1/4"
[panel]
thickness = "9/16"
[raised]
bevel = "1-1/4"
[[door]]
[door.opening]
width = "8-1/2"
height = "20"
"""

BOARDED = """
unit = "mm"
species = "oak"
[stock]
thickness = "22"
[stiles]
hinge = "60"
[rails]
top = "60"
[groove]
width = "10"
[boarded]
width = "80"
[[door]]
[door.opening]
width = "400"
height = "600"
"""


def bare() -> Shop:
    shop = default_shop("in")
    return replace(shop, sled=replace(shop.sled, clamp=False))


PLANS: dict[str, Callable[[], Plan]] = {
    "raised": lambda: make_plan([load_job(RAISED, "job.toml")], bare()),
    "boarded": lambda: make_plan([load_job(BOARDED, "job.toml")], default_shop("mm")),
    "narrow": lambda: make_plan([load_job(NARROW, "job.toml")], default_shop("in")),
}
NEEDED = {
    "raised": {"narrow-rip-fence", "tall-fence", "riding-board", "sled-clamp"},
    "boarded": {"bearing-strip"},
    "narrow": {"narrow-rip-fence", "backing-block"},
}


@pytest.fixture(scope="module", params=NEEDED)
def made(request: pytest.FixtureRequest) -> tuple[str, Plan]:
    return request.param, PLANS[request.param]()


def told_of(plan: Plan, aids: tuple[Aid, ...]) -> Plan:
    """The plan with other aids, their minutes told as they are."""
    other = replace(plan, aids=aids)
    left_out = [fact for fact in plan.ordering.left_out if fact.id != "claim.aids"]
    if other.aid_minutes:
        left_out.append(claims.AIDS(could_save=other.aid_minutes))
    return replace(other, ordering=replace(plan.ordering, left_out=tuple(left_out)))


def fails(plan: Plan, book: str) -> None:
    with pytest.raises(InternalError) as caught:
        check_aids(plan)
    assert book in str(caught.value)


def test_an_aid_left_out_is_missed_at_every_setup(made: tuple[str, Plan]) -> None:
    name, plan = made
    check_aids(plan)
    assert NEEDED[name] <= {aid.name for aid in plan.aids}
    for needed in NEEDED[name]:
        fails(told_of(plan, tuple(a for a in plan.aids if a.name != needed)), "book.no-aid")


def test_each_row_of_the_table_is_asked_for() -> None:
    asked = {name for names in NEEDED.values() for name in names}
    # Short pieces on the fence come of tables of pieces alone.
    assert set(TABLE) - asked == {"piece-carrier"}


def test_an_aid_is_at_hand_or_made(made: tuple[str, Plan]) -> None:
    _, plan = made
    first, *rest = plan.aids
    for wrong in (
        replace(first, at_hand=True),
        replace(first, made=F(0)),
        replace(first, boards=()),
    ):
        fails(told_of(plan, (wrong, *rest)), "book.aid-neither")
    fails(told_of(plan, (replace(first, setups=()), *rest)), "book.aid-for-nothing")
    fails(told_of(plan, (replace(first, setups=(99,)), *rest)), "book.aid-for-nothing")


def test_the_minutes_that_are_told_are_theirs(made: tuple[str, Plan]) -> None:
    _, plan = made
    fails(replace(plan, aids=(replace(plan.aids[0], fitted=F(9)), *plan.aids[1:])), "aid-minutes")


def test_a_tall_fence_is_as_tall_as_the_panel_needs() -> None:
    plan = PLANS["raised"]()
    (tall,) = (aid for aid in plan.aids if aid.name == "tall-fence")
    board, *others = tall.boards
    size = Size(board.size.length, board.size.width - F(1, 64), board.size.thickness)
    low = replace(tall, boards=(replace(board, size=size), *others))
    fails(told_of(plan, tuple(low if a is tall else a for a in plan.aids)), "book.low-fence")


def test_a_plan_that_tells_of_no_aids_is_passed_over() -> None:
    plan = PLANS["narrow"]()
    check_aids(replace(plan, aids=(), shop=replace(plan.shop, aids=None)))


def test_a_mark_that_the_plan_does_not_know_is_for_others_to_tell(made: tuple[str, Plan]) -> None:
    """That a piece is sawn that there is not is found when it is sawn; here it asks for nothing."""
    _, plan = made
    cut = next(step for step in plan.steps if step.cuts)
    strange = replace(cut, cuts=tuple(replace(each, mark="Z9") for each in cut.cuts))
    check_aids(replace(plan, steps=tuple(strange if s is cut else s for s in plan.steps)))
