"""What a caliper, a depth gauge or a rule finds on wood that was sawn: each measure by its own
definition, on the solid.

A reading is taken from one pass: from the surface that lay down, along the axis that was guided,
where the pass took wood away. Distances are in grains.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping, Sequence
from fractions import Fraction

from msgspec import Struct

from sequencer.facts import Length as Told
from sequencer.plan import Measure
from sequencer.proof.cells import Bit, Brick, Cell, Length, vertices
from sequencer.proof.grain import Grain
from sequencer.proof.hands import Side, X, Y, Z
from sequencer.proof.kerf import Pass, kerf_of
from sequencer.proof.solid import Solid, bounds, cropped, faces, shared, volume

Span = tuple[Length, Length]
_NO = Fraction(0)
_HALF_WIDTH = Fraction(1, 4)
"""Of the line that wood is looked for along, in grains: it goes between any two sides."""


class Seen(Struct, frozen=True):
    """Wood after a pass, and where to measure on it. `marked` is the marked face's side."""

    wood: Solid
    block: Brick
    made: Pass
    point: tuple[Length, Length, Length]
    """In the middle of what the pass took away, from the surface that lay down and with wood under
    it where there is any."""
    marked: Side
    grain: Grain

    @property
    def across(self) -> int:
        """The axis that the pass was guided along."""
        return self.made.bears[0]

    @property
    def floored(self) -> bool:
        """Whether the pass has a bottom of wood here, no groove that runs under it."""
        spans = self.through(self.made.lies)
        return bool(spans) and spans[0][0] == self.made.depth

    @property
    def skin(self) -> Length:
        """Just within the surface that lay down, on its axis."""
        return self.surface(self.made.lies) - self.made.lies[1] * 2 * _HALF_WIDTH

    def surface(self, side: Side) -> Length:
        """Where a side of the wood is."""
        return self.block[2 * side[0] + (side[1] > 0)]

    def line(self, axis: int, at: Mapping[int, Length]) -> list[Span]:
        """Where there is wood along a line through the point, or `at` other places."""
        found = self.wood
        for other in (X, Y, Z):
            if other != axis:
                place = at.get(other, self.point[other])
                found = cropped(found, other, (place - _HALF_WIDTH, place + _HALF_WIDTH))
        return joined((bit[2 * axis], bit[2 * axis + 1]) for bit in found)

    def along(self, side: Side) -> list[Span]:
        """Wood on the surface that lay down, by its distance from a side that it is measured
        from."""
        return self.told_from(side, self.line(side[0], {self.made.lies[0]: self.skin}))

    def through(self, side: Side) -> list[Span]:
        """Wood where the pass went, by its depth from a side."""
        return self.told_from(side, self.line(side[0], {}))

    def told_from(self, side: Side, spans: list[Span]) -> list[Span]:
        """Spans on the axis of a side by their distance from it, the nearest first."""
        at = self.surface(side)
        if side[1] < 0:
            return [(low - at, high - at) for low, high in spans]
        return [(at - high, at - low) for low, high in reversed(spans)]

    def here(self, side: Side) -> Length:
        return -side[1] * (self.point[side[0]] - self.surface(side))


def seen(before: Solid, wood: Solid, made: Pass, marked: Side, grain: Grain) -> Seen | None:
    """What a pass has left to be measured; `None` where it took nothing."""
    block = bounds(before)
    taken = shared(before, (kerf_of(block, made),))
    if not taken:
        return None
    # Where a groove runs under the cut, its walls alone reach the surface that is measured on.
    axis, side = made.lies
    at = 2 * axis + (side > 0)
    near = [bit for bit in taken if bounds((bit,))[at] == block[at]] or taken
    near = sorted(near, key=lambda bit: volume((bit,)), reverse=True)
    looked = [Seen(wood, block, made, _middle(bit), marked, grain) for bit in near]
    return next((each for each in looked if each.floored), looked[0])


def joined(spans: Iterable[Span]) -> list[Span]:
    """Spans that meet or lie over each other as one, in order.

    >>> joined([(3, 5), (0, 2), (2, 3), (7, 8)])
    [(0, 5), (7, 8)]
    """
    found: list[Span] = []
    for low, high in sorted(spans):
        if found and low <= found[-1][1]:
            found[-1] = (found[-1][0], max(high, found[-1][1]))
        else:
            found.append((low, high))
    return found


