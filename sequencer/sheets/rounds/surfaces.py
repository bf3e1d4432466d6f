"""The surface of wood that is told in bits: no face between two bits that touch, no line where one
face goes on in the next.

Faces are kept by their exact planes; only where they lie in a plane is worked out in floating
point. A face that has another label than its neighbour ends there with a line.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass, field

from sequencer.proof.cells import Bit, Plane, as_cell, opposite
from sequencer.sheets.rounds.flat import Point, Range, area, left_over, sides, without

Spot = tuple[float, float, float]
"""A place in the room, in mm."""

Line = tuple[Spot, Spot]


@dataclass(slots=True)
class Surface:
    """A convex flat piece of what is seen: its corners, its direction outward, what it is a piece
    of (`label`), which side of the wood that is (`side`, empty where it is none), and which of its
    edges are drawn, and how."""

    corners: list[Spot]
    normal: Spot
    label: str
    side: str = ""
    edges: list[tuple[Line, str]] = field(default_factory=list)
    told: tuple[Spot, ...] = ()
    """The corners in the frame of the wood; empty for what is no wood."""


Labelled = tuple[str, Bit]
Key = tuple[Plane, str]


def surfaces(
    bits: Iterable[Labelled],
    into: Callable[[Spot], Spot],
    toward: Spot,
    named: Mapping[Plane, str],
    marked: str = "",
    whole: Callable[[Line], list[Line]] = lambda line: [line],
) -> list[Surface]:
    """What of the bits, which share no volume, is turned `toward` the eye. `into` brings their
    lengths into the room, without mirroring. Planes may be `named` as sides of the wood. Edges are
    `heavy` in the `marked` one, else `inner` where two surfaces that are seen meet, else `outer`.
    `whole` takes out of an edge what is not drawn of it.
    """
    heavy = [plane for plane, name in named.items() if name == marked]
    flats = _exposed(bits)
    found: list[tuple[Surface, Plane]] = []
    lines: dict[tuple[int, ...], list[tuple[Range, int]]] = defaultdict(list)
    for (plane, label), group in flats.items():
        raised = _raise(plane)
        normal = _turned(plane, into)
        if sum(a * b for a, b in zip(normal, toward, strict=True)) <= 1e-9:
            continue
        for polygon, ends in zip(group, _ends(group), strict=True):
            told = tuple(raised(point) for point in polygon)
            corners = [into(spot) for spot in told]
            made = Surface(corners, normal, label, named.get(plane, ""), told=told)
            for a, b in ends:
                line = (raised(a), raised(b))
                key, span = _on_line(line)
                lines[key].append((span, len(found)))
                made.edges.append((line, ""))
            found.append((made, plane))
    for number, (made, plane) in enumerate(found):
        made.edges = [
            ((into(a), into(b)), kind)
            for line, _ in made.edges
            for kept, kind in _kinds(line, number, lines, plane, found, heavy)
            for a, b in whole(kept)
        ]
    return [made for made, _ in found]


def _exposed(bits: Iterable[Labelled]) -> Mapping[Key, list[list[Point]]]:
    """By plane and label, the convex pieces of it that no other bit covers."""
    faces: dict[Plane, list[tuple[str, list[Point]]]] = defaultdict(list)
    for label, bit in bits:
        for plane, loop in as_cell(bit).faces:
            across = _across(plane)
            u, v = (axis for axis in range(3) if axis != across)
            polygon = [(vertex[u] / vertex[3], vertex[v] / vertex[3]) for vertex in loop]
            faces[plane].append((label, polygon if area(polygon) > 0 else polygon[::-1]))
    found: dict[Key, list[list[Point]]] = defaultdict(list)
    for plane, group in faces.items():
        covers = [polygon for _, polygon in faces.get(opposite(plane), ())]
        for label, polygon in group:
            left = [polygon]
            for cover in covers:
                left = [rest for part in left for rest in _outside(part, cover)]
            found[plane, label] += left
    return found


def _outside(polygon: list[Point], other: list[Point]) -> list[list[Point]]:
    for axis in (0, 1):
        mine = [point[axis] for point in polygon]
        theirs = [point[axis] for point in other]
        if max(mine) <= min(theirs) or max(theirs) <= min(mine):
            return [polygon]
    return without(polygon, other)


def _across(plane: Plane) -> int:
    steep = [abs(n) for n in plane[:3]]
    return steep.index(max(steep))


def _raise(plane: Plane) -> Callable[[Point], Spot]:
    """From a plane's own two axes back into three."""
    across = _across(plane)
    u, v = (axis for axis in range(3) if axis != across)

    def raised(point: Point) -> Spot:
        spot = [0.0, 0.0, 0.0]
        spot[u], spot[v] = point
        rest = plane[3] - plane[u] * point[0] - plane[v] * point[1]
        spot[across] = rest / plane[across]
        return spot[0], spot[1], spot[2]

    return raised


