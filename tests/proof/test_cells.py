"""Solids with sloping sides, against closed formulas and against points asked one by one.

Volumes: a pyramid is a third of base × height; a prismatoid h/6 (B + 4 M + B'); a polygon's area by
the shoelace formula (all of them school geometry, from memory).
"""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction as F  # noqa: N817
from itertools import product

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from sequencer.plan import Prism
from sequencer.proof.cells import (
    Bit,
    Brick,
    Cell,
    as_cell,
    opposite,
    plane_of,
    split,
    tidy,
    vertices,
    volume_of,
)
from sequencer.proof.polygons import Point, drawn_out
from sequencer.proof.prisms import cells_of, convex, strips
from sequencer.proof.solid import (
    Solid,
    bounds,
    cropped,
    difference,
    faces,
    moved,
    outline,
    overlap,
    pieces,
    placed,
    shared,
    subtract,
    touch,
    volume,
)

BLOCK: Brick = (0, 12, 0, 8, 0, 6)


def shoelace(corners: Sequence[Point]) -> F:
    twice = sum(
        F(a[0]) * b[1] - F(b[0]) * a[1]
        for a, b in zip(corners, [*corners[1:], corners[0]], strict=True)
    )
    return abs(F(twice)) / 2


def test_a_corner_of_a_cube_is_a_sixth_of_it() -> None:
    inside, outside = split(as_cell((0, 1, 0, 1, 0, 1)), plane_of((1, 1, 1), 1))
    assert inside is not None
    assert outside is not None
    assert volume_of(inside) == F(1, 6)
    assert volume_of(outside) == F(5, 6)
    assert (len(inside.faces), len(outside.faces)) == (4, 7)


def test_a_hexagon_across_a_cube() -> None:
    """The plane through its middle, square to a diagonal, halves a cube in a regular hexagon."""
    inside, outside = split(as_cell((0, 2, 0, 2, 0, 2)), plane_of((1, 1, 1), 3))
    assert inside is not None
    assert outside is not None
    assert volume_of(inside) == volume_of(outside) == 4
    (cut,) = (loop for plane, loop in inside.faces if plane == (1, 1, 1, 3))
    assert len(cut) == 6


def test_a_plane_that_only_touches_does_not_split() -> None:
    cell = as_cell(BLOCK)
    assert split(cell, plane_of((1, 1, 0), 20)) == (cell, None)
    assert split(cell, plane_of((-1, -1, 0), -20)) == (None, cell)


def test_a_raised_field_is_a_prismatoid() -> None:
    """A block 12 × 8 × 6 bevelled all round: 2 in from each edge over a height of 3 leaves, above
    12 × 8 × 3, a frustum from 12 × 8 to 8 × 4."""
    solid: Solid = (BLOCK,)
    for axes, span, along in (("xz", 12, (0, 8)), ("yz", 8, (0, 12))):
        for low in (True, False):
            at = [0, 2, 0] if low else [span, span - 2, span]
            corners = tuple((F(u), F(v)) for u, v in zip(at, (3, 6, 6), strict=True))
            solid = difference(solid, cells_of(Prism(axes, corners, (F(along[0]), F(along[1]))), 1))
    top = F(3, 6) * (12 * 8 + 4 * 10 * 6 + 8 * 4)
    assert volume(solid) == 12 * 8 * 3 + top
    assert bounds(solid) == BLOCK
    assert len(pieces(solid)) == 1
    assert volume(faces(solid, 2, 6, -1)) == 8 * 4
    assert volume(faces(solid, 0, 0, 1)) == 8 * 3


def test_bricks_that_come_out_of_cells_are_bricks_again() -> None:
    wedge = drawn_out(((0, 0), (4, 0), (4, 4)), (0, 1), (0, 6))
    assert isinstance(wedge, Cell)
    left = difference((BLOCK,), (wedge,))
    assert difference(cropped(left, 0, (4, 12)), ((4, 12, 0, 8, 0, 6),)) == ()
    assert all(not isinstance(bit, Cell) for bit in cropped(left, 0, (5, 12)))
    assert volume(left) == volume((BLOCK,)) - 8 * 6


coordinate = st.fractions(min_value=-1, max_value=9, max_denominator=3)


