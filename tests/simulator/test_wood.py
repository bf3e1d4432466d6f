"""Boxes, kerfs and what falls, against sums that are done by hand and space that is counted."""

from __future__ import annotations

from fractions import Fraction
from itertools import product

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.simulator.cleared import STEPS, Blade, cleared
from tests.simulator.wood import Box, fallen, hull, merged, touching, turned, volume, without

BLOCK: Box = (0, 6, 0, 5, 0, 4)
_ENDS = st.integers(0, 6)


@st.composite
def boxes(draw: st.DrawFn) -> Box:
    x, y, z = (sorted(draw(st.tuples(_ENDS, _ENDS))) for _ in range(3))
    return (x[0], x[1], y[0], y[1], z[0], z[1])


@given(st.lists(boxes(), max_size=4))
def test_what_is_left_is_what_lies_in_no_box(taken: list[Box]) -> None:
    left = without((BLOCK,), taken)
    for x, y, z in product(range(6), range(5), range(4)):
        gone = any(_in(box, x, y, z) for box in taken)
        assert sum(_in(box, x, y, z) for box in left) == (not gone)
        assert sum(_in(box, x, y, z) for box in merged(left)) == (not gone)


@given(st.lists(boxes(), max_size=4))
def test_what_falls_apart_is_all_there_and_shares_no_surface(taken: list[Box]) -> None:
    left = without((BLOCK,), taken)
    solids = fallen(left)
    assert sorted(box for solid in solids for box in solid) == sorted(left)
    unit = [{p for p in product(range(6), range(5), range(4)) if _in_any(s, p)} for s in solids]
    for n, one in enumerate(unit):
        near = {(x + a, y + b, z + c) for x, y, z in one for a, b, c in _BESIDE}
        assert not any(near & other for other in unit[n + 1 :])


_BESIDE = [(1, 0, 0), (-1, 0, 0), (0, 1, 0), (0, -1, 0), (0, 0, 1), (0, 0, -1)]


def _in(box: Box, x: int, y: int, z: int) -> bool:
    return box[0] <= x < box[1] and box[2] <= y < box[3] and box[4] <= z < box[5]


def _in_any(solid: tuple[Box, ...], place: tuple[int, int, int]) -> bool:
    return any(_in(box, *place) for box in solid)


def test_upright_kerf_is_exact_from_either_side() -> None:
    block: Box = (0, 800, 0, 50, 0, 19)
    groove = Blade("inside-edge", "back", guide=6, kerf=3, depth=8, tilt=Fraction(0))
    assert cleared(block, groove) == [(0, 800, 0, 8, 10, 13)]
    shoulder = Blade("face", "end-B", 46, 3, 6, Fraction(0), sweep=True, back=20)
    assert cleared(block, shoulder) == [(751, 771, 0, 50, 0, 6)]


@pytest.mark.parametrize("tilt", [Fraction(1, 8), Fraction(-1, 8), Fraction(-3, 5)])
def test_leaning_kerf_is_never_less_than_the_true_one(tilt: Fraction) -> None:
    block: Box = (0, 10, 0, 500, 0, 190)
    blade = Blade("inside-edge", "face", guide=90, kerf=32, depth=320, tilt=tilt)
    steps = cleared(block, blade)
    for height in range(320):
        middle = height + Fraction(1, 2)
        near, far = blade.guide - tilt * middle, blade.farthest - tilt * middle
        found = next(box for box in steps if box[2] <= height < box[3])
        assert found[4] <= max(Fraction(0), near)
        assert min(Fraction(190), far) <= found[5]
        # Nor by more than a step of the lean, and a grain of rounding.
        most = 32 + abs(tilt) * Fraction(320, STEPS) + 2
        assert found[5] - found[4] <= most


def test_mitre_clears_all_to_its_line() -> None:
    block: Box = (0, 400, 0, 60, 0, 19)
    blade = Blade("face", "end-A", 0, 3, 10, Fraction(0), sweep=True, slanted=True)
    gone = sum(volume((box,)) for box in cleared(block, blade))
    assert 60 * 60 // 2 * 10 <= gone <= 60 * 60 // 2 * 10 * (STEPS + 1) // STEPS


def test_what_touches_a_side() -> None:
    left = without((BLOCK,), [(0, 6, 0, 2, 1, 3)])
    assert sorted(touching(left, "inside-edge", hull(left))) == [((0, 6), (0, 1)), ((0, 6), (3, 4))]
    assert touching(turned(left, 6), "end-A", BLOCK) == touching(left, "end-B", BLOCK)
