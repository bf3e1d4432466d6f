"""Solids as disjoint boxes of whole numbers: exact, and quick enough to saw a kitchen.

A box is `(x0, x1, y0, y1, z0, z1)`; a solid is a tuple of boxes that share no volume, in no
particular order. Two solids are equal when neither has what the other lacks.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence

IntBox = tuple[int, int, int, int, int, int]
Solid = tuple[IntBox, ...]
Rect = tuple[int, int, int, int]
"""A rectangle on a plane across one axis: its range along each of the other two, in their order."""


def overlap(a: IntBox, b: IntBox) -> bool:
    """Whether two boxes share volume.

    >>> overlap((0, 2, 0, 2, 0, 2), (2, 3, 0, 2, 0, 2))
    False
    """
    return (
        a[0] < b[1] and b[0] < a[1] and a[2] < b[3] and b[2] < a[3] and a[4] < b[5] and b[4] < a[5]
    )


def subtract(solid: Iterable[IntBox], box: IntBox) -> Solid:
    """The solid without what lies in the box.

    >>> subtract([(0, 9, 0, 4, 0, 3)], (0, 9, 0, 2, 1, 2))
    ((0, 9, 2, 4, 0, 3), (0, 9, 0, 2, 0, 1), (0, 9, 0, 2, 2, 3))
    """
    left: list[IntBox] = []
    c0, c1, c2, c3, c4, c5 = box
    for piece in solid:
        x0, x1, y0, y1, z0, z1 = piece
        if c0 >= x1 or x0 >= c1 or c2 >= y1 or y0 >= c3 or c4 >= z1 or z0 >= c5:
            left.append(piece)
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


def difference(a: Iterable[IntBox], b: Iterable[IntBox]) -> Solid:
    """What `a` has and `b` lacks.

    >>> difference([(0, 2, 0, 2, 0, 2)], [(0, 1, 0, 2, 0, 2), (1, 2, 0, 2, 0, 2)])
    ()
    """
    rest: Solid = tuple(a)
    for box in b:
        rest = subtract(rest, box)
    return rest


def bounds(solid: Solid) -> IntBox:
    """The least box round a solid that is not empty."""
    columns = tuple(zip(*solid, strict=True))
    return (
        min(columns[0]),
        max(columns[1]),
        min(columns[2]),
        max(columns[3]),
        min(columns[4]),
        max(columns[5]),
    )


def cropped(solid: Iterable[IntBox], axis: int, limits: tuple[int, int]) -> Solid:
    """What of the solid lies within the limits along an axis.

    >>> cropped([(0, 9, 0, 4, 0, 3)], 0, (5, 20))
    ((5, 9, 0, 4, 0, 3),)
    """
    found: list[IntBox] = []
    for box in solid:
        ends = list(box)
        low, high = max(ends[2 * axis], limits[0]), min(ends[2 * axis + 1], limits[1])
        if low < high:
            ends[2 * axis : 2 * axis + 2] = low, high
            found.append((ends[0], ends[1], ends[2], ends[3], ends[4], ends[5]))
    return tuple(found)


def volume(solid: Solid) -> int:
    """Cubic units."""
    return sum((b[1] - b[0]) * (b[3] - b[2]) * (b[5] - b[4]) for b in solid)


def moved(solid: Solid, by: tuple[int, int, int]) -> Solid:
    """The solid shifted along x, y and z."""
    dx, dy, dz = by
    return tuple((b[0] + dx, b[1] + dx, b[2] + dy, b[3] + dy, b[4] + dz, b[5] + dz) for b in solid)


def pieces(solid: Solid) -> tuple[Solid, ...]:
    """The solid's connected pieces: boxes hang together where their faces share an area, as two
    that meet in a line do not. The largest comes first; equal ones by place."""
    waiting = list(solid)
    found: list[Solid] = []
    while waiting:
        piece = [waiting.pop()]
        for box in piece:
            joined = [other for other in waiting if _joined(box, other)]
            if joined:
                waiting = [other for other in waiting if other not in joined]
                piece += joined
        found.append(tuple(piece))
    if len(found) > 1:
        found.sort(key=lambda piece: (-volume(piece), bounds(piece)))
    return tuple(found)


def _joined(a: IntBox, b: IntBox) -> bool:
    dx = min(a[1], b[1]) - max(a[0], b[0])
    dy = min(a[3], b[3]) - max(a[2], b[2])
    dz = min(a[5], b[5]) - max(a[4], b[4])
    # Disjoint boxes touch in exactly one axis, and overlap in the other two.
    return dx >= 0 and dy >= 0 and dz >= 0 and (dx > 0) + (dy > 0) + (dz > 0) >= 2


def faces(solid: Solid, axis: int, at: int, side: int) -> tuple[Rect, ...]:
    """The wood that touches the plane `axis` = `at`: from above the plane with `side` 1, from
    below with `side` -1."""
    low = 2 * axis if side > 0 else 2 * axis + 1
    u, v = (2 * a for a in range(3) if a != axis)
    return tuple((b[u], b[u + 1], b[v], b[v + 1]) for b in solid if b[low] == at)


def cut_away(rects: Iterable[Rect], others: Iterable[Rect]) -> tuple[Rect, ...]:
    """What of the rectangles the others do not cover.

    >>> cut_away([(0, 4, 0, 4)], [(0, 4, 1, 2)])
    ((0, 4, 0, 1), (0, 4, 2, 4))
    """
    flat: Solid = tuple((r[0], r[1], r[2], r[3], 0, 1) for r in rects)
    rest = difference(flat, ((r[0], r[1], r[2], r[3], 0, 1) for r in others))
    return tuple((b[0], b[1], b[2], b[3]) for b in rest)


def length(spans: Sequence[tuple[int, int]]) -> int:
    """How much of a line the spans cover together.

    >>> length([(0, 3), (2, 5), (7, 8)])
    6
    """
    total, end = 0, None
    for low, high in sorted(spans):
        if end is None or low > end:
            total += high - low
            end = high
        elif high > end:
            total += high - end
            end = high
    return total
