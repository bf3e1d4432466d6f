"""A leaf as it stands: its pieces, the lights between them, and how far those are off."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction
from functools import cached_property
from itertools import pairwise

from msgspec import Struct

from sequencer.plan import Box, Door, Feature, Part, Place, Plan, Season
from sequencer.saw.measures import What as Measured
from sequencer.tolerance.cases import ZERO, known
from sequencer.tolerance.errors import Errors
from sequencer.tolerance.floor import Floor
from sequencer.tolerance.forms import Form

Kinds = tuple[Measured, Measured, Measured]
_ACROSS: Kinds = (Measured.OPENING_WIDTH, Measured.EACH_WIDTH, Measured.LIGHT_WIDTH)
_UP: Kinds = (Measured.OPENING_HEIGHT, Measured.EACH_HEIGHT, Measured.LIGHT_HEIGHT)
"""What is measured of a frame's opening, of lights that are alike, and of one of several."""
_FRAME = ("stile", "rail", "mid rail", "mullion")
Ends = tuple[Fraction, Fraction]


class Piece(Struct, frozen=True):
    """A part in its door: what it fills, to the right and up."""

    part: Part
    place: Place
    x: Ends
    y: Ends

    @classmethod
    def put(cls, part: Part, place: Place) -> Piece:
        size = part.size
        x, y = _stands(place, ((ZERO, size.length), (ZERO, size.width), (ZERO, size.thickness)))
        return cls(part, place, x, y)

    def meets(self, other: Piece, box: Box) -> bool:
        """Whether a box of this piece lies over the other, seen from the front."""
        x, y = _stands(self.place, box)
        return all(a[0] < b[1] and b[0] < a[1] for a, b in ((x, other.x), (y, other.y)))


def _stands(place: Place, box: Box) -> tuple[Ends, Ends]:
    """To the right and up, what a box of a piece takes up."""
    spans = [(ZERO, ZERO)] * 3
    for (low, high), axis in zip(box, place.axes, strict=True):
        n = "xyz".index(axis[1])
        at = place.origin[n]
        spans[n] = (at + low, at + high) if axis[0] == "+" else (at - high, at - low)
    return spans[0], spans[1]


