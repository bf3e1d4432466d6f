"""Convex polygons in a plane, in floating point: what a picture needs of clipping, and no proof."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

Point = tuple[float, float]
Range = tuple[float, float]
Box = tuple[float, float, float, float]
"""The least and the largest of both coordinates: x, y, x, y."""

HAIR = 1e-6
"""In mm of the wood: nearer than that is the same place."""


def halves(
    points: Sequence[tuple[float, ...]], heights: Sequence[float]
) -> tuple[list[tuple[float, ...]], list[tuple[float, ...]]]:
    """A convex polygon, in the plane or in the room, parted where `heights` of its corners change
    their sign: what is below and what is above. Corners on the line belong to both."""
    below: list[tuple[float, ...]] = []
    above: list[tuple[float, ...]] = []
    before, at_before = points[-1], heights[-1]
    for point, at in zip(points, heights, strict=True):
        if (at_before < -HAIR and at > HAIR) or (at_before > HAIR and at < -HAIR):
            share = at_before / (at_before - at)
            met = tuple(a + share * (b - a) for a, b in zip(before, point, strict=True))
            below.append(met)
            above.append(met)
        if at <= HAIR:
            below.append(point)
        if at >= -HAIR:
            above.append(point)
        before, at_before = point, at
    return below, above


def sides(polygon: Sequence[Point]) -> list[tuple[Point, Point]]:
    """Its sides, each from corner to corner, in its own order."""
    return [(polygon[n - 1], polygon[n]) for n in range(len(polygon))]


def area(polygon: Sequence[Point]) -> float:
    """Above 0 where the corners go round to the left."""
    return sum(a[0] * b[1] - a[1] * b[0] for a, b in sides(polygon)) / 2


def left_of(side: tuple[Point, Point], points: Iterable[Point]) -> list[float]:
    """How far each point is to the left of a side."""
    (ax, ay), (bx, by) = side
    dx, dy = bx - ax, by - ay
    length = (dx * dx + dy * dy) ** 0.5 or 1.0
    return [(dx * (y - ay) - dy * (x - ax)) / length for x, y in points]


def box(points: Sequence[Point]) -> Box:
    """What they lie in.

    >>> box([(1, 5), (3, 2)])
    (1, 2, 3, 5)
    """
    xs, ys = [x for x, _ in points], [y for _, y in points]
    return min(xs), min(ys), max(xs), max(ys)


def meet(one: Box, other: Box, by: float = 0.0) -> bool:
    """Whether two boxes share more than a side, or are no farther from that than `by`."""
    return (
        one[0] < other[2] + by
        and other[0] < one[2] + by
        and one[1] < other[3] + by
        and other[1] < one[3] + by
    )


def within(polygon: Sequence[Point], point: Point) -> bool:
    """Whether a point is inside a convex polygon that goes round to the left, or on its side."""
    x, y = point
    ax, ay = polygon[-1]
    for bx, by in polygon:
        if (bx - ax) * (y - ay) - (by - ay) * (x - ax) < -HAIR:
            return False
        ax, ay = bx, by
    return True


def without(polygon: Sequence[Point], other: Sequence[Point]) -> list[list[Point]]:
    """What of a convex polygon is outside another, in convex polygons. Both go round to the left.

    >>> without([(0, 0), (4, 0), (4, 1), (0, 1)], [(1, 0), (9, 0), (9, 1), (1, 1)])
    [[(0, 0), (1.0, 0.0), (1.0, 1.0), (0, 1)]]
    """
    left: list[list[Point]] = []
    rest: list[Point] = list(polygon)
    for side in sides(other):
        outside, inside = halves(rest, left_of(side, rest))
        if len(outside) > 2 and area(_points(outside)) > HAIR:
            left.append(_points(outside))
        rest = _points(inside)
        if len(rest) < 3 or area(rest) <= HAIR:
            return [list(polygon)]
    return left


def common(polygon: Sequence[Point], other: Sequence[Point]) -> list[Point]:
    """What two convex polygons that go round to the left share; empty where that has no area."""
    rest: list[Point] = list(polygon)
    for side in sides(other):
        heights = left_of(side, rest)
        if min(heights) >= -HAIR:
            continue
        _, inside = halves(rest, heights)
        rest = _points(inside)
        if len(rest) < 3:
            return []
    return rest


def _points(found: Iterable[tuple[float, ...]]) -> list[Point]:
    return [(point[0], point[1]) for point in found]


def clipped(line: tuple[Point, Point], polygon: Sequence[Point]) -> tuple[Point, Point] | None:
    """What of a line lies in a convex polygon that goes round to the left."""
    low, high = 0.0, 1.0
    for side in sides(polygon):
        a, b = left_of(side, line)
        if a < -HAIR and b < -HAIR:
            return None
        if abs(a - b) < HAIR:
            continue
        at = a / (a - b)
        if b > a:
            low = max(low, at)
        else:
            high = min(high, at)
    if high - low <= HAIR:
        return None
    (ax, ay), (bx, by) = line
    dx, dy = bx - ax, by - ay
    return (ax + low * dx, ay + low * dy), (ax + high * dx, ay + high * dy)


def left_over(span: Range, taken: Iterable[Range]) -> list[Range]:
    """What of a range the others do not cover.

    >>> left_over((0, 9), [(2, 3), (5, 20)])
    [(0, 2), (3, 5)]
    """
    low, high = span
    found: list[Range] = []
    for start, end in sorted(taken):
        if end <= low + HAIR:
            continue
        if start >= high - HAIR:
            break
        if start > low + HAIR:
            found.append((low, start))
        low = max(low, end)
        if low >= high - HAIR:
            break
    if low < high - HAIR:
        found.append((low, high))
    return found
