"""What a rule finds on a leaf as the plan places its pieces: openings, lights, edges, gaps.

Read from places, sizes and features alone, in the plan's unit. In the door's frame x is to the
right, y up, from its lower left front corner.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from fractions import Fraction
from itertools import pairwise

from msgspec import Struct

from sequencer.plan import Box, Door, Feature, Part, Place, Plan, Prism

Point = tuple[Fraction, Fraction]
NONE = Fraction(0)
Pick = Callable[[Sequence[Fraction]], Fraction]


class Piece(Struct, frozen=True):
    """A part in its door: what it fills of it, seen from the front."""

    part: Part
    place: Place
    x: Point
    y: Point

    @property
    def role(self) -> str:
        return self.part.role

    def features(self, kind: str) -> list[Feature]:
        return [feature for feature in self.part.features if feature.kind == kind]


class Standing(Struct, frozen=True):
    """A leaf with its pieces; where it is `framed`, two stiles and two rails are among them."""

    door: Door
    pieces: tuple[Piece, ...]

    @classmethod
    def of(cls, plan: Plan, door: Door) -> Standing:
        """Pieces of which the plan knows no place are left out: the assembly tells of them."""
        parts = {part.mark: part for part in plan.parts}
        there = ((parts[place.mark], place) for place in door.places if place.mark in parts)
        return cls(door, tuple(_piece(part, place) for part, place in there))

    def role(self, *roles: str) -> list[Piece]:
        return [piece for piece in self.pieces if piece.role in roles]

    @property
    def framed(self) -> bool:
        return len(self.role("stile")) == 2 and len(self.role("rail")) == 2

    @property
    def stiles(self) -> tuple[Piece, Piece]:
        left, right = sorted(self.role("stile"), key=lambda piece: piece.x)
        return left, right

    @property
    def rails(self) -> tuple[Piece, Piece]:
        """Bottom and top."""
        bottom, top = sorted(self.role("rail"), key=lambda piece: piece.y)
        return bottom, top

    @property
    def sight(self) -> Point:
        """Width and height inside the frame, beside a shaped edge."""
        left, right = self.stiles
        bottom, top = self.rails
        return right.x[0] - left.x[1], top.y[0] - bottom.y[1]

    def lights(self, pick: Pick = max) -> list[Point]:
        """What bars leave open, as `between` has it; under a shaped rail where it is highest, or
        lowest."""
        rise, top = self._rise(pick), self.rails[1]
        return [
            (
                after.x[0] - before.x[1],
                above.y[0] - below.y[1] + (rise if above is top else NONE),
            )
            for before, after, below, above in self.between()
        ]

    def between(self) -> list[tuple[Piece, Piece, Piece, Piece]]:
        """What stands to the left and right of each light, below and above it: row by row from the
        top, from the left."""
        left, right = self.stiles
        bottom, top = self.rails
        across = sorted((*self.role("mid rail"), bottom, top), key=lambda p: p.y, reverse=True)
        found: list[tuple[Piece, Piece, Piece, Piece]] = []
        for above, below in pairwise(across):
            upright = [m for m in self.role("mullion") if below.y[1] <= _middle(m.y) <= above.y[0]]
            row = sorted((left, *upright, right), key=lambda piece: piece.x)
            found += [(before, after, below, above) for before, after in pairwise(row)]
        return found

    def _rise(self, pick: Pick) -> Fraction:
        """How much higher a shaped top rail's edge stands at its highest, or lowest."""
        edge = shaped_edge(self, self.rails[1])
        if edge is None:
            return NONE
        return pick([edge.depth(at) for at in (*edge.at("either"), *edge.at("middle"))])

    def board_gaps(self, marks: Sequence[str]) -> list[Fraction]:
        """Between the boards with these marks, neighbours in one light: from shoulder to edge."""
        boards = sorted(
            (p for p in self.role("board") if p.part.mark in marks), key=lambda p: (p.y, p.x)
        )
        return [
            after.x[0] - before.x[0] - _body(before)
            for before, after in pairwise(boards)
            if before.y == after.y and not self._barred(before, after)
        ]

    def _barred(self, before: Piece, after: Piece) -> bool:
        """Whether a mullion stands between two pieces of a row; its ends may be let through a bar,
        up to the next row."""
        return any(
            _middle(before.x) < _middle(bar.x) < _middle(after.x)
            and before.y[0] < _middle(bar.y) < before.y[1]
            for bar in self.role("mullion")
        )

    def gap(self, side: str) -> Fraction | None:
        return self.door.gaps.get(side)


