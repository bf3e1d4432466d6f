"""Spacers worth making: the same step between several settings."""

from __future__ import annotations

from fractions import Fraction

import pytest

from sequencer.facts import advices
from sequencer.job.shop import default_shop
from sequencer.plan import Plan
from sequencer.records import replace
from sequencer.saved.gauges import Spacer, told, worth_making
from sequencer.shelf import Gauge, Saved
from tests.stages import to_plan
from tests.told import inch

SHOP = default_shop("in")

# Three widths of rip, a quarter of an inch apart each: 2 1/2, 2 1/4, 2.
JOB = """
unit = "in"
species = "cherry"
[stock]
thickness = "3/4"
[stiles]
hinge = "2"
lock = "2 1/4"
[rails]
top = "2"
bottom = "2 1/2"
[[door]]
[door.opening]
width = "14"
height = "20"
"""


@pytest.fixture(scope="module")
def made() -> Plan:
    return to_plan(JOB)


def test_one_spacer_for_two_rips(made: Plan) -> None:
    # In the order of their widths: equal minutes leave the order of three rips open.
    rips = [s for s in made.setups if s.carrier == "rip-fence" and s.guide and s.guide >= 2][:3]
    widths = {s.number: Fraction(10 - n, 4) for n, s in enumerate(rips)}
    assert sorted(s.reading or 0 for s in rips) == sorted(widths.values())
    ordered = tuple(replace(s, reading=widths.get(s.number, s.reading)) for s in made.setups)
    (spacer,) = worth_making(replace(made, setups=ordered), SHOP)
    assert spacer.thickness == Fraction(1, 4)
    assert set(spacer.setups) == {rips[1].number, rips[2].number}
    saves = SHOP.minutes.of("fence") - SHOP.minutes.gauge
    assert spacer.minutes == 2 * saves
    one, other = spacer.setups
    assert told(spacer, "in") == advices.SPACER(
        thickness=inch("1/4"),
        kerf=None,
        leads=advices.LEADS(n=2, numbers=advices.NUMBERS(numbers=(one, other))),
        saved=None,
        minutes=Fraction(1),
    )


def test_a_single_move_is_not_worth_a_spacer(made: Plan) -> None:
    few = replace(made, setups=made.setups[:2])
    assert worth_making(few, SHOP) == ()


def test_saved_settings_count_and_a_kerf_is_named(made: Plan) -> None:
    """A stop that goes from a tenon's length to its shoulder moves by one kerf, time and again."""
    kerf = made.setups[0].kerf
    rip = next(s for s in made.setups if s.carrier == "rip-fence" and s.guide)
    assert rip.reading is not None
    stop = Saved(1, rip.cutter, kerf, "rip-fence", "fence", rip.reading + kerf)
    lot = [replace(stop, gauge=Gauge("block", "B")), replace(stop, number=2, value=rip.reading)]
    found = worth_making(replace(made, setups=made.setups[:1]), SHOP, lot)
    assert found == (
        Spacer(kerf, True, (1,), (1, 2), SHOP.minutes.of("fence") - SHOP.minutes.gauge),
    )
    said = told(found[0], "in").given
    assert said["kerf"] == advices.ONE_KERF()
    assert said["saved"] == advices.SAVED_TOO(n=2, numbers=advices.NUMBERS(numbers=(1, 2)))
    # Without its gauge the first saved setting is read off the scale: nothing to add a spacer to.
    assert worth_making(replace(made, setups=made.setups[:1]), SHOP, [stop]) == ()
    doubted = replace(stop, doubted=True, gauge=Gauge("block", "B"))
    assert worth_making(replace(made, setups=made.setups[:1]), SHOP, [doubted, doubted]) == ()


def test_a_spacer_for_a_tested_setting_saves_what_a_check_takes_less_than_a_test(
    made: Plan,
) -> None:
    first = made.setups[0]
    assert first.reading is not None
    (change,) = (c for c in first.changes if c.knob == "fence")
    tested = replace(first, changes=(replace(change, after=f"{change.after} tested"),))
    stop = Saved(1, first.cutter, first.kerf, "rip-fence", "fence", first.reading + 1)
    lot = [replace(stop, gauge=Gauge("block", "B")), replace(stop, number=2, value=first.reading)]
    dialling = Fraction(17, 4)
    knobs = [
        replace(knob, by_value={**knob.by_value, f"{change.after} tested": knob.minutes + dialling})
        for knob in made.ordering.knobs
    ]
    priced = replace(made, ordering=replace(made.ordering, knobs=tuple(knobs)))
    minutes = [
        worth_making(replace(priced, setups=(setup,)), SHOP, lot)[0].minutes
        for setup in (first, tested)
    ]
    assert minutes[1] - minutes[0] == dialling - SHOP.minutes.check_cut > 0


def test_the_first_six_setups_are_named_and_the_rest_counted() -> None:
    six = tuple(range(2, 8))
    spacer = Spacer(Fraction(1, 4), False, six, (), Fraction(5))
    assert told(spacer, "in").given["leads"] == advices.LEADS(
        n=6, numbers=advices.NUMBERS(numbers=six)
    )
    more = replace(spacer, setups=(*six, 8, 9))
    assert told(more, "in").given["leads"] == advices.LEADS(
        n=8, numbers=advices.NUMBERS_AND_MORE(numbers=six, more=2)
    )