def reading(measure: Measure, made: Sequence[Seen]) -> Length | None:
    """What is read of it where these passes were made; `None` where it cannot be measured there, or
    reads differently from pass to pass."""
    take = _TAKES.get(measure.what.value)
    if take is None:
        return None
    found = {take(each, measure) for each in made if _there(each, measure)}
    return found.pop() if len(found) == 1 else None


def _there(each: Seen, measure: Measure) -> bool:
    """Whether the pass is one that is measured at the place."""
    if measure.what.value in _ON_A_FACE and measure.place in ("face", "back"):
        return each.made.down == measure.place
    return True


def _middle(bit: Bit) -> tuple[Length, Length, Length]:
    if not isinstance(bit, Cell):
        x, x1, y, y1, z, z1 = bit
        return (Fraction(x + x1) / 2, Fraction(y + y1) / 2, Fraction(z + z1) / 2)
    points = vertices(bit)
    x, y, z = (sum((Fraction(v[n], v[3]) for v in points), _NO) / len(points) for n in (X, Y, Z))
    return (x, y, z)


# Between walls, on the surface that lay down.


def _wall(each: Seen, side: Side) -> Length | None:
    """From a side to the wall of the cut that is nearer to it."""
    here = each.here(side)
    return next((span[1] for span in reversed(each.along(side)) if span[1] <= here), None)


def _near_wall(each: Seen, _: Measure) -> Length | None:
    return _wall(each, each.made.bears)


def _far_wall(each: Seen, _: Measure) -> Length | None:
    """From the guide to the wall beyond the cut."""
    side = each.made.bears
    return next((span[0] for span in each.along(side) if span[0] >= each.here(side)), None)


def _from_marked(each: Seen, _: Measure) -> Length | None:
    """From the marked face to the first wall of what was cut."""
    spans = each.along(each.marked) if each.across == each.marked[0] else []
    return spans[0][1] if len(spans) > 1 and spans[0][0] == 0 else None


def _channel(each: Seen, _: Measure) -> Length | None:
    """Wall to wall, what is left between the passes broken out."""
    spans = each.along(each.made.bears)
    return spans[-1][0] - spans[0][1] if len(spans) > 1 else None


def _gap(each: Seen, measure: Measure) -> Length | None:
    near, far = _near_wall(each, measure), _far_wall(each, measure)
    return None if near is None or far is None else far - near


def _left_standing(each: Seen, _: Measure) -> Length | None:
    """What stands beside the cut, on the guide's side."""
    side = each.made.bears
    here = each.here(side)
    span = next((span for span in reversed(each.along(side)) if span[1] <= here), None)
    return None if span is None else span[1] - span[0]


def _widest(each: Seen, _: Measure) -> Length | None:
    """What stands beside the cut, on the guide's side, between jaws that reach over all of it."""
    wall = _wall(each, each.made.bears)
    spans = _between_jaws(each)
    return next((span[1] - span[0] for span in spans if span[1] == wall), None)


def _between_cheeks(each: Seen, _: Measure) -> Length | None:
    """The same of a tenon, which a grooved edge may have left beside the cut alone."""
    here = each.here(each.made.bears)
    found = (span for span in reversed(_between_jaws(each)) if span[1] <= here)
    return next((span[1] - span[0] for span in found), None)


def _to_far_cheek(each: Seen, measure: Measure) -> Length | None:
    """From a face to the cheek that is farther from it, jaws over all of it: along a grooved edge
    the wood may end sooner."""
    side = each.made.marks.at(measure.place)
    if side != each.made.bears:
        return None
    here = each.here(side)
    return max((span[1] for span in _between_jaws(each) if span[1] <= here), default=None)


def _between_jaws(each: Seen) -> list[Span]:
    """Where there is wood at the surface that lay down, told from the guide, whatever lies beside
    it along the cut."""
    side, skin = each.made.bears, each.skin
    layer = cropped(each.wood, each.made.lies[0], (skin - _HALF_WIDTH, skin + _HALF_WIDTH))
    first = 2 * side[0]
    return each.told_from(side, joined((bit[first], bit[first + 1]) for bit in layer))


