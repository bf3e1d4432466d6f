"""The line of a shaped rail's edge: its radius, its heights, and lines beside it."""

from __future__ import annotations

import math
from fractions import Fraction
from typing import Literal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from sequencer.doors.curve import MOST_STATIONS, ORDINATE, Curve, edge_curve
from sequencer.job.shaped import STEEPEST
from sequencer.lengths import Unit
from tests.stages import to_job

STEP = ORDINATE["in"]


def arch(span: Fraction, rise: Fraction) -> Curve:
    return Curve("middle", span, rise, STEP, Fraction(1))


def test_a_handbooks_arc() -> None:
    """R. G. Hatfield, The American House Carpenter, Art. 518: an arc of 75 ft radius over a chord
    of 120 ft has a versed sine of 30 ft, √(75² − 60²) = 45 below the radius. Art. 520: ordinates
    are found in the same way; 21 from the middle √(75² − 21²) = 72, less those 45, is 27."""
    found = arch(Fraction(120), Fraction(30))
    assert found.radius == 75
    assert found.height(Fraction(60 - 21)) == 27
    assert found.height(Fraction(60 + 21)) == 27


def test_three_four_five() -> None:
    """Radius 5, chord 8, rise 2: 3 from the middle the arc is 4 from the centre, so 1 high."""
    found = arch(Fraction(8), Fraction(2))
    assert found.radius == 5
    heights = [found.height(Fraction(at)) for at in range(9)]
    assert heights[0] == heights[8] == 0
    assert heights[1] == heights[7] == 1
    assert heights[4] == 2
    # The concentric arc 8 larger: 5 from the middle √(13² − 5²) = 12, less 3 below the edge.
    assert found.height(Fraction(4 - 5), Fraction(8)) == 9


Highest = Literal["middle", "left", "right"]
ENDS: tuple[Highest, ...] = ("middle", "left", "right")
HIGHEST = st.sampled_from(ENDS)


@st.composite
def curves(draw: st.DrawFn) -> Curve:
    span = Fraction(draw(st.integers(64, 64 * 40)), 64)
    highest = draw(HIGHEST)
    most = STEEPEST["arch" if highest == "middle" else "peak"] * span
    rise = Fraction(draw(st.integers(1, max(1, int(most * 64)))), 64)
    return Curve(highest, span, rise, STEP, Fraction(draw(st.sampled_from((1, 2, 3)))))


@given(curves(), st.fractions(0, 1, max_denominator=64), st.integers(0, 32))
def test_heights_are_those_of_a_library_to_a_step(
    curve: Curve, share: Fraction, offset64: int
) -> None:
    at, offset = curve.span * share, Fraction(offset64, 64)
    c, h, x, e = map(float, (curve.span, curve.rise, at, offset))
    if curve.highest == "middle":
        r = (c * c / 4 + h * h) / (2 * h)
        assert math.isclose(float(curve.radius or 0), r, rel_tol=1e-12)
        wanted = h - r + math.sqrt((r + e) ** 2 - (x - c / 2) ** 2)
    else:
        run = x if curve.highest == "right" else c - x
        wanted = h * run / c + e * math.hypot(1, h / c)
    step = float(STEP) + 1e-5
    assert abs(float(curve.height(at, offset)) - wanted) <= step / 2
    assert -1e-5 <= wanted - float(curve.height(at, offset, "down")) <= step
    assert -1e-5 <= float(curve.height(at, offset, "up")) - wanted <= step


@given(curves())
def test_an_edge_begins_and_ends_at_the_rails_lower_edge_or_at_its_rise(curve: Curve) -> None:
    ends = {at: curve.height(at) for at in (Fraction(0), curve.span)}
    wanted = {"middle": (0, 0), "left": (curve.rise, 0), "right": (0, curve.rise)}
    assert tuple(ends.values()) == wanted[curve.highest]
    assert max(curve.height(at) for at in curve.stations()) == curve.rise


@given(curves())
def test_stations_lie_alike_from_both_ends(curve: Curve) -> None:
    stations = curve.stations()
    assert list(stations) == sorted(set(stations))
    assert {curve.span - at for at in stations} == set(stations)


@pytest.mark.parametrize(("unit", "opening", "rise"), [("in", "15", "1"), ("mm", "2000", "100")])
def test_few_enough_stations_at_plain_distances(unit: Unit, opening: str, rise: str) -> None:
    thickness = "3/4" if unit == "in" else "19"
    text = (
        f'unit = "{unit}"\n[stock]\nthickness = "{thickness}"\n[[door]]\n[door.opening]\n'
        f'width = "{opening}"\nheight = "{opening}"\n'
        f'[door.shape]\nkind = "arch"\nrise = "{rise}"\n'
    )
    (door,) = to_job(text).doors
    curve = edge_curve(door, Fraction(opening), "left", unit)
    assert curve is not None
    near = [at for at in curve.stations() if 0 < at < curve.span / 2]
    assert 1 <= len(near) <= MOST_STATIONS
    assert all(at.denominator <= 2 for at in near)


@pytest.mark.parametrize(
    ("kind", "hinge", "highest"),
    [
        ("peak", "left", "right"),
        ("peak", "right", "left"),
        ("valley", "left", "left"),
        ("valley", "right", "right"),
        ("arch", "right", "middle"),
    ],
)
def test_a_peak_is_highest_on_the_free_side(kind: str, hinge: str, highest: str) -> None:
    text = (
        f'unit = "in"\n[stock]\nthickness = "3/4"\n[[door]]\nhinge = "{hinge}"\n[door.opening]\n'
        f'width = "15"\nheight = "20"\n[door.shape]\nkind = "{kind}"\nrise = "1"\n'
    )
    (door,) = to_job(text).doors
    found = edge_curve(door, Fraction(10), door.hinge, "in")
    assert found is not None
    assert found.highest == highest