class Shaped(Struct, frozen=True):
    """A shaped top rail's edge, seen from the front, and the groove along it; or a panel's top.
    `across` is the range of the shape along the edge."""

    piece: Piece
    features: tuple[Feature, ...]
    across: Point
    turned: bool
    """Whether, seen from the front, what is left on it is at the end of the range."""
    inward: bool
    """Whether its marked face looks in."""

    def at(self, place: str, off: Fraction = NONE, *, front: bool = False) -> list[Fraction]:
        """Where the measure is taken, by a place's name and how far from there: left and right as
        they are seen on the marked face, or from the front."""
        low, high = self.across
        sides = {"left": [low + off], "right": [high - off]}
        if self.turned != (self.inward and not front):
            sides = {"left": sides["right"], "right": sides["left"]}
        sides["either"] = [low + off, high - off]
        sides["middle"] = [(low + high) / 2]
        return sides[place.removeprefix("from-")]

    def depth(self, at: Fraction) -> Fraction:
        """How far from the straight edge or end the shape goes there."""
        along = 0 if self.piece.role == "rail" else 1
        return max(
            (_reach(f.prism, along, at) for f in self.features if f.prism is not None), default=NONE
        )


def shaped_edge(leaf: Standing, piece: Piece) -> Shaped | None:
    """The edge of a rail, or the top of a panel; `None` where it is straight."""
    found = tuple(f for f in piece.features("shape") if _whole(f, piece))
    if not found:
        return None
    axis = 0 if piece.role == "rail" else 1
    spans = [f.box[axis] for f in found]
    across = (min(low for low, _ in spans), max(high for _, high in spans))
    turned = piece.place.axes[axis][0] == "-"
    return Shaped(piece, found, across, turned, leaf.door.face_side == "in")


def shaped_groove(piece: Piece) -> Feature | None:
    """The groove along a shaped edge: it goes through less than the thickness."""
    return next((f for f in piece.features("shape") if not _whole(f, piece)), None)


def groove_depth(leaf: Standing) -> Fraction | None:
    """Of the grooves in the stiles, all alike."""
    stile = leaf.stiles[0]
    depths = {_long(f.box, 1) for f in stile.features("groove")}
    return depths.pop() if len(depths) == 1 else None


def _piece(part: Part, place: Place) -> Piece:
    sizes = (part.size.length, part.size.width, part.size.thickness)
    spans = {}
    for axis, size in zip(place.axes, sizes, strict=True):
        at = place.origin["xyz".index(axis[1])]
        spans[axis[1]] = (at - size, at) if axis[0] == "-" else (at, at + size)
    return Piece(part, place, spans["x"], spans["y"])


def _body(board: Piece) -> Fraction:
    """How wide a board is without its tongue."""
    tongue = [f.box[1][0] for f in board.features("rebate") if f.at == "outside-edge"]
    return min(tongue, default=board.part.size.width)


def _whole(feature: Feature, piece: Piece) -> bool:
    return feature.box[2] == (NONE, piece.part.size.thickness)


def _long(box: Box, axis: int) -> Fraction:
    return box[axis][1] - box[axis][0]


def _middle(span: Point) -> Fraction:
    return (span[0] + span[1]) / 2


def _reach(prism: Prism, along: int, at: Fraction) -> Fraction:
    """The farthest point of a polygon on a line across it."""
    return max(_crossings(prism.corners, along, at), default=NONE)


def _crossings(corners: Sequence[Point], along: int, at: Fraction) -> Iterator[Fraction]:
    for n, end in enumerate(corners):
        start = corners[n - 1]
        low, high = sorted((start[along], end[along]))
        if not low <= at <= high:
            continue
        if low == high:
            yield from (start[1 - along], end[1 - along])
            continue
        share = (at - start[along]) / (end[along] - start[along])
        yield start[1 - along] + share * (end[1 - along] - start[1 - along])