def _between_shoulders(each: Seen, _: Measure) -> Length | None:
    """The length that stands beyond the cut, where it ends short of the other end."""
    side = each.made.bears
    whole = each.block[2 * side[0] + 1] - each.block[2 * side[0]]
    here = each.here(side)
    span = next((span for span in each.along(side) if span[0] >= here), None)
    return None if span is None or span[1] == whole else span[1] - span[0]


# Down from the surface.


def _depth(each: Seen, _: Measure) -> Length | None:
    spans = each.through(each.made.lies)
    return spans[0][0] if spans and spans[0][0] > 0 else None


def _under(each: Seen, _: Measure) -> Length | None:
    """From the bottom of the cut to the other face, where that is there."""
    axis = each.made.lies[0]
    spans = each.through(each.made.lies)
    whole = each.block[2 * axis + 1] - each.block[2 * axis]
    return spans[0][1] - spans[0][0] if len(spans) == 1 and spans[0][1] == whole else None


def _tongue(each: Seen, measure: Measure) -> Length | None:
    """What stands between two cuts from opposite sides: beside them, or below them."""
    if each.made.down not in ("face", "back"):
        return _left_standing(each, measure)
    spans = each.through(each.made.lies)
    axis = each.made.lies[0]
    whole = each.block[2 * axis + 1] - each.block[2 * axis]
    if len(spans) != 1 or not 0 < spans[0][0] < spans[0][1] < whole:
        return None
    return spans[0][1] - spans[0][0]


# Of slanted cuts.


def _bevelled(each: Seen, measure: Measure) -> Length | None:
    """How thick the wood is so far from the edge that lay down, from the guide."""
    if not isinstance(measure.which, Told):
        return None
    axis, below = each.made.lies
    try:
        at = each.surface(each.made.lies) - below * each.grain.of(measure.which.value)
    except ValueError:
        return None
    low, high = each.block[2 * axis], each.block[2 * axis + 1]
    half = cropped(each.wood, axis, (at, high) if below < 0 else (low, at))
    others = [n for n in (X, Y, Z) if n != axis]
    first = 2 * others.index(each.across)
    flat = faces(half, axis, at, -below)
    spans = each.told_from(each.made.bears, joined((bit[first], bit[first + 1]) for bit in flat))
    return spans[0][1] if spans and spans[0][0] == 0 else None


def _to_mitre(each: Seen, _: Measure) -> Length | None:
    """Along the outside edge, from the end to the line, which may begin in the corner."""
    edge = each.made.marks.at("outside-edge")
    axis = each.made.lies[0]
    flat = faces(each.wood, edge[0], each.surface(edge), -edge[1])
    others = [n for n in (X, Y, Z) if n != edge[0]]
    down, first = 2 * others.index(axis), 2 * others.index(X)
    there = [bit for bit in flat if bit[down] < each.skin < bit[down + 1]]
    spans = each.told_from(each.made.bears, joined((bit[first], bit[first + 1]) for bit in there))
    return spans[0][0] if spans else None


def _length(each: Seen, _: Measure) -> Length | None:
    box = bounds(each.wood)
    return box[1] - box[0]


_ON_A_FACE = frozenset({"shoulders", "to-shoulder", "under-housing"})

_TAKES: Mapping[str, Callable[[Seen, Measure], Length | None]] = {
    "channel-width": _channel,
    "channel-depth": _depth,
    "channel-wall": _near_wall,
    "to-channel": _from_marked,
    "tenon": _between_cheeks,
    "tenon-width": _widest,
    "to-far-cheek": _to_far_cheek,
    "shoulders": _between_shoulders,
    "to-shoulder": _far_wall,
    "shoulder-depth": _depth,
    "edge-shoulder-depth": _depth,
    "to-housing": _near_wall,
    "housing-width": _gap,
    "under-housing": _under,
    "to-mitre": _to_mitre,
    "mitre-depth": _depth,
    "tongue": _tongue,
    "lip": _left_standing,
    "rebate-reach": _depth,
    "rebate-width": _far_wall,
    "flat-depth": _depth,
    "bevel": _bevelled,
    "length": _length,
}
"""By the kinds' own ids."""
