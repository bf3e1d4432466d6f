"""Which side of the wood is which: marks, and the turns that bring wood from one place to another.

Wood lies in a right-handed frame of the room and is only ever turned by quarters and shifted. Its
marks say which of its sides is the face, the inside edge, the end A. The frame that they make, x
from end A, y from the inside edge, z from the show face, is right-handed or left-handed: that is
the hand of a piece, and no turning changes it.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from msgspec import Struct

from sequencer.plan import Hand, Place, Plan, StickPiece
from sequencer.proof.cells import Brick, Length
from sequencer.proof.solid import Solid, placed

X, Y, Z = 0, 1, 2
Side = tuple[int, int]
"""The axis that a side of the wood lies across, and which end of it, -1 or 1."""

Axes = tuple[Side, ...]
_OTHER: Mapping[Hand, Hand] = {"left": "right", "right": "left"}


class Marks(Struct, frozen=True):
    """The ends of the wood's x and z at which end A and the show face are; the inside edge is where
    y begins."""

    end_a: int = -1
    face: int = -1

    def at(self, surface: str) -> Side:
        return self.sides[surface]

    @property
    def sides(self) -> Mapping[str, Side]:
        return _SIDES[self.end_a, self.face]

    @property
    def inside(self) -> Hand:
        """The hand of a piece with these marks: `right` where they make a right-handed frame."""
        return "right" if self.end_a * self.face > 0 else "left"

    @property
    def remarked(self) -> Marks:
        """With the other end called A."""
        return Marks(-self.end_a, self.face)

    def told(self, solid: Solid, block: Brick) -> Solid:
        """What is told in the frame of the marks, where it is in the wood that fills `block`; and
        as well what is in the wood, in the frame of the marks."""
        if self == AS_TOLD:
            return solid
        by = (block[1] if self.end_a > 0 else 0, 0, block[5] if self.face > 0 else 0)
        return placed(solid, ((X, -self.end_a), (Y, 1), (Z, -self.face)), by)


def _sides(end_a: int, face: int) -> Mapping[str, Side]:
    return {
        "end-A": (X, end_a),
        "end-B": (X, -end_a),
        "inside-edge": (Y, -1),
        "outside-edge": (Y, 1),
        "face": (Z, face),
        "back": (Z, -face),
    }


AS_TOLD = Marks()
"""Wood that lies in the frame of its marks, as only a piece whose inside edge is right can."""

_SIDES = {(end, face): _sides(end, face) for end in (-1, 1) for face in (-1, 1)}

STICK = Marks(end_a=-1, face=1)
"""A stick lies with its show face up and its inside edge toward the person: x to the right, y away
from the person, z up. Its end A is to the left then."""


def marks_of(piece: StickPiece) -> Marks:
    """Off its stick a piece is the same wood, shifted: it has the stick's face and inside edge, and
    its end A where the stick says."""
    return STICK if piece.end_a == "left" else STICK.remarked


def in_hand(plan: Plan) -> Mapping[str, Marks]:
    """The marks of every piece. Off a stick, one that may be marked again has those of the hand
    that it is wanted in; one that is on no stick is there already, as it is wanted."""
    wanted = {part.mark: part.inside for part in plan.parts}
    wanted |= {place.mark: hand_at(place) for door in plan.doors for place in door.places}
    found = {mark: Marks(1 if hand == "left" else -1) for mark, hand in wanted.items()}
    for stick in plan.sticks:
        for piece in stick.pieces:
            marks = marks_of(piece)
            again = piece.remarked and wanted.get(piece.mark) == _OTHER[marks.inside]
            found[piece.mark] = marks.remarked if again else marks
    return found


def axes_of(place: Place) -> Axes | None:
    """The axes of the door that a piece's axes run along, and which way; `None` where they are no
    frame."""
    axes = tuple(("xyz".find(text[-1:]), -1 if text[:1] == "-" else 1) for text in place.axes)
    return axes if sorted(axis for axis, _ in axes) == [X, Y, Z] else None


def hand_at(place: Place) -> Hand | None:
    """The hand of a piece that lies so. The door's frame, z toward the cabinet, is left-handed."""
    axes = axes_of(place)
    return None if axes is None else "left" if determinant(axes) > 0 else "right"


def determinant(axes: Sequence[Side]) -> int:
    """1 where the axes are turned by quarters, -1 where they are mirrored too."""
    (a, s), (b, t), (c, u) = axes
    even = (a, b, c) in ((X, Y, Z), (Y, Z, X), (Z, X, Y))
    return s * t * u * (1 if even else -1)


def into_door(
    marks: Marks, block: Brick, axes: Axes, origin: Sequence[Length]
) -> tuple[Axes, tuple[Length, Length, Length]] | None:
    """How wood that fills `block` is brought to a place in a door: where its own axes run there,
    and where its origin comes to lie. `None` where it would have to be mirrored: seen in the room,
    the door's z runs the other way."""
    by = list(origin)
    turned: list[Side] = []
    for n, flip in ((X, -marks.end_a), (Y, 1), (Z, -marks.face)):
        axis, sign = axes[n]
        turned.append((axis, sign * flip))
        if flip < 0:
            by[axis] += sign * block[2 * n + 1]
    if determinant(turned) > 0:
        return None
    return tuple(turned), (by[0], by[1], by[2])