@st.composite
def prisms(draw: st.DrawFn) -> tuple[Prism, Sequence[tuple[F, F]]]:
    """A star-shaped polygon, often turning inward, in any two axes."""
    axes = draw(st.sampled_from(("xy", "xz", "yz")))
    middle = (draw(coordinate), draw(coordinate))
    # Directions in turn round the middle, none half a turn from the next: so the polygon does not
    # cross itself.
    around = ((4, 1), (2, 3), (-1, 4), (-3, 2), (-4, -1), (-1, -3), (3, -2))
    picked = sorted({0, 2, 5} | draw(st.sets(st.sampled_from((1, 3, 4, 6)))))
    reach = [draw(st.fractions(min_value=F(1, 4), max_value=2, max_denominator=4)) for _ in picked]
    corners = tuple(
        (middle[0] + r * around[n][0], middle[1] + r * around[n][1])
        for n, r in zip(picked, reach, strict=True)
    )
    low = draw(coordinate)
    along = (low, low + draw(st.fractions(min_value=F(1, 3), max_value=8, max_denominator=3)))
    return Prism(axes, corners, along), corners


def contains(prism: Prism, point: tuple[F, F, F]) -> bool:
    """By counting the sides that a ray from the point crosses."""
    place = dict(zip("xyz", point, strict=True))
    u, v = (place[axis] for axis in prism.axes)
    (third,) = (place[axis] for axis in "xyz" if axis not in prism.axes)
    if not prism.along[0] < third < prism.along[1]:
        return False
    odd = False
    for a, b in zip(prism.corners, (*prism.corners[1:], prism.corners[0]), strict=True):
        if (a[1] > v) != (b[1] > v):
            odd ^= u < a[0] + (v - a[1]) * (b[0] - a[0]) / (b[1] - a[1])
    return odd


def inside(bit: Bit, point: tuple[F, F, F]) -> bool:
    if not isinstance(bit, Cell):
        return all(bit[2 * n] < point[n] < bit[2 * n + 1] for n in range(3))
    return all(
        sum(plane[n] * point[n] for n in range(3)) < plane[3] for plane, _ in bit.faces
    )  # fmt: skip


POINTS = [
    (F(x) + F(3, 101), F(y) + F(5, 103), F(z) + F(7, 107))
    for x, y, z in product(range(0, 12, 2), range(0, 8, 2), range(0, 6, 2))
]
"""Off every plane that the strategies can draw, near enough: none lies on a side."""


@settings(max_examples=30)
@given(st.lists(prisms(), min_size=1, max_size=3))
def test_what_prisms_take_away_point_by_point(
    cutters: list[tuple[Prism, Sequence[tuple[F, F]]]],
) -> None:
    solid: Solid = (BLOCK,)
    for prism, _ in cutters:
        solid = difference(solid, cells_of(prism, 1))
    for point in POINTS:
        there = [bit for bit in solid if inside(bit, point)]
        wanted = not any(contains(prism, point) for prism, _ in cutters)
        assert len(there) == wanted, point


@settings(max_examples=30)
@given(prisms(), prisms())
def test_volumes_add_up(one: tuple[Prism, object], other: tuple[Prism, object]) -> None:
    a, b = cells_of(one[0], 1), cells_of(other[0], 1)
    left, both, right = difference(a, b), shared(a, b), difference(b, a)
    assert volume(left) + volume(both) == volume(a)
    assert volume(right) + volume(both) == volume(b)
    assert difference(a, (*left, *both)) == ()
    assert difference(both, b) == ()
    assert bool(both) == any(overlap(p, q) for p in a for q in b)


@settings(max_examples=50)
@given(prisms())
def test_a_prism_in_cells_has_its_volume(drawn: tuple[Prism, Sequence[tuple[F, F]]]) -> None:
    prism, corners = drawn
    cells = cells_of(prism, 2)
    area = shoelace(corners)
    assert volume(cells) == 8 * area * (prism.along[1] - prism.along[0])
    assert sum(shoelace(strip) for strip in strips(corners)) == area
    assert bounds(cells) == tuple(2 * end for span in prism.box for end in span)
    axis = "xyz".index(next(a for a in "xyz" if a not in prism.axes))
    for at, side in ((prism.along[0], 1), (prism.along[1], -1)):
        assert volume(faces(cells, axis, 2 * at, side)) == 4 * area
    assert volume(outline(cells, axis)) == 4 * area
    assert len(pieces(cells)) == 1


