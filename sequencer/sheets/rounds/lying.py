"""How wood lies before the blade: turned by quarters and shifted from the frame it is sawn in to
that of the room, never mirrored, and drawn shorter where nothing is cut.

The room: x to the right, y away from the person along the feed, z up; the blade's side that looks
at fence, stop or jig stands at x = 0, its axle at y = 0, the table is z = 0.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Sequence
from fractions import Fraction
from itertools import pairwise

from msgspec import Struct, field

from sequencer.plan import Hand
from sequencer.proof.carriers import CARRIERS
from sequencer.proof.cells import Bit, Cell, Length, vertices
from sequencer.proof.hands import Axes, Side, X, Y, Z, determinant
from sequencer.proof.kerf import Pass
from sequencer.proof.solid import cropped, moved
from sequencer.sheets.rounds.surfaces import Spot

Span = tuple[Length, Length]


def turned(made: Pass, guide: Hand) -> Axes:
    """Which axis of the room each axis of the wood becomes, and which way, where the guiding
    surface stands on that side of the blade. What is down looks down, what is against the guide
    looks at it, and the third follows, since wood is not mirrored."""
    down, at_guide = made.lies, made.bears
    out = 1 if guide == "right" else -1
    if CARRIERS[made.carrier].slanted:
        # The fence stands behind the piece, at its outside edge.
        return framed({down[0]: (Z, -down[1]), Y: (Y, -1)})
    return framed({down[0]: (Z, -down[1]), at_guide[0]: (X, out * at_guide[1])})


def framed(known: dict[int, Side]) -> Axes:
    """Two axes with their ways, and the third as it must be where nothing is mirrored."""
    missing = next(axis for axis in (X, Y, Z) if axis not in known)
    free = next(axis for axis in (X, Y, Z) if axis not in [side[0] for side in known.values()])
    for sign in (1, -1):
        axes = tuple({**known, missing: (free, sign)}[axis] for axis in (X, Y, Z))
        if determinant(axes) > 0:
            return axes
    raise AssertionError


def placing(axes: Axes, mm: float) -> Callable[[Spot], Spot]:
    """Brings places in the wood to the room, in mm, round one origin."""

    def into(spot: Spot) -> Spot:
        place = [0.0, 0.0, 0.0]
        for value, (axis, way) in zip(spot, axes, strict=True):
            place[axis] = way * value * mm
        return place[0], place[1], place[2]

    return into


class Break(Struct, frozen=True):
    """A place where the wood is drawn shorter: the axis of the wood, and where it is on it then."""

    axis: int
    at: Length


class Shortened(Struct):
    """What is left out along each axis of the wood."""

    out: dict[int, list[Span]] = field(default_factory=dict)

    def at(self, axis: int, place: Length) -> Length:
        """Where a place is drawn."""
        gone: Length = 0
        for low, high in self.out.get(axis, ()):
            if place >= high:
                gone += high - low
            elif place > low:
                gone += place - low
        return place - gone

    def bits(self, labelled: Iterable[tuple[str, Bit]]) -> list[tuple[str, Bit]]:
        """The wood without what is left out."""
        left = list(labelled)
        for axis in self.out:
            left = [(label, part) for label, bit in left for part in self._drawn(bit, axis)]
        return left

    def _drawn(self, bit: Bit, axis: int) -> Iterator[Bit]:
        """A bit without what is left out of it along one axis."""
        spans = self.out[axis]
        starts = [bit[2 * axis], *(high for _, high in spans)]
        ends = [*(low for low, _ in spans), bit[2 * axis + 1]]
        for low, high in zip(starts, ends, strict=True):
            by: list[Length] = [0, 0, 0]
            by[axis] = self.at(axis, max(low, bit[2 * axis])) - max(low, bit[2 * axis])
            yield from moved(cropped((bit,), axis, (low, high)), (by[0], by[1], by[2]))

    @property
    def breaks(self) -> list[Break]:
        return [
            Break(axis, self.at(axis, low)) for axis, spans in self.out.items() for low, _ in spans
        ]


def shortened(
    bits: Sequence[Bit],
    also: Sequence[tuple[int, Length]],
    most: Length,
    margin: Length,
    breaks: int = 3,
) -> Shortened:
    """What to leave out so that no side is drawn longer than `most` where that can be: only from
    the longest stretches in which nothing begins or ends, `margin` kept at both their ends. `also`
    are further places, each with its axis, that stay as they are. There are no more than `breaks`
    along an axis: the eye would see nothing else."""
    found = Shortened()
    for axis in (X, Y, Z):
        places = sorted(
            {place for bit in bits for place in _places(bit, axis)}
            | {place for other, place in also if other == axis}
        )
        excess = places[-1] - places[0] - most
        slopes = [span for bit in bits if isinstance(bit, Cell) for span in _slopes(bit, axis)]
        gaps = [
            (low, high)
            for low, high in pairwise(places)
            if not any(start < high and low < end for start, end in slopes)
        ]
        gaps.sort(key=lambda gap: gap[0] - gap[1])
        for low, high in gaps[:breaks]:
            room = high - low - 2 * margin
            # A further break only where the wood would be drawn half as long again.
            enough = 2 * excess <= most if axis in found.out else excess <= margin
            if enough or room <= 2 * margin:
                break
            out = int(min(excess, room))
            start = (low + high - out) // 2
            found.out.setdefault(axis, []).append((start, start + out))
            excess -= out
        if axis in found.out:
            found.out[axis].sort()
    return found


def _places(bit: Bit, axis: int) -> set[Length]:
    """Where it has corners along an axis."""
    return {Fraction(vertex[axis], vertex[3]) for vertex in vertices(bit)}


def _slopes(cell: Cell, axis: int) -> Iterator[Span]:
    """Where its section changes along an axis."""
    for plane, loop in cell.faces:
        if plane[axis] and any(plane[a] for a in (X, Y, Z) if a != axis):
            places = [Fraction(vertex[axis], vertex[3]) for vertex in loop]
            yield min(places), max(places)
