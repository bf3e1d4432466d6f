"""Convex cells in exact arithmetic: what a solid is made of where a surface is not square to it.

A `Brick` is six lengths, `(x0, x1, y0, y1, z0, z1)`. A `Cell` is any other convex polyhedron; read
by index or unpacked it gives the six lengths of the least brick round it. Vertices are homogeneous
whole numbers `(X, Y, Z, W)`, W above 0, for the point X/W, Y/W, Z/W; a plane `(a, b, c, d)` has
its inside where ax + by + cz ≤ d. Both are in lowest terms.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from fractions import Fraction
from itertools import pairwise
from math import gcd, lcm

from msgspec import Struct

Length = int | Fraction
Brick = tuple[Length, Length, Length, Length, Length, Length]
Vertex = tuple[int, int, int, int]
Plane = tuple[int, int, int, int]
Face = tuple[Plane, tuple[Vertex, ...]]


class Cell(Struct, frozen=True):
    """`faces` are its sides, each with its plane and its corners in order round it; `box` is the
    least brick round it."""

    box: Brick
    faces: tuple[Face, ...]

    def __getitem__(self, index: int) -> Length:
        return self.box[index]

    def __iter__(self) -> Iterator[Length]:
        return iter(self.box)


Bit = Brick | Cell


def opposite(plane: Plane) -> Plane:
    """The same plane with its inside outside."""
    a, b, c, d = plane
    return (-a, -b, -c, -d)


def plane_of(normal: tuple[Length, Length, Length], at: Length) -> Plane:
    """The plane with its inside where normal · point ≤ at.

    >>> plane_of((Fraction(1, 2), 0, 0), 3)
    (1, 0, 0, 6)
    """
    whole = lcm(*(value.denominator for value in (*normal, at)))
    a, b, c, d = (int(value * whole) for value in (*normal, at))
    common = gcd(a, b, c, d)
    return (a // common, b // common, c // common, d // common)


def height(plane: Plane, vertex: Vertex) -> int:
    """How far a vertex is outside a plane, scaled; below 0 inside."""
    return plane[0] * vertex[0] + plane[1] * vertex[1] + plane[2] * vertex[2] - (
        plane[3] * vertex[3]
    )  # fmt: skip


def planes_of(bit: Bit) -> tuple[Plane, ...]:
    """The planes of all its sides, those square to an axis first."""
    if isinstance(bit, Cell):
        return tuple(sorted((face[0] for face in bit.faces), key=_skew))
    found: list[Plane] = []
    for axis in range(3):
        normal = [0, 0, 0]
        for sign, at in ((-1, bit[2 * axis]), (1, bit[2 * axis + 1])):
            normal[axis] = sign * at.denominator
            found.append((normal[0], normal[1], normal[2], sign * at.numerator))
    return tuple(found)


def _skew(plane: Plane) -> bool:
    return (plane[0] != 0) + (plane[1] != 0) + (plane[2] != 0) > 1


def vertices(bit: Bit) -> tuple[Vertex, ...]:
    """Its corners, each once."""
    if isinstance(bit, Cell):
        return tuple(dict.fromkeys(v for _, loop in bit.faces for v in loop))
    return tuple(
        _vertex(x, y, z) for x in (bit[0], bit[1]) for y in (bit[2], bit[3])
        for z in (bit[4], bit[5])
    )  # fmt: skip


def _vertex(x: Length, y: Length, z: Length) -> Vertex:
    whole = lcm(x.denominator, y.denominator, z.denominator)
    return (int(x * whole), int(y * whole), int(z * whole), whole)


_LOOPS = ((0, 1, 3, 2), (4, 5, 7, 6), (0, 1, 5, 4), (2, 3, 7, 6), (0, 2, 6, 4), (1, 3, 7, 5))


def as_cell(bit: Bit) -> Cell:
    """A brick as a cell like any other."""
    if isinstance(bit, Cell):
        return bit
    corners = vertices(bit)
    return Cell(
        bit,
        tuple(
            (plane, tuple(corners[n] for n in loop))
            for plane, loop in zip(planes_of(bit), _LOOPS, strict=True)
        ),
    )


def cell_of(faces: Sequence[Face]) -> Cell:
    """The cell with these sides."""
    points = {v for _, loop in faces for v in loop}
    box: list[Length] = []
    for axis in range(3):
        low = high = next(iter(points))
        for v in points:
            if v[axis] * low[3] < low[axis] * v[3]:
                low = v
            elif v[axis] * high[3] > high[axis] * v[3]:
                high = v
        box += [_length(low[axis], low[3]), _length(high[axis], high[3])]
    return Cell((box[0], box[1], box[2], box[3], box[4], box[5]), tuple(faces))


def _length(number: int, whole: int) -> Length:
    return _whole(Fraction(number, whole)) if whole != 1 else number


def _whole(value: Length) -> Length:
    return value.numerator if value.denominator == 1 else value


def tidy(cell: Cell) -> Bit:
    """The brick that a cell is, where it is one."""
    if len(cell.faces) == 6 and not any(_skew(face[0]) for face in cell.faces):
        return cell.box
    return cell


def split(cell: Cell, plane: Plane) -> tuple[Cell | None, Cell | None]:
    """What of the cell is inside the plane, and what outside; `None` where it has no volume."""
    a, b, c, d = plane
    heights: dict[Vertex, int] = {}
    for _, loop in cell.faces:
        for v in loop:
            if v not in heights:
                heights[v] = a * v[0] + b * v[1] + c * v[2] - d * v[3]
    if max(heights.values()) <= 0:
        return cell, None
    if min(heights.values()) >= 0:
        return None, cell
    low: list[Face] = []
    high: list[Face] = []
    edges: dict[Vertex, list[Vertex]] = {}
    crossings: dict[tuple[Vertex, Vertex], Vertex] = {}
    for side, loop in cell.faces:
        below: list[Vertex] = []
        above: list[Vertex] = []
        seam: list[Vertex] = []
        before = loop[-1]
        at_before = heights[before]
        for vertex in loop:
            at = heights[vertex]
            if at_before * at < 0:
                key = (before, vertex) if before < vertex else (vertex, before)
                if key not in crossings:
                    crossings[key] = _crossing(*key, heights[key[0]], heights[key[1]])
                crossed = crossings[key]
                below.append(crossed)
                above.append(crossed)
                seam.append(crossed)
            if at <= 0:
                below.append(vertex)
            if at >= 0:
                above.append(vertex)
            if at == 0:
                seam.append(vertex)
            before, at_before = vertex, at
        inside = any(heights.get(v, 0) < 0 for v in below)
        if inside:
            low.append((side, tuple(below)))
            # Each edge of the new side belongs to just one of the sides that stay inside.
            if len(seam) == 2:
                edges.setdefault(seam[0], []).append(seam[1])
                edges.setdefault(seam[1], []).append(seam[0])
        if any(heights.get(v, 0) > 0 for v in above):
            high.append((side, tuple(above)))
    cut = _chained(edges)
    low.append((plane, cut))
    high.append((opposite(plane), cut))
    return cell_of(low), cell_of(high)


def _crossing(one: Vertex, other: Vertex, at_one: int, at_other: int) -> Vertex:
    if at_other < 0:
        one, other, at_one, at_other = other, one, at_other, at_one
    x, y, z, w = (at_other * p - at_one * q for p, q in zip(one, other, strict=True))
    if w < 0:
        x, y, z, w = -x, -y, -z, -w
    common = gcd(x, y, z, w)
    return (x // common, y // common, z // common, w // common)


def _chained(edges: dict[Vertex, list[Vertex]]) -> tuple[Vertex, ...]:
    first = next(iter(edges))
    loop = [first]
    before, here = first, edges[first][0]
    while here != first:
        loop.append(here)
        one, other = edges[here]
        before, here = here, other if one == before else one
    return tuple(loop)


def parted(bit: Bit, plane: Plane) -> tuple[Bit | None, Bit | None]:
    """What `split` gives, of a brick too, and bricks again where they are."""
    if isinstance(bit, Cell) or _skew(plane):
        inside, outside = split(as_cell(bit), plane)
        return inside and tidy(inside), outside and tidy(outside)
    axis = 0 if plane[0] else 1 if plane[1] else 2
    at = _length(plane[3], plane[axis])
    below: Brick | None = bit
    above: Brick | None = bit
    if at <= bit[2 * axis]:
        below = None
    elif at < bit[2 * axis + 1]:
        ends = list(bit)
        ends[2 * axis + 1] = at
        below = (ends[0], ends[1], ends[2], ends[3], ends[4], ends[5])
        ends = list(bit)
        ends[2 * axis] = at
        above = (ends[0], ends[1], ends[2], ends[3], ends[4], ends[5])
    else:
        above = None
    return (below, above) if plane[axis] > 0 else (above, below)


def within(bit: Bit, plane: Plane) -> bool:
    """Whether all of it is inside the plane or on it."""
    if not isinstance(bit, Cell):
        a, b, c, d = plane
        return a * bit[a > 0] + b * bit[2 + (b > 0)] + c * bit[4 + (c > 0)] <= d
    return all(height(plane, v) <= 0 for v in vertices(bit))


def _apart(bit: Bit, other: Bit) -> bool:
    """Whether the other lies outside one of the cell's sloping sides: where their least boxes
    overlap, this most often tells at once that they do not."""
    if not isinstance(bit, Cell):
        return False
    points = vertices(other)
    return any(all(height(plane, v) >= 0 for v in points) for plane, _ in bit.faces if _skew(plane))


def cut_out(bit: Bit, cutter: Bit) -> list[Bit]:
    """What of a bit is outside the cutter, in bits; the bit itself where they share no volume."""
    if _apart(bit, cutter) or _apart(cutter, bit):
        return [bit]
    left: list[Bit] = []
    rest = bit
    for plane in planes_of(cutter):
        inside, outside = parted(rest, plane)
        if inside is None:
            return [bit]
        if outside is not None:
            left.append(outside)
        rest = inside
    return left


def common(bit: Bit, other: Bit) -> Bit | None:
    """What two bits share; `None` where that has no volume."""
    if _apart(bit, other) or _apart(other, bit):
        return None
    rest = bit
    for plane in planes_of(other):
        inside, _ = parted(rest, plane)
        if inside is None:
            return None
        rest = inside
    return rest


def volume_of(bit: Bit) -> Length:
    """Cubic units: of a cell, the cones from one of its corners to all its sides."""
    if not isinstance(bit, Cell):
        return (bit[1] - bit[0]) * (bit[3] - bit[2]) * (bit[5] - bit[4])
    whole = lcm(*(v[3] for _, loop in bit.faces for v in loop))
    apex = _times(bit.faces[0][1][0], whole)
    six = 0
    for _, loop in bit.faces:
        arms = [[c - a for c, a in zip(_times(v, whole), apex, strict=True)] for v in loop]
        for one, other in pairwise(arms[1:]):
            six += abs(_determinant(arms[0], one, other))
    return _whole(Fraction(six, 6 * whole**3))


def _times(v: Vertex, whole: int) -> tuple[int, int, int]:
    by = whole // v[3]
    return (v[0] * by, v[1] * by, v[2] * by)


def _determinant(a: Sequence[int], b: Sequence[int], c: Sequence[int]) -> int:
    return (
        a[0] * (b[1] * c[2] - b[2] * c[1])
        - a[1] * (b[0] * c[2] - b[2] * c[0])
        + a[2] * (b[0] * c[1] - b[1] * c[0])
    )


def carried(cell: Cell, axes: Sequence[tuple[int, int]], by: Sequence[Length]) -> Cell:
    """The cell in another frame: `axes` say for each of its axes which one it becomes and in which
    direction, 1 or -1, and `by` is where its origin comes to lie."""
    part = lcm(*(value.denominator for value in by))
    shift = [int(value * part) for value in by]
    known: dict[Vertex, Vertex] = {}
    faces: list[Face] = []
    for plane, loop in cell.faces:
        normal = [0, 0, 0]
        for n, (axis, sign) in enumerate(axes):
            normal[axis] = part * sign * plane[n]
        at = part * plane[3] + sum(n * b for n, b in zip(normal, shift, strict=True)) // part
        for vertex in loop:
            if vertex not in known:
                place = [vertex[3] * b for b in shift]
                for n, (axis, sign) in enumerate(axes):
                    place[axis] += part * sign * vertex[n]
                known[vertex] = lowest(place[0], place[1], place[2], part * vertex[3])
        moved = tuple(known[vertex] for vertex in loop)
        faces.append((lowest(normal[0], normal[1], normal[2], at), moved))
    return cell_of(faces)


def lowest(a: int, b: int, c: int, d: int) -> tuple[int, int, int, int]:
    """Four numbers without what divides them all."""
    common = gcd(a, b, c, d)
    return (a // common, b // common, c // common, d // common) if common > 1 else (a, b, c, d)
