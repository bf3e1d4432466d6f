"""Solids as disjoint bricks and cells: exact, and quick enough to saw a kitchen.

A solid is a tuple of bricks, `(x0, x1, y0, y1, z0, z1)`, and of convex cells where a surface is not
square to an axis. They share no volume and stand in no particular order. Two solids are equal when
neither has what the other lacks. What is flat is a solid too, one thick in its third axis.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from sequencer.proof.cells import (
    Bit,
    Brick,
    Cell,
    Length,
    carried,
    common,
    cut_out,
    opposite,
    tidy,
    volume_of,
)
from sequencer.proof.polygons import flat, met, shadow

IntBox = tuple[int, int, int, int, int, int]
Solid = tuple[Bit, ...]


def overlap(a: Bit, b: Bit) -> bool:
    """Whether two bits share volume.

    >>> overlap((0, 2, 0, 2, 0, 2), (2, 3, 0, 2, 0, 2))
    False
    """
    return (
        a[0] < b[1] and b[0] < a[1] and a[2] < b[3] and b[2] < a[3] and a[4] < b[5] and b[4] < a[5]
    ) and (
        not (isinstance(a, Cell) or isinstance(b, Cell)) or common(a, b) is not None
    )  # fmt: skip


def subtract(solid: Iterable[Bit], cutter: Bit) -> Solid:
    """The solid without what lies in the cutter.

    >>> subtract([(0, 9, 0, 4, 0, 3)], (0, 9, 0, 2, 1, 2))
    ((0, 9, 2, 4, 0, 3), (0, 9, 0, 2, 0, 1), (0, 9, 0, 2, 2, 3))
    """
    left: list[Bit] = []
    c0, c1, c2, c3, c4, c5 = cutter
    skew = isinstance(cutter, Cell)
    for piece in solid:
        x0, x1, y0, y1, z0, z1 = piece
        if c0 >= x1 or x0 >= c1 or c2 >= y1 or y0 >= c3 or c4 >= z1 or z0 >= c5:
            left.append(piece)
            continue
        if skew or isinstance(piece, Cell):
            left += cut_out(piece, cutter)
            continue
        if x0 < c0:
            left.append((x0, c0, y0, y1, z0, z1))
            x0 = c0
        if c1 < x1:
            left.append((c1, x1, y0, y1, z0, z1))
            x1 = c1
        if y0 < c2:
            left.append((x0, x1, y0, c2, z0, z1))
            y0 = c2
        if c3 < y1:
            left.append((x0, x1, c3, y1, z0, z1))
            y1 = c3
        if z0 < c4:
            left.append((x0, x1, y0, y1, z0, c4))
        if c5 < z1:
            left.append((x0, x1, y0, y1, c5, z1))
    return tuple(left)


def difference(a: Iterable[Bit], b: Iterable[Bit]) -> Solid:
    """What `a` has and `b` lacks.

    >>> difference([(0, 2, 0, 2, 0, 2)], [(0, 1, 0, 2, 0, 2), (1, 2, 0, 2, 0, 2)])
    ()
    """
    rest: Solid = tuple(a)
    for bit in b:
        rest = subtract(rest, bit)
    return rest


def shared(a: Iterable[Bit], b: Solid) -> Solid:
    """What both have.

    >>> shared([(0, 2, 0, 2, 0, 2)], ((1, 3, 0, 1, 0, 1), (5, 6, 0, 2, 0, 2)))
    ((1, 2, 0, 1, 0, 1),)
    """
    found: list[Bit] = []
    for one in a:
        for other in b:
            bit = _common(one, other)
            if bit is not None:
                found.append(bit)
    return tuple(found)


def _common(a: Bit, b: Bit) -> Bit | None:
    x0, x1, y0, y1, z0, z1 = a
    c0, c1, c2, c3, c4, c5 = b
    if c0 >= x1 or x0 >= c1 or c2 >= y1 or y0 >= c3 or c4 >= z1 or z0 >= c5:
        return None
    if isinstance(a, Cell) or isinstance(b, Cell):
        return common(a, b)
    return (max(x0, c0), min(x1, c1), max(y0, c2), min(y1, c3), max(z0, c4), min(z1, c5))


def bounds(solid: Solid) -> Brick:
    """The least brick round a solid that is not empty."""
    columns = tuple(zip(*solid, strict=True))
    return (
        min(columns[0]),
        max(columns[1]),
        min(columns[2]),
        max(columns[3]),
        min(columns[4]),
        max(columns[5]),
    )


def cropped(solid: Iterable[Bit], axis: int, limits: tuple[Length, Length]) -> Solid:
    """What of the solid lies within the limits along an axis.

    >>> cropped([(0, 9, 0, 4, 0, 3)], 0, (5, 20))
    ((5, 9, 0, 4, 0, 3),)
    """
    found: list[Bit] = []
    for bit in solid:
        ends = list(bit)
        low, high = max(ends[2 * axis], limits[0]), min(ends[2 * axis + 1], limits[1])
        if low < high:
            ends[2 * axis : 2 * axis + 2] = low, high
            box = (ends[0], ends[1], ends[2], ends[3], ends[4], ends[5])
            if isinstance(bit, Cell):
                within = common(bit, box)
                assert within is not None
                found.append(within)
            else:
                found.append(box)
    return tuple(found)


def volume(solid: Iterable[Bit]) -> Length:
    """Cubic units."""
    return sum(volume_of(bit) for bit in solid)


_AS_IT_IS = ((0, 1), (1, 1), (2, 1))


def moved(solid: Solid, by: tuple[Length, Length, Length]) -> Solid:
    """The solid shifted along x, y and z."""
    dx, dy, dz = by
    return tuple(
        tidy(carried(b, _AS_IT_IS, by))
        if isinstance(b, Cell)
        else (b[0] + dx, b[1] + dx, b[2] + dy, b[3] + dy, b[4] + dz, b[5] + dz)
        for b in solid
    )


def placed(
    solid: Solid, axes: Sequence[tuple[int, int]], by: tuple[Length, Length, Length]
) -> Solid:
    """The solid in another frame: `axes` say for each of its axes which one it becomes and in
    which direction, 1 or -1, and `by` is where its origin comes to lie."""
    found: list[Bit] = []
    for bit in solid:
        if isinstance(bit, Cell):
            found.append(tidy(carried(bit, axes, by)))
            continue
        new: list[Length] = [0, 0, 0, 0, 0, 0]
        for n, (axis, sign) in enumerate(axes):
            low = by[axis] + sign * bit[2 * n + (sign < 0)]
            high = by[axis] + sign * bit[2 * n + (sign > 0)]
            new[2 * axis : 2 * axis + 2] = low, high
        found.append((new[0], new[1], new[2], new[3], new[4], new[5]))
    return tuple(found)


def pieces(solid: Solid) -> tuple[Solid, ...]:
    """The solid's connected pieces: bits hang together where their faces share an area, as two
    that meet in a line do not. The largest comes first; equal ones by place."""
    waiting = list(solid)
    found: list[Solid] = []
    while waiting:
        piece = [waiting.pop()]
        for bit in piece:
            joined = [other for other in waiting if touch(bit, other)]
            if joined:
                waiting = [other for other in waiting if other not in joined]
                piece += joined
        found.append(tuple(piece))
    if len(found) > 1:
        found.sort(key=lambda piece: (-volume(piece), bounds(piece)))
    return tuple(found)


def touch(a: Bit, b: Bit) -> bool:
    """Whether faces of two bits that share no volume share an area."""
    a0, a1, a2, a3, a4, a5 = a
    b0, b1, b2, b3, b4, b5 = b
    if a1 < b0 or b1 < a0 or a3 < b2 or b3 < a2 or a5 < b4 or b5 < a4:
        return False
    # Disjoint bricks touch in exactly one axis, and overlap in the other two.
    if (a1 == b0 or b1 == a0) + (a3 == b2 or b3 == a2) + (a5 == b4 or b5 == a4) > 1:
        return False
    if isinstance(a, Cell) or isinstance(b, Cell):
        return any(True for _ in met(a, b))
    return True


def faces(solid: Solid, axis: int, at: Length, side: int) -> Solid:
    """The wood that touches the plane `axis` = `at`: from above the plane with `side` 1, from
    below with `side` -1. It is flat, on the other two axes in their order."""
    low = 2 * axis if side > 0 else 2 * axis + 1
    u, v = _OTHERS[axis]
    found: list[Bit] = []
    for bit in solid:
        if bit[low] != at:
            continue
        if not isinstance(bit, Cell):
            found.append((bit[2 * u], bit[2 * u + 1], bit[2 * v], bit[2 * v + 1], 0, 1))
            continue
        for face in bit.faces:
            plane = face[0] if side < 0 else opposite(face[0])
            if plane[axis] > 0 and not plane[u] and not plane[v]:
                found.append(flat([face], u, v))
    return tuple(found)


_OTHERS = ((1, 2), (0, 2), (0, 1))


def outline(solid: Solid, axis: int) -> Solid:
    """What is seen of the solid along an axis, flat; its bits may lie over each other."""
    return tuple(shadow(bit, axis) for bit in solid)


def length(spans: Sequence[tuple[Length, Length]]) -> Length:
    """How much of a line the spans cover together.

    >>> length([(0, 3), (2, 5), (7, 8)])
    6
    """
    total: Length = 0
    end: Length | None = None
    for low, high in sorted(spans):
        if end is None or low > end:
            total += high - low
            end = high
        elif high > end:
            total += high - end
            end = high
    return total