@settings(max_examples=30)
@given(prisms(), st.permutations((0, 1, 2)), st.tuples(*[st.sampled_from((1, -1))] * 3))
def test_another_frame_changes_no_volume(
    drawn: tuple[Prism, object], axes: list[int], signs: tuple[int, ...]
) -> None:
    cells = cells_of(drawn[0], 1)
    frame = list(zip(axes, signs, strict=True))
    there = placed(cells, frame, (F(5, 3), -2, 7))
    assert volume(there) == volume(cells)
    back = [(axes.index(n), signs[axes.index(n)]) for n in range(3)]
    origin = [F(0)] * 3
    for n, (axis, sign) in enumerate(back):
        origin[axis] = -sign * F((F(5, 3), F(-2), F(7))[n])
    again = placed(there, back, (origin[0], origin[1], origin[2]))
    assert difference(again, cells) == difference(cells, again) == ()
    assert difference(moved(moved(cells, (1, F(1, 7), 0)), (-1, -F(1, 7), 0)), cells) == ()


def test_cells_hang_together_by_an_area_only() -> None:
    """Two halves of a box, parted along its diagonal, touch there; moved along it by all its
    length they meet in a line, moved off it not at all."""
    low = drawn_out(((0, 0), (4, 0), (0, 4)), (0, 1), (0, 2))
    high = drawn_out(((4, 0), (4, 4), (0, 4)), (0, 1), (0, 2))
    assert touch(low, high)
    assert len(pieces((low, high))) == 1
    (along,) = moved((high,), (4, -4, 0))
    assert not touch(low, along)
    (partly,) = moved((high,), (2, -2, 0))
    assert touch(low, partly)
    assert len(pieces((low, *moved((high,), (F(1, 9), 0, 0))))) == 2


@settings(max_examples=30)
@given(prisms(), prisms())
def test_bits_touch_where_their_ends_share_an_area(
    one: tuple[Prism, Sequence[tuple[F, F]]], other: tuple[Prism, Sequence[tuple[F, F]]]
) -> None:
    """Two prisms stand on each other where they would be in each other on one floor."""
    low = cells_of(Prism("xy", one[0].corners, (F(0), F(1))), 1)
    beside = cells_of(Prism("xy", other[0].corners, (F(0), F(1))), 1)
    above = moved(beside, (0, 0, 1))
    for a in low:
        for b, same in zip(above, beside, strict=True):
            assert touch(a, b) == touch(b, a) == overlap(a, same)


def test_corners_on_a_line_and_twice_are_left_out() -> None:
    corners = tuple((F(u), F(v)) for u, v in ((0, 0), (2, 0), (2, 0), (4, 0), (4, 4), (0, 4)))
    assert cells_of(Prism("xy", corners, (F(0), F(1))), 1) == ((0, 4, 0, 4, 0, 1),)
    assert convex(corners)


@pytest.mark.parametrize(
    ("prism", "message"),
    [
        (Prism("yx", ((F(0), F(0)), (F(1), F(0)), (F(0), F(1))), (F(0), F(1))), "not in yx"),
        (Prism("xy", ((F(0), F(0)), (F(1), F(1)), (F(2), F(2))), (F(0), F(1))), "without volume"),
        (Prism("xy", ((F(0), F(0)), (F(1), F(0)), (F(0), F(1))), (F(1), F(1))), "without volume"),
    ],
)
def test_what_is_no_prism(prism: Prism, message: str) -> None:
    with pytest.raises(ValueError, match=message):
        cells_of(prism, 1)


def test_an_arch_of_many_corners_stays_small() -> None:
    """A rail's edge in 32 chords: each strip leaves one piece of the rail above it."""
    corners = tuple((F(n, 2), F(4) - F((n - 16) ** 2, 64)) for n in range(33))
    arch = cells_of(Prism("xy", corners, (F(0), F(6))), 1)
    solid: Solid = difference(((0, 16, 0, 8, 0, 6),), arch)
    assert len(solid) <= 3 * 32
    assert volume(solid) == 16 * 8 * 6 - 6 * shoelace(corners)


def test_planes_and_corners_are_in_lowest_terms() -> None:
    plane = plane_of((F(2, 3), F(-4, 3), 0), F(10, 3))
    assert plane == (1, -2, 0, 5)
    assert opposite(opposite(plane)) == plane
    cut, _ = split(as_cell((0, 3, 0, 3, 0, F(1, 2))), plane_of((2, 4, 0), 10))
    assert cut is not None
    assert (0, 5, 1, 2) in vertices(cut)
    assert tidy(as_cell(BLOCK)) == BLOCK


def test_a_brick_may_have_parts_of_a_grain() -> None:
    solid = subtract((BLOCK,), (F(1, 3), 2, 0, 8, 0, 6))
    assert volume(solid) == 8 * 6 * (12 - F(5, 3))
