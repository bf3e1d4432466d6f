"""The shape of the top rail as the file says it."""

from __future__ import annotations

from fractions import Fraction

import pytest

from sequencer.errors import InputError
from sequencer.facts import Fact, Kind, doors, shapes
from sequencer.job.kinds import Shape
from sequencer.job.load import load_job
from sequencer.job.schema import Door
from sequencer.job.shop import default_shop
from sequencer.job.validate import against_shop
from tests.told import inch, refused, tells, told

JOB = """unit = "in"
[stock]
thickness = "3/4"
{shared}
[[door]]
{own}
[door.opening]
width = "14 3/16"
height = "22 3/16"
"""
"""A leaf of 14 in, with stiles of 2 in: a span of 10 in."""
ARCH = '[shape]\nkind = "arch"\nrise = "1"\n'


def door(own: str = "", shared: str = "") -> Door:
    (only,) = load_job(JOB.format(shared=shared, own=own), "job.toml").doors
    return only


def test_a_door_overrides_its_files_shape() -> None:
    assert door().shape is None
    assert door(shared=ARCH).shape == Shape("arch", Fraction(1))
    assert door('shape.rise = "2"', ARCH).shape == Shape("arch", Fraction(2))
    assert door('shape.kind = "peak"', ARCH).shape == Shape("peak", Fraction(1))
    assert door('shape.kind = "straight"', ARCH).shape is None


# An arch of a quarter of its span at most, a slope of half of it.
@pytest.mark.parametrize(
    ("kind", "good", "bad"),
    [("arch", "2 1/2", "2 33/64"), ("peak", "5", "5 1/64"), ("valley", "5", "5 1/64")],
)
def test_how_steep_it_may_be(kind: str, good: str, bad: str) -> None:
    own = f'shape.kind = "{kind}"\nshape.rise = '
    assert door(f'{own}"{good}"').shape
    assert refused(lambda: door(f'{own}"{bad}"')) == (
        shapes.TOO_STEEP(rise=inch(bad), span=inch("10")),
        shapes.LESS_STEEP(most=inch(good)),
    )


def test_how_flat_it_may_be() -> None:
    own = 'shape.kind = "arch"\nshape.rise = '
    assert door(f'{own}"1/8"').shape
    assert refused(lambda: door(f'{own}"31/256"')) == (
        shapes.TOO_FLAT(rise=inch("31/256")),
        shapes.LESS_FLAT(least=inch("1/8")),
    )


@pytest.mark.parametrize(
    ("own", "says"),
    [
        ('shape.rise = "1"', shapes.NO_KIND),
        ('shape.kind = "arch"', shapes.RISE_MISSING(shape="arch")),
        ('shape.kind = "arch"\nshape.rise = "0"', doors.NOTHING(key="rise")),
        (
            'shape.kind = "arch"\nshape.rise = "1"\njoint.kind = "stub tenon"',
            shapes.JOINT_UNSUITED(joint="stub tenon"),
        ),
        ('shape.kind = "arch"\nshape.rise = "1"\nboarded = {}', shapes.FLAT_PANEL_ALONE),
        (
            'shape.kind = "arch"\nshape.rise = "1"\n[[door.bar]]\nkind = "mullion"',
            shapes.MULLION_ON_SLOPE,
        ),
    ],
)
def test_what_cannot_be(own: str, says: Fact | Kind) -> None:
    assert tells(refused(lambda: door(own)), says)


def test_a_shape_that_there_is_not() -> None:
    with pytest.raises(InputError) as error:
        door('shape.kind = "ogee"\nshape.rise = "1"')
    assert [fault.line for fault in error.value.faults] == [6]


def test_mullions_below_a_mid_rail_may_be() -> None:
    own = 'shape.kind = "arch"\nshape.rise = "1"\n[[door.bar]]\nkind = "mid rail"\n'
    assert door(own + '[[door.bar]]\nkind = "mullion"\nwidth = "1"\nrow = 2\n').shape


def test_a_shaped_rail_leaves_less_for_the_panel() -> None:
    """22 − 2 − 2 high: a rise of 17 leaves 1 in, the least; but no span is so wide."""
    own = 'shape.kind = "peak"\nshape.rise = "5"\nrails.top = "12"\nrails.bottom = "{}"'
    assert door(own.format("4")).shape
    little = doors.LITTLE_SIGHT(pieces="rails", left=inch("63/64"), size=inch("22"), way="high")
    assert little in refused(lambda: door(own.format("4 1/64")))


# Height 3 1/8 in: the slot at the wide end may be two thirds of (2 − 1/4 + rise), and 5/64 proud.
@pytest.mark.parametrize(("rise", "fits"), [("2 13/16", True), ("2 53/64", False)])
def test_a_slot_that_no_blade_reaches(rise: str, fits: bool) -> None:
    own = f'shape.kind = "peak"\nshape.rise = "{rise}"'
    job = load_job(JOB.format(shared="", own=own), "job.toml")
    facts = told(against_shop(job, default_shop("in")))
    assert tells(facts, doors.SLOTS_TOO_HIGH) is not fits
