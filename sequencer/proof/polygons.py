"""Convex polygons and what is drawn from them: prisms, flat bits, and what is seen of a cell."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from fractions import Fraction
from math import gcd, lcm

from sequencer.proof.cells import (
    Bit,
    Cell,
    Face,
    Length,
    Plane,
    Vertex,
    as_cell,
    cell_of,
    lowest,
    opposite,
    tidy,
)

Point = tuple[Length, Length]


def drawn_out(corners: Sequence[Point], axes: tuple[int, int], along: Point) -> Bit:
    """The prism over a convex polygon in two axes, `along` its range on the third. The polygon has
    an area; no three of its corners lie on a line."""
    return _prism([_corner(point) for point in corners], axes, along)


Corner = tuple[int, int, int]
"""A point of a polygon, in homogeneous whole numbers as a vertex is."""


def _corner(point: Point) -> Corner:
    whole = lcm(point[0].denominator, point[1].denominator)
    return (int(point[0] * whole), int(point[1] * whole), whole)


def _prism(corners: Sequence[Corner], axes: tuple[int, int], along: Point) -> Bit:
    u, v = axes
    loop = corners if _turn(corners[0], corners[1], corners[2]) > 0 else corners[::-1]
    ends = [[_raised(corner, axes, at) for corner in loop] for at in along]
    faces: list[Face] = []
    for sign, at, end in ((-1, along[0], ends[0]), (1, along[1], ends[1])):
        normal = [0, 0, 0]
        normal[3 - u - v] = sign * at.denominator
        faces.append(((normal[0], normal[1], normal[2], sign * at.numerator), tuple(end)))
    for n, b in enumerate(loop):
        a = loop[n - 1]
        out = [0, 0, 0]
        out[u], out[v] = a[2] * b[1] - a[1] * b[2], a[0] * b[2] - a[2] * b[0]
        plane = lowest(out[0], out[1], out[2], a[0] * b[1] - a[1] * b[0])
        faces.append((plane, (ends[0][n - 1], ends[0][n], ends[1][n], ends[1][n - 1])))
    return tidy(cell_of(faces))


def _raised(corner: Corner, axes: tuple[int, int], at: Length) -> Vertex:
    whole = lcm(corner[2], at.denominator)
    place = [int(at * whole)] * 3
    times = whole // corner[2]
    place[axes[0]], place[axes[1]] = corner[0] * times, corner[1] * times
    return (place[0], place[1], place[2], whole)


def _turn(a: Corner, b: Corner, c: Corner) -> int:
    """Above 0 where the way from a over b to c turns left."""
    return (
        a[0] * (b[1] * c[2] - b[2] * c[1])
        - a[1] * (b[0] * c[2] - b[2] * c[0])
        + a[2] * (b[0] * c[1] - b[1] * c[0])
    )


def _hull(points: Iterable[Corner]) -> list[Corner]:
    """The corners of the least convex polygon round the points, in order; none on a line with its
    neighbours."""
    ordered = sorted(set(points), key=lambda p: (Fraction(p[0], p[2]), Fraction(p[1], p[2])))
    sides: list[list[Corner]] = []
    for line in (ordered, ordered[::-1]):
        chain: list[Corner] = []
        for point in line:
            while len(chain) > 1 and _turn(chain[-2], chain[-1], point) <= 0:
                chain.pop()
            chain.append(point)
        sides.append(chain[:-1])
    return sides[0] + sides[1]


def turn(a: Point, b: Point, c: Point) -> Length:
    """Above 0 where the way from a over b to c turns left, below where it turns right."""
    return (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0])


def shadow(bit: Bit, axis: int) -> Bit:
    """What is seen of it along an axis: flat, drawn one thick, on the other two axes in order."""
    u, v = (a for a in range(3) if a != axis)
    if not isinstance(bit, Cell):
        return (bit[2 * u], bit[2 * u + 1], bit[2 * v], bit[2 * v + 1], 0, 1)
    return flat(bit.faces, u, v)


def flat(faces: Sequence[Face], u: int, v: int) -> Bit:
    """The outline of faces seen on two axes, drawn one thick. A face by itself is not seen from
    its edge."""
    corners = [_seen(vertex, u, v) for _, loop in faces for vertex in loop]
    return _prism(corners if len(faces) == 1 else _hull(corners), (0, 1), (0, 1))


def _seen(vertex: Vertex, u: int, v: int) -> Corner:
    most = gcd(vertex[u], vertex[v], vertex[3])
    return (vertex[u] // most, vertex[v] // most, vertex[3] // most)


def raised(bit: Bit, along: Point) -> Bit:
    """A flat bit drawn out along its third axis."""
    if not isinstance(bit, Cell):
        return (bit[0], bit[1], bit[2], bit[3], along[0], along[1])
    (top,) = (loop for plane, loop in bit.faces if plane[2] > 0)
    return _prism([_seen(vertex, 0, 1) for vertex in top], (0, 1), along)


def met(a: Bit, b: Bit) -> Iterator[Plane]:
    """The planes, with `a` inside, on which two bits that share no volume share an area."""
    theirs = {face[0]: face for face in as_cell(b).faces}
    for face in as_cell(a).faces:
        other = theirs.get(opposite(face[0]))
        if other is None:
            continue
        normal = [abs(n) for n in face[0][:3]]
        across = normal.index(max(normal))
        u, v = (axis for axis in range(3) if axis != across)
        if _meet(*([_seen(vertex, u, v) for vertex in loop] for loop in (face[1], other[1]))):
            yield face[0]


def _meet(a: Sequence[Corner], b: Sequence[Corner]) -> bool:
    """Whether two convex polygons share an area: no side of either has the other outside it."""
    return not _parted(a, b) and not _parted(b, a)


def _parted(a: Sequence[Corner], b: Sequence[Corner]) -> bool:
    way = 1 if _turn(a[0], a[1], a[2]) > 0 else -1
    return any(all(way * _turn(a[n - 1], a[n], corner) <= 0 for corner in b) for n in range(len(a)))