@dataclass
class Standing:
    """The pieces of one leaf."""

    plan: Plan
    door: Door
    floor: Floor
    errors: Errors

    @cached_property
    def pieces(self) -> tuple[Piece, ...]:
        there = ((self.floor.parts.get(p.mark), p) for p in self.door.places)
        return tuple(Piece.put(part, place) for part, place in there if part is not None)

    @cached_property
    def season(self) -> Season | None:
        return next((s for s in self.plan.seasons if s.door == self.door.mark), None)

    @property
    def members(self) -> Iterator[Piece]:
        return (piece for piece in self.pieces if piece.part.role in _FRAME)

    def column(self) -> list[Piece]:
        """The rails and bars over each other beside the left stile, from below."""
        stiles = [m.x[1] for m in self.members if m.part.role == "stile"]
        inside = min(stiles, default=ZERO)
        rails = [m for m in self.members if m.part.role in ("rail", "mid rail")]
        return sorted((r for r in rails if r.x[0] <= inside < r.x[1]), key=lambda rail: rail.y)

    def groove_width(self, part: Part, groove: Feature) -> Form | None:
        walls = known(*(self.floor.plane(part.mark, z, (groove.at,)) for z in groove.box[2]))
        return None if walls is None else walls[1] - walls[0]

    def groove_depth(self, part: Part) -> tuple[Fraction, Form] | None:
        for groove in part.features:
            if groove.kind in ("groove", "rebate"):
                deep = groove.box[1][1] - groove.box[1][0]
                form = self.floor.depth(part.mark, groove.at, deep)
                return None if form is None else (deep, form)
        return None

    def bottoms(self, sides: tuple[Piece, Piece]) -> tuple[Fraction, Form] | None:
        """How deep the grooves or rebates at both sides are together; `None` where one has none."""
        depths = [self.groove_depth(side.part) for side in sides]
        if depths[0] is None or depths[1] is None:
            return None
        return depths[0][0] + depths[1][0], depths[0][1] + depths[1][1]

    def measured(self, what: Measured, *marks: str) -> Form | None:
        """What a check at the bench leaves open."""
        for number, check in enumerate(self.plan.checkpoints):
            if check.measure.what is what and check.knob is None and set(marks) & set(check.marks):
                return self.errors.read(number)
        return None

    def width_of(self, piece: Piece) -> Form | None:
        """How far a panel's width is off, by its check where it has one, else as it was ripped."""
        found = self.measured(Measured.PANEL_WIDTH, piece.part.mark)
        return found or self.floor.width(piece.part.mark)

    def light_width(self, left: Piece, right: Piece) -> Form | None:
        """How far the width between two uprights is off: by the dry frame's check, or by the
        shoulders of the rails between, whichever tells it closer."""
        wide = right.x[0] - left.x[1]
        forms = list(self.read_between(left, right, _ACROSS))
        forms += [
            form
            for member in self.members
            if member.part.role in ("rail", "mid rail")
            for form in (self.between(member.part, wide),)
            if form is not None
        ][:1]
        return self.errors.narrowest(forms)

    def light_height(self, below: Piece, above: Piece) -> Form | None:
        """How far two rails or bars over each other are apart, off from where an edge is lowest: by
        the dry frame's check."""
        return self.errors.narrowest(list(self.read_between(below, above, _UP)))

    def read_between(self, low: Piece, high: Piece, kinds: Kinds) -> Iterator[Form]:
        """What checks in the dry frame leave open of how far two members are apart: those that
        measure between these two. Between them along a shaped edge is where that is lowest."""
        whole, each, light = kinds
        roles = ("stile",) if kinds is _ACROSS else ("rail",)
        ends = {piece.part.mark for piece in self.members if piece.part.role in roles}
        marks = (low.part.mark, high.part.mark)
        size = high.x[0] - low.x[1] if kinds is _ACROSS else high.y[0] - low.y[1]
        numbers = {
            str(number)
            for number, sides in enumerate(self.numbered, 1)
            if (sides[:2] if kinds is _ACROSS else sides[2:]) == marks
        }
        for number, check in enumerate(self.plan.checkpoints):
            measure = check.measure
            here = (
                measure.what is each
                or (measure.what is whole and ends == set(marks))
                or (measure.what is light and measure.which in numbers)
            )
            # Of one place of an edge and another, the size tells which is lowest.
            low_there = check.exact == size and measure.place not in ("highest", "middle")
            if here and low_there and self.door.mark in check.marks:
                yield self.errors.read(number)

    @cached_property
    def numbered(self) -> tuple[tuple[str, str, str, str], ...]:
        """The marks to the left and right of each light, below and above it, as their checks number
        them: from the top, in a row from the left."""
        uprights = [m for m in self.members if m.part.role in ("stile", "mullion")]
        column = sorted(
            (m for m in self.members if m.part.role in ("rail", "mid rail")),
            key=lambda m: m.y, reverse=True,
        )  # fmt: skip
        found = []
        for above, below in pairwise(column):
            middle = (above.y[0] + below.y[1]) / 2
            row = sorted((m for m in uprights if m.y[0] < middle < m.y[1]), key=lambda m: m.x)
            found += [
                (left.part.mark, right.part.mark, below.part.mark, above.part.mark)
                for left, right in pairwise(row)
            ]
        return tuple(found)

    def between(self, bar: Part, size: Fraction) -> Form | None:
        """From shoulder to shoulder of a bar, where that is the size."""
        length = self.floor.length(bar.mark)
        long = {
            at: max(
                (f.box[0][1] - f.box[0][0] for f in bar.features
                 if f.kind == "cheek" and f.at == at), default=None,
            )
            for at in ("A", "B")
        }  # fmt: skip
        if length is None or long["A"] is None or long["B"] is None:
            return None
        if bar.size.length - long["A"] - long["B"] != size:
            return None
        ends = known(
            self.floor.shoulder(bar.mark, "end-A", long["A"]),
            self.floor.shoulder(bar.mark, "end-B", long["B"]),
        )
        return None if ends is None else length - ends[0] - ends[1]

    def beside(self, x: Ends, y: Ends, *, upright: bool) -> tuple[Piece, Piece] | None:
        """The two members whose grooves hold both sides of what lies there."""
        roles = ("stile", "mullion") if upright else ("rail", "mid rail")
        n, other = ("x", "y") if upright else ("y", "x")
        mine, cross = (x, y) if upright else (y, x)
        middle = (cross[0] + cross[1]) / 2
        there = [
            m for m in self.members
            if m.part.role in roles and getattr(m, other)[0] < middle < getattr(m, other)[1]
        ]  # fmt: skip
        centre = (mine[0] + mine[1]) / 2
        low = [m for m in there if getattr(m, n)[1] <= centre]
        high = [m for m in there if getattr(m, n)[0] >= centre]
        if not low or not high:
            return None
        return max(low, key=lambda m: getattr(m, n)), min(high, key=lambda m: getattr(m, n))