def _turned(plane: Plane, into: Callable[[Spot], Spot]) -> Spot:
    nought, tip = into((0.0, 0.0, 0.0)), into((float(plane[0]), float(plane[1]), float(plane[2])))
    way = [b - a for a, b in zip(nought, tip, strict=True)]
    length = sum(x * x for x in way) ** 0.5
    return way[0] / length, way[1] / length, way[2] / length


def _ends(group: Sequence[list[Point]]) -> list[list[tuple[Point, Point]]]:
    """Of each polygon in one plane, the stretches of its sides beyond which no other goes on."""
    lines: dict[tuple[int, ...], list[tuple[Range, bool, int, int]]] = defaultdict(list)
    for number, polygon in enumerate(group):
        for place, (a, b) in enumerate(sides(polygon)):
            key, span = _on_line(((a[0], a[1], 0.0), (b[0], b[1], 0.0)))
            forward = span[0] < span[1]
            lines[key].append(((min(span), max(span)), forward, number, place))
    found: list[list[tuple[Point, Point]]] = [[] for _ in group]
    for along in lines.values():
        for span, forward, number, place in along:
            a, b = sides(group[number])[place]
            taken = [other for other, way, _, _ in along if way != forward]
            for low, high in left_over(span, taken):
                shares = [(at - span[0]) / (span[1] - span[0]) for at in (low, high)]
                if not forward:
                    shares = [1 - share for share in shares]
                ends = [(a[0] + s * (b[0] - a[0]), a[1] + s * (b[1] - a[1])) for s in shares]
                found[number].append((ends[0], ends[1]))
    return found


def _on_line(line: Line) -> tuple[tuple[int, ...], Range]:
    """A name for the endless line through two places, the same whichever two, and where they are on
    it."""
    (ax, ay, az), (bx, by, bz) = line
    x, y, z = bx - ax, by - ay, bz - az
    length = (x * x + y * y + z * z) ** 0.5 or 1.0
    x, y, z = x / length, y / length, z / length
    first = x if abs(x) > 1e-7 else y if abs(y) > 1e-7 else z
    if first < 0:
        x, y, z = -x, -y, -z
    start = ax * x + ay * y + az * z
    end = bx * x + by * y + bz * z
    way = round(x * 1e5), round(y * 1e5), round(z * 1e5)
    foot = ax - start * x, ay - start * y, az - start * z
    return (*way, *(round(each * 1e2) for each in foot)), (start, end)


def _kinds(
    line: Line,
    number: int,
    lines: Mapping[tuple[int, ...], list[tuple[Range, int]]],
    plane: Plane,
    found: Sequence[tuple[Surface, Plane]],
    marked: Sequence[Plane],
) -> list[tuple[Line, str]]:
    """A line in its stretches, each with its kind."""
    key, (start, end) = _on_line(line)
    span = (min(start, end), max(start, end))
    label = found[number][0].label
    others = [(_up(other), *found[whose]) for other, whose in lines[key] if whose != number]
    level = [(a, b) for (a, b), made, own in others if own == plane and made.label != label]
    steep = [(a, b) for (a, b), _, own in others if own != plane]
    outer = left_over(span, [*level, *steep])
    inner = left_over(span, outer)

    def at(place: float) -> Spot:
        share = (place - start) / (end - start)
        spot = [a + share * (b - a) for a, b in zip(*line, strict=True)]
        return spot[0], spot[1], spot[2]

    if any(all(_lies_in(end, each) for end in line) for each in marked):
        around = left_over(span, level)
        inner = left_over(span, around)
        return [((at(a), at(b)), "heavy") for a, b in around] + [
            ((at(a), at(b)), "inner") for a, b in inner
        ]
    return [((at(a), at(b)), "outer") for a, b in outer] + [
        ((at(a), at(b)), "inner") for a, b in inner
    ]


def _lies_in(spot: Spot, plane: Plane) -> bool:
    a, b, c, d = plane
    x, y, z = spot
    return abs(a * x + b * y + c * z - d) <= 1e-6 * (abs(d) + abs(a) + abs(b) + abs(c))


def _up(span: Range) -> Range:
    return (min(span), max(span))
