"""Solids of bricks against counting unit cubes one by one."""

from __future__ import annotations

from itertools import product

from hypothesis import given
from hypothesis import strategies as st

from sequencer.proof.cells import Bit
from sequencer.proof.solid import (
    IntBox,
    Solid,
    bounds,
    cropped,
    difference,
    faces,
    length,
    moved,
    overlap,
    pieces,
    subtract,
    volume,
)

SIDE = 5
BLOCK: IntBox = (0, SIDE, 0, SIDE, 0, SIDE)
Cubes = frozenset[tuple[int, int, int]]

spans = st.tuples(st.integers(-1, SIDE), st.integers(1, SIDE)).map(lambda s: (s[0], s[0] + s[1]))
boxes = st.tuples(spans, spans, spans).map(lambda b: (*b[0], *b[1], *b[2]))


def unit(bit: Bit, at: int) -> range:
    return range(int(bit[at]), int(bit[at + 1]))


def cubes(solid: Solid) -> Cubes:
    return frozenset(cube for b in solid for cube in product(unit(b, 0), unit(b, 2), unit(b, 4)))


def carved(cuts: list[IntBox]) -> Solid:
    solid: Solid = (BLOCK,)
    for cut in cuts:
        solid = subtract(solid, cut)
    return solid


@given(st.lists(boxes, max_size=5))
def test_subtract_takes_away_exactly_the_boxes(cuts: list[IntBox]) -> None:
    solid = carved(cuts)
    assert cubes(solid) == cubes((BLOCK,)) - cubes(tuple(cuts))
    assert volume(solid) == len(cubes(solid))  # so no two of its boxes share volume


@given(st.lists(boxes, max_size=4), st.lists(boxes, max_size=4))
def test_difference(one: list[IntBox], other: list[IntBox]) -> None:
    a, b = carved(one), carved(other)
    assert cubes(difference(a, b)) == cubes(a) - cubes(b)


@given(st.lists(boxes, max_size=6))
def test_pieces_hang_together_by_faces(cuts: list[IntBox]) -> None:
    solid = carved(cuts)
    found = pieces(solid)
    assert sorted(map(tuple, (b for piece in found for b in piece))) == sorted(map(tuple, solid))
    assert {cubes(piece) for piece in found} == flooded(cubes(solid))
    assert [volume(piece) for piece in found] == sorted(map(volume, found), reverse=True)


def flooded(left: Cubes) -> set[Cubes]:
    waiting, found = set(left), set()
    while waiting:
        queue = [waiting.pop()]
        for x, y, z in queue:
            for step in ((1, 0, 0), (-1, 0, 0), (0, 1, 0), (0, -1, 0), (0, 0, 1), (0, 0, -1)):
                near = (x + step[0], y + step[1], z + step[2])
                if near in waiting:
                    waiting.remove(near)
                    queue.append(near)
        found.add(frozenset(queue))
    return found


@given(
    st.lists(boxes, max_size=4), st.integers(0, 2), st.integers(0, SIDE), st.sampled_from((1, -1))
)
def test_faces_and_crop(cuts: list[IntBox], axis: int, at: int, side: int) -> None:
    solid = carved(cuts)
    others = [a for a in range(3) if a != axis]
    layer = at if side > 0 else at - 1
    # A box may end inside wood; only those of its faces that lie on the plane are asked for.
    squares = {
        (u, v) for r in faces(solid, axis, at, side) for u, v in product(unit(r, 0), unit(r, 2))
    }
    there = {tuple(c[a] for a in others) for c in cubes(solid) if c[axis] == layer}
    assert squares <= there
    assert cubes(cropped(solid, axis, (0, at))) == {c for c in cubes(solid) if c[axis] < at}


@given(boxes, boxes)
def test_overlap(a: IntBox, b: IntBox) -> None:
    assert overlap(a, b) == bool(cubes((a,)) & cubes((b,)))


def test_bounds_moved_and_lengths() -> None:
    solid: Solid = ((0, 2, 1, 3, 0, 1), (2, 5, 0, 1, 0, 4))
    assert bounds(solid) == (0, 5, 0, 3, 0, 4)
    assert bounds(moved(solid, (1, -1, 10))) == (1, 6, -1, 2, 10, 14)
    assert length([]) == 0
    assert length([(4, 6), (0, 1), (5, 9)]) == 6


def test_pieces_that_meet_in_a_line_are_two() -> None:
    assert len(pieces(((0, 1, 0, 1, 0, 1), (1, 2, 1, 2, 0, 1)))) == 2
