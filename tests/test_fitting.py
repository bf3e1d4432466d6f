"""Which way is taken where one takes fewer minutes of setting up and another fits more often."""

from __future__ import annotations

from fractions import Fraction
from functools import cache
from pathlib import Path

import pytest

from sequencer import tolerance
from sequencer.errors import Refusal
from sequencer.facts import claims
from sequencer.job.schema import Shop
from sequencer.job.shop import default_shop
from sequencer.pipeline import cut_as, plan
from sequencer.plan import Plan
from sequencer.records import replace
from sequencer.setups.given import Given
from sequencer.sheets import html
from tests.proof.test_intent import example_job

EXAMPLE = Path(__file__).parents[1] / "examples" / "wall-cabinet" / "job.toml"
JOB = example_job(EXAMPLE)
A_JOINT = 2
"""Minutes for a joint that does not go together at once; ours."""


def quick(test_cut: str) -> Shop:
    """A shop in which nothing but a test cut takes time, so that ways come close."""
    shop = default_shop(JOB.unit)
    idle = {"jig": Fraction(0), "carrier": Fraction(0), "guard": Fraction(0), "height": Fraction(0)}
    knobs = {**shop.minutes.knobs, **idle}
    return replace(shop, minutes=replace(shop.minutes, knobs=knobs, test_cut=Fraction(test_cut)))


@cache
def made(test_cut: str) -> Plan:
    return plan([JOB], quick(test_cut))


def with_fitting(found: Plan) -> float:
    """Minutes of setting up, and of joints that are to be expected not to go together at once."""
    amiss = sum(
        each.count * (1 - each.first_try)
        for each in found.requirements
        if each.first_try is not None
    )
    return float(found.ordering.minutes + A_JOINT * amiss)


@pytest.mark.parametrize("test_cut", ["0", "1/4", "3"])
def test_no_way_takes_less_with_the_dry_fit(test_cut: str) -> None:
    """Every way is planned to its end, and none is better by more than what quarters round off."""
    given = Given.of([JOB], quick(test_cut))
    others = []
    for choices in given.open():
        if choices.groove_on == "stick" and choices.tenon_width == "jig":
            try:
                others.append(with_fitting(cut_as(given, choices)))
            except Refusal:
                continue
    assert len(others) >= 4
    assert with_fitting(made(test_cut)) <= min(others) + 0.25


def test_a_dearer_way_is_taken_for_its_joints_and_the_plan_says_so() -> None:
    found = made("1/4")
    assert found.answers["slot"] == "one-face"
    (why,) = [each for each in found.ordering.left_out if each.kind is claims.FITS_BETTER]
    quickest = min(way.minutes for way in found.ordering.compared if way.minutes is not None)
    assert why.given["could_save"] == found.ordering.minutes - quickest > 0
    assert why.given["fitting"] > why.given["could_save"]  # type: ignore[operator]
    assert found.ordering.bound == quickest
    assert not found.ordering.proven
    said = html(found)
    assert "less of setting up" in said
    assert "less, but more at the dry fit" in said


def test_of_ways_that_take_as_long_the_one_that_fits_is_taken_without_a_word() -> None:
    found = made("0")
    assert found.answers["slot"] == "one-face"
    assert all(each.kind is not claims.FITS_BETTER for each in found.ordering.left_out)


def test_at_usual_minutes_the_quickest_way_fits_well_enough() -> None:
    found = made("3")
    assert found.answers["slot"] == "turned"
    assert found.ordering.proven


def test_every_joint_is_counted() -> None:
    """Two doors of two rails each: eight joints, and a groove for each side of each panel."""
    found = tolerance.held(made("3"))
    counts = {each.what: each.count for each in found.requirements if each.first_try is not None}
    assert counts == {"tenon-in-slot": 8, "panel-in-groove": 8}
