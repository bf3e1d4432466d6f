"""No fin is left between two passes when the kerf is a hair thinner than it was measured."""

from __future__ import annotations

import re
from fractions import Fraction as F  # noqa: N817

import pytest

from sequencer.errors import InternalError
from sequencer.plan import Plan
from sequencer.proof.compare import saw_and_compare
from sequencer.proof.fins import check_no_fins
from sequencer.proof.grain import HAIR, grain_of
from tests.proof import change, hand


def check(plan: Plan) -> None:
    """Both sawings; the first finds nothing in any plan here."""
    grain = grain_of(plan)
    saw_and_compare(plan, grain)
    check_no_fins(plan, grain)


def test_three_passes_leave_none() -> None:
    check(hand.make())


@pytest.mark.parametrize(
    ("left_out", "message"),
    [
        (
            "A1/slot-A/middle",
            (
                r"kind=step.slot, setup=\d+, piece=A1, "
                r"what=.*x=1/200 in, x1=.*, z=37/100 in, z1=19/50 in"
            ),
        ),
        (
            "#1/groove/middle",
            r"kind=step.groove, setup=\d+, piece=A1, what=.*, z=37/100 in, z1=19/50 in",
        ),
    ],
)
def test_two_kerfs_that_just_meet_leave_one(left_out: str, message: str) -> None:
    """1/4..3/8 and 3/8..1/2 make the slot exactly; 1/200 thinner each, 37/100..19/50 stands."""
    works = [work for work in hand.WORKS if work.operation != left_out]
    plan = hand.make(works)
    saw_and_compare(plan, grain_of(plan))
    with pytest.raises(InternalError) as error:
        check(plan)
    assert "proof.fin-stands(hair=1/200 in" in str(error.value)
    assert re.search(message, str(error.value)), str(error.value)


def test_passes_that_overlap_enough_leave_none() -> None:
    """A kerf of 13/100 makes the slot of 1/4 in two passes that overlap by 1/100; of 129/1000,
    they overlap by 8/1000, which is too little."""
    for kerf, good in ((F(13, 100), True), (F(129, 1000), False)):
        works = [work for work in hand.WORKS if not work.operation.endswith("middle")]
        plan = hand.make(works)
        for kind in ("groove", "slot"):
            number = change.of_kind(plan, kind).setup
            assert number is not None
            plan = change.setup(plan, number, kerf=kerf)
        if good:
            check(plan)
        else:
            with pytest.raises(InternalError, match=r"proof\.fin-stands"):
                check(plan)


def test_the_hair_is_half_the_least_overlap() -> None:
    assert {unit: 2 * hair for unit, hair in HAIR.items()} == {"in": F(1, 100), "mm": F(1, 4)}
