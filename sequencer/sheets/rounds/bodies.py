"""Saw table, blade, fence, sled and jig as convex bodies in the room."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from math import asin, cos, pi, sin

from sequencer.sheets.rounds.surfaces import Line, Spot, Surface

Corner = tuple[float, float]
Into = Callable[[Spot], Spot]

RADIUS = 127.0
"""Of the blade that is drawn, in mm: one of 10 in or 254 mm."""

_TEETH = 40


def as_it_is(spot: Spot) -> Spot:
    return spot


def prism(
    polygon: Sequence[Corner],
    axes: tuple[int, int],
    along: Corner,
    label: str,
    toward: Spot,
    into: Into = as_it_is,
) -> list[Surface]:
    """What is seen of the body over a convex polygon in two axes, drawn out along the third."""
    third = 3 - axes[0] - axes[1]

    def spot(corner: Corner, at: float) -> Spot:
        place = [0.0, 0.0, 0.0]
        place[axes[0]], place[axes[1]], place[third] = corner[0], corner[1], at
        return into((place[0], place[1], place[2]))

    ends = [[spot(corner, at) for corner in polygon] for at in along]
    count = len(polygon)
    faces = [*ends]
    faces += [[ends[0][n - 1], ends[0][n], ends[1][n], ends[1][n - 1]] for n in range(count)]
    middle = _mean([corner for end in ends for corner in end])
    normals = [_outward(face, middle) for face in faces]
    seen = [_dot(normal, toward) > 1e-9 for normal in normals]
    found = []
    for n, face in enumerate(faces):
        if not seen[n]:
            continue
        beyond = _neighbours(n, count)
        made = Surface(face, normals[n], label)
        for place, (a, b) in enumerate(zip(face, [*face[1:], face[0]], strict=True)):
            other = beyond[place]
            smooth = _dot(normals[n], normals[other]) > 0.9
            if not (seen[other] and smooth):
                made.edges.append(((a, b), "inner" if seen[other] else "outer"))
        found.append(made)
    return found


def _neighbours(n: int, count: int) -> list[int]:
    """Of each side of a face, from its corner to the next, which face lies beyond."""
    if n < 2:
        return [2 + (place + 1) % count for place in range(count)]
    side = n - 2
    return [0, 2 + (side + 1) % count, 1, 2 + (side - 1) % count]


def box(
    x: Corner, y: Corner, z: Corner, label: str, toward: Spot, into: Into = as_it_is
) -> list[Surface]:
    """A body square to the room."""
    low, high = min(x), max(x)
    polygon = [(low, y[0]), (high, y[0]), (high, y[1]), (low, y[1])]
    return prism(polygon, (0, 1), z, label, toward, into)


def blade(
    across: Corner, height: float, lean: float, toward: Spot, under: float = 0.0
) -> list[Surface]:
    """What stands of the blade above `under`; it leans by `lean` to the right in one unit of
    height. Its teeth are as high as `height` says."""
    top = height - RADIUS
    root = RADIUS - 5.0

    def into(spot: Spot) -> Spot:
        return spot[0] + lean * spot[2], spot[1], spot[2]

    def rim(angle: float, radius: float) -> Corner:
        return radius * sin(angle), top + radius * cos(angle)

    half = half_chord(height, under, root)
    last = asin(min(1.0, half / root)) if half else 0.0
    if top > under:
        last = pi - last
    steps = max(6, int(2 * last / (2 * pi / _TEETH)) + 1)
    angles = [last * (2 * n / steps - 1) for n in range(steps + 1)]
    found: list[Surface] = []
    if half:
        found = prism([rim(a, root) for a in angles], (1, 2), across, "blade", toward, into)
    for a in angles[1:-1]:
        # On the side that is seen, in its plane: what is in front of a tooth hides it too.
        side = across[0] if toward[0] < 0 else across[1]
        way = 2 * pi / _TEETH
        tooth = [rim(a - way * 0.35, root), rim(a - way * 0.3, RADIUS), rim(a + way * 0.3, root)]
        if min(corner[1] for corner in tooth) <= under:
            continue
        corners = [into((side, y, z)) for y, z in tooth]
        made = Surface(
            corners, _outward(corners, into(((across[0] + across[1]) / 2, 0, top))), "blade"
        )
        found.append(made)
    return found


def half_chord(height: float, level: float, radius: float = RADIUS) -> float:
    """How far the blade reaches before and behind its axle at a level above the table."""
    off = level - (height - RADIUS)
    return (radius**2 - off**2) ** 0.5 if abs(off) < radius else 0.0


def flat(corners: Sequence[Corner], z: float, label: str) -> Surface:
    """A level surface that is seen from above, without edges."""
    return Surface([(x, y, z) for x, y in corners], (0.0, 0.0, 1.0), label)


def outline(corners: Sequence[Spot]) -> list[Line]:
    return list(zip(corners, [*corners[1:], corners[0]], strict=True))


def _mean(spots: Sequence[Spot]) -> Spot:
    count = len(spots)
    x, y, z = (sum(values) / count for values in zip(*spots, strict=True))
    return x, y, z


def _outward(face: Sequence[Spot], middle: Spot) -> Spot:
    a, b, c = face[0], face[1], face[2]
    one = [q - p for p, q in zip(a, b, strict=True)]
    two = [q - p for p, q in zip(a, c, strict=True)]
    way = [
        one[1] * two[2] - one[2] * two[1],
        one[2] * two[0] - one[0] * two[2],
        one[0] * two[1] - one[1] * two[0],
    ]
    length = sum(x * x for x in way) ** 0.5
    out = sum(w * (p - m) for w, p, m in zip(way, a, middle, strict=True))
    if out < 0:
        length = -length
    return way[0] / length, way[1] / length, way[2] / length


def _dot(a: Spot, b: Spot) -> float:
    return a[0] * b[0] + a[1] * b[1] + a[2] * b[2]
