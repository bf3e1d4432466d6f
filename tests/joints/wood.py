"""A joint asked point by point: is there wood of one piece, of both, or of none?

It shares nothing with `sequencer.proof`. Points stand off every surface of every feature on both
sides, and off every mitre's line.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction
from itertools import pairwise, product

from sequencer.plan import Feature, Part, Place, Span

Point = tuple[Fraction, Fraction, Fraction]
WITHIN = (Fraction(1, 97), Fraction(37, 89), Fraction(95, 97))
"""Where in a cell points stand: near both ends and off the middle; on no line at 45° through the
cells' corners. Where all features are boxes, a cell is all wood or none: one point is enough."""


@dataclass(frozen=True)
class Piece:
    """A piece with what it lacks, and where it lies: `origin` and `axes` as in a plan's place."""

    mark: str
    size: Point
    features: tuple[Feature, ...]
    place: Place

    @staticmethod
    def of(part: Part, place: Place) -> Piece:
        size = (part.size.length, part.size.width, part.size.thickness)
        return Piece(part.mark, size, part.features, place)

    @property
    def bounds(self) -> tuple[Span, Span, Span]:
        """The range along each axis of the place that it is put to."""
        found: dict[int, Span] = {}
        for own, most in enumerate(self.size):
            (axis, one), (_, other) = self._outward(own, Fraction(0)), self._outward(own, most)
            found[axis] = (min(one, other), max(one, other))
        return (found[0], found[1], found[2])

    def has(self, point: Point) -> bool:
        own = self._inward(point)
        inside = all(0 < at < most for at, most in zip(own, self.size, strict=True))
        return inside and not any(_lacks(feature, own) for feature in self.features)

    def surfaces(self) -> Iterator[tuple[int, Fraction]]:
        """Every plane of the piece and its features that is square to an axis: the axis it is
        square to, and where on it."""
        whole = tuple((Fraction(0), most) for most in self.size)
        for box in (whole, *(feature.box for feature in self.features)):
            for own, ends in enumerate(box):
                for end in ends:
                    yield self._outward(own, end)

    def across(self, axes: str) -> Iterator[int]:
        """Where axes of the piece's own run in the place that it is put to."""
        yield from ("xyz".index(self.place.axes["xyz".index(axis)][1]) for axis in axes)

    def _inward(self, point: Point) -> Point:
        own = []
        for axis in self.place.axes:
            to = "xyz".index(axis[1])
            along = point[to] - self.place.origin[to]
            own.append(along if axis[0] == "+" else -along)
        return (own[0], own[1], own[2])

    def _outward(self, own: int, at: Fraction) -> tuple[int, Fraction]:
        axis = self.place.axes[own]
        to = "xyz".index(axis[1])
        return to, self.place.origin[to] + (at if axis[0] == "+" else -at)


def _lacks(feature: Feature, point: Point) -> bool:
    if not all(low < at < high for at, (low, high) in zip(point, feature.box, strict=True)):
        return False
    if feature.prism is None:
        return True
    first, second = ("xyz".index(axis) for axis in feature.prism.axes)
    return _within(feature.prism.corners, (point[first], point[second]))


def _within(corners: Sequence[tuple[Fraction, Fraction]], at: tuple[Fraction, Fraction]) -> bool:
    """Even-odd: how often a ray to the right crosses the polygon's sides."""
    x, y = at
    crossed = False
    for (x0, y0), (x1, y1) in pairwise((*corners, corners[0])):
        if (y0 > y) != (y1 > y) and x < x0 + (y - y0) * (x1 - x0) / (y1 - y0):
            crossed = not crossed
    return crossed


def there(pieces: Iterable[Piece], region: tuple[Span, Span, Span]) -> list[Piece]:
    """The pieces that reach into a region."""
    return [piece for piece in pieces if common(piece.bounds, region) is not None]


def common(
    one: tuple[Span, Span, Span], other: tuple[Span, Span, Span]
) -> tuple[Span, Span, Span] | None:
    """What two boxes share, if it is any volume."""
    x, y, z = ((max(a[0], b[0]), min(a[1], b[1])) for a, b in zip(one, other, strict=True))
    return (x, y, z) if all(low < high for low, high in (x, y, z)) else None


def points(pieces: Sequence[Piece], region: tuple[Span, Span, Span]) -> Iterator[Point]:
    """Points of every cell that the pieces' surfaces cut a region into."""
    drawn = {axis for p in pieces for f in p.features if f.prism for axis in p.across(f.prism.axes)}
    planes: list[set[Fraction]] = [set(span) for span in region]
    for piece in pieces:
        for axis, at in piece.surfaces():
            if region[axis][0] < at < region[axis][1]:
                planes[axis].add(at)
    along = [
        [
            low + (high - low) * part
            for low, high in pairwise(sorted(found))
            for part in (WITHIN if axis in drawn else WITHIN[1:2])
        ]
        for axis, found in enumerate(planes)
    ]
    yield from product(*along)
