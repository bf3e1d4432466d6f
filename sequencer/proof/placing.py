"""Sawn parts where the plan places them in their door.

In the door's frame x is to the right, y up, z toward the cabinet, from its lower left front corner.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from msgspec import Struct

from sequencer.errors import InternalError
from sequencer.facts import Fact
from sequencer.facts import fits as told
from sequencer.plan import Door, Part, Place
from sequencer.proof.cells import Length
from sequencer.proof.compare import Pieces, taken
from sequencer.proof.grain import Grain
from sequencer.proof.hands import Axes, X, axes_of, hand_at, into_door
from sequencer.proof.solid import Solid, bounds, difference, placed

FRAME = ("stile", "rail", "mid rail", "mullion")
"""Roles of what a frame is made of, and in which order it is named."""
_OPEN = frozenset({"rebate", "bevel", "shape"})
"""Kinds of features that are seen on a face as they are: nothing fills them."""

Origin = tuple[Length, Length, Length]


class Put(Struct, frozen=True):
    """A part in its door, as it left the saw and after the bench. `axes` and `origin` are its
    frame's in the door's."""

    part: Part
    axes: Axes
    origin: Origin
    sawn: Solid
    finished: Solid
    grain: Grain

    @property
    def mark(self) -> str:
        return self.part.mark

    @property
    def along(self) -> int:
        """The door's axis that its length runs along."""
        return self.axes[X][0]

    def there(self, solid: Solid) -> Solid:
        """What is in the part's frame, in the door's."""
        return placed(solid, self.axes, self.origin)

    def whole(self) -> Solid:
        """The block that it was sawn from, but for what stays open: rebates, bevels, shapes."""
        solid: Solid = (self.grain.block(self.part.size),)
        for feature in self.part.features:
            if feature.kind in _OPEN:
                solid = difference(solid, taken(self.part, feature, self.grain))
        return self.there(solid)

    def lacks(self, *kinds: str, at: str | None = None) -> Solid:
        """What its features of some kinds, at one place or anywhere, take away."""
        return tuple(
            bit
            for feature in self.part.features
            if feature.kind in kinds and at in (None, feature.at)
            for bit in self.there(taken(self.part, feature, self.grain))
        )


def put(part: Part, place: Place, pieces: Pieces, grain: Grain) -> Put:
    """Raises InternalError where the place's axes are no frame, or wood would have to be mirrored
    to come there."""
    axes = axes_of(place)
    if axes is None:
        raise misplaced(part.mark, told.NO_FRAME(axes=tuple(place.axes)))
    x, y, z = (grain.of(value) for value in place.origin)
    brought = into_door(pieces.marks[part.mark], grain.block(part.size), axes, (x, y, z))
    if brought is None or part.inside not in (None, hand_at(place)):
        raise misplaced(part.mark, told.MIRRORED(side=hand_at(place)))
    sawn = finished = placed(pieces.sawn[part.mark], *brought)
    if pieces.finished[part.mark] != pieces.sawn[part.mark]:
        finished = placed(pieces.finished[part.mark], *brought)
    return Put(part, axes, (x, y, z), sawn, finished, grain)


def put_all(door: Door, parts: Mapping[str, Part], pieces: Pieces, grain: Grain) -> tuple[Put, ...]:
    """Every part of a door. Raises InternalError for a place of no part."""
    found: list[Put] = []
    for place in door.places:
        if place.mark not in parts:
            raise misfit(door, told.NO_PIECE(mark=place.mark))
        found.append(put(parts[place.mark], place, pieces, grain))
    return tuple(found)


def misfit(door: Door, what: Fact, *marks: str) -> InternalError:
    """The error of a door and the pieces that do not fit."""
    if not marks:
        return InternalError(told.OF_DOOR(door=door.mark, what=what))
    return InternalError(told.OF_PIECES(pieces=marks, door=door.mark, what=what))


def misplaced(mark: str, what: Fact) -> InternalError:
    """The error of a piece whose place is none."""
    return InternalError(told.OF_PIECE(piece=mark, what=what))


def wood(puts: Sequence[Put]) -> Solid:
    """All of them as they are after the bench."""
    return tuple(bit for each in puts for bit in each.finished)


def edge_toward(one: Put, other: Put, axis: int) -> tuple[Length, int]:
    """Where the edge of `one` toward the middle of `other` stands along an axis, and which way
    `one` lies from there: 1 up the axis, -1 down."""
    there, here = bounds(one.sawn), bounds(other.sawn)
    low, high = there[2 * axis], there[2 * axis + 1]
    if low + high > here[2 * axis] + here[2 * axis + 1]:
        return low, 1
    return high, -1
