"""The shape of the top rail as the file says it."""

from __future__ import annotations

from fractions import Fraction

import pytest

from sequencer.errors import InputError
from sequencer.job.kinds import Shape
from sequencer.job.load import load_job
from sequencer.job.schema import Door
from sequencer.job.shop import default_shop
from sequencer.job.validate import against_shop

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
    ("kind", "good", "bad", "says"),
    [
        ("arch", "2 1/2", "2 33/64", "at most 2 1/2 in"),
        ("peak", "5", "5 1/64", "at most 5 in"),
        ("valley", "5", "5 1/64", "at most 5 in"),
    ],
)
def test_how_steep_it_may_be(kind: str, good: str, bad: str, says: str) -> None:
    own = f'shape.kind = "{kind}"\nshape.rise = '
    assert door(f'{own}"{good}"').shape
    with pytest.raises(InputError, match=says):
        door(f'{own}"{bad}"')


@pytest.mark.parametrize(
    ("own", "says"),
    [
        ('shape.rise = "1"', "no word of the shape"),
        ('shape.kind = "arch"', "how high the arch rises"),
        ('shape.kind = "arch"\nshape.rise = "0"', "a rise of 0"),
        ('shape.kind = "ogee"\nshape.rise = "1"', "file.none-of"),
        ('shape.kind = "arch"\nshape.rise = "1"\njoint.kind = "stub tenon"', "not made with"),
        ('shape.kind = "arch"\nshape.rise = "1"\nboarded = {}', "only a flat panel"),
        ('shape.kind = "arch"\nshape.rise = "1"\n[[door.bar]]\nkind = "mullion"', "its slope"),
    ],
)
def test_what_cannot_be(own: str, says: str) -> None:
    with pytest.raises(InputError, match=says):
        door(own)


def test_mullions_below_a_mid_rail_may_be() -> None:
    own = 'shape.kind = "arch"\nshape.rise = "1"\n[[door.bar]]\nkind = "mid rail"\n'
    assert door(own + '[[door.bar]]\nkind = "mullion"\nwidth = "1"\nrow = 2\n').shape


def test_a_shaped_rail_leaves_less_for_the_panel() -> None:
    """22 − 2 − 2 high: a rise of 17 leaves 1 in, the least; but no span is so wide."""
    own = 'shape.kind = "peak"\nshape.rise = "5"\nrails.top = "12"\nrails.bottom = "{}"'
    assert door(own.format("4")).shape
    with pytest.raises(InputError, match="the rails leave 63/64 in"):
        door(own.format("4 1/64"))


# Height 3 1/8 in: the slot at the wide end may be two thirds of (2 − 1/4 + rise), and 1/32 proud.
@pytest.mark.parametrize(("rise", "fits"), [("2 57/64", True), ("2 29/32", False)])
def test_a_slot_that_no_blade_reaches(rise: str, fits: bool) -> None:
    own = f'shape.kind = "peak"\nshape.rise = "{rise}"'
    job = load_job(JOB.format(shared="", own=own), "job.toml")
    said = "\n".join(map(str, against_shop(job, default_shop("in"))))
    assert ("slots for the top rail" not in said) is fits
