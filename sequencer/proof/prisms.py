"""A plan's prisms as convex cells: where a polygon turns inward, it is cut into strips."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from fractions import Fraction
from functools import lru_cache
from itertools import pairwise

from sequencer.plan import Prism
from sequencer.proof.cells import Bit, Length
from sequencer.proof.polygons import Point, drawn_out, turn
from sequencer.proof.solid import Solid

MOST_CORNERS = 8
"""A polygon of more is cut into strips though it be convex: taken out whole, it would leave the
wood round it in slivers as long as the piece, each across all others."""


@lru_cache(maxsize=512)
def cells_of(prism: Prism, scale: int) -> Solid:
    """The prism in convex cells that share no volume, in lengths `scale` times the plan's.

    Raises ValueError where it is none: other axes, or no volume.
    """
    if prism.axes not in ("xy", "xz", "yz"):
        raise ValueError(f"a prism is drawn in two axes, not in {prism.axes}")
    axes = ("xyz".index(prism.axes[0]), "xyz".index(prism.axes[1]))
    along = (prism.along[0] * scale, prism.along[1] * scale)
    corners = straightened([(u * scale, v * scale) for u, v in prism.corners])
    if len(corners) < 3 or along[0] >= along[1]:
        raise ValueError("a prism without volume")
    return tuple(_cells(corners, axes, along))


def straightened(corners: Sequence[Point]) -> list[Point]:
    """The polygon's corners without those that are there twice or lie on a straight side."""
    left = list(corners)
    n = 0
    while len(left) > 2 and n < len(left):
        if turn(left[n - 1], left[n], left[(n + 1) % len(left)]) == 0:
            del left[n]
            n = max(0, n - 2)
        else:
            n += 1
    return left


def convex(corners: Sequence[Point]) -> bool:
    """Whether a polygon that does not cross itself turns one way at all its corners."""
    count = len(corners)
    turns = [turn(corners[n - 1], corners[n], corners[(n + 1) % count]) for n in range(count)]
    return all(t >= 0 for t in turns) or all(t <= 0 for t in turns)


def _cells(corners: Sequence[Point], axes: tuple[int, int], along: Point) -> Iterator[Bit]:
    if len(corners) <= MOST_CORNERS and convex(corners):
        yield drawn_out(corners, axes, along)
        return
    for strip in strips(corners):
        yield drawn_out(strip, axes, along)


def strips(corners: Sequence[Point]) -> Iterator[list[Point]]:
    """The polygon in triangles and trapezoids, between every two neighbouring places along its
    first axis at which it has a corner."""
    sides = list(zip(corners, (*corners[1:], corners[0]), strict=True))
    for low, high in pairwise(sorted({corner[0] for corner in corners})):
        crossing = sorted(
            (_at(side, low), _at(side, high))
            for side in (tuple(sorted(side)) for side in sides)
            if side[0][0] <= low and high <= side[1][0] and side[0][0] < side[1][0]
        )
        for below, above in zip(crossing[::2], crossing[1::2], strict=True):
            around = ((low, below[0]), (high, below[1]), (high, above[1]), (low, above[0]))
            yield straightened(around)


def _at(side: tuple[Point, ...], place: Length) -> Length:
    (u0, v0), (u1, v1) = side
    return v0 + Fraction(v1 - v0) * (place - u0) / (u1 - u0)
