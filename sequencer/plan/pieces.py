"""Doors, parts and sticks: wood, as it is designed and laid out. Lengths in the plan's unit."""

from __future__ import annotations

from collections.abc import Mapping
from fractions import Fraction
from typing import Literal

from msgspec import Struct

from sequencer.facts import Fact
from sequencer.records import replace

Span = tuple[Fraction, Fraction]
Box = tuple[Span, Span, Span]
"""x-, y- and z-range in a piece's frame."""

Down = Literal["face", "back", "inside-edge", "outside-edge", "end-A", "end-B"]
Against = Literal["face", "back", "inside-edge", "outside-edge", "end-A", "end-B"]
Keeps = Literal["guide", "far", "larger"]
"""Which side of a through cut is the part; `larger` where an end is squared by eye."""

Hand = Literal["left", "right"]
"""Of a piece, the side that its inside edge is on, seen on its show face with end A up. Pieces of
opposite hand are mirror images: no turning makes one of the other."""

Marked = Literal["face", "back"]
"""Which face carries the face mark: the show face, or where that looks in, the back."""


class Size(Struct, frozen=True):
    length: Fraction
    width: Fraction
    thickness: Fraction


class Prism(Struct, frozen=True):
    """A polygon drawn in two axes of a piece's frame (`axes`: `xy`, `xz` or `yz`) and drawn out
    over a range of the third. Corners go round once, either way; the polygon does not cross
    itself."""

    axes: str
    corners: tuple[tuple[Fraction, Fraction], ...]
    along: Span

    @property
    def box(self) -> Box:
        """The least box round it.

        >>> half, one = Fraction(1, 2), Fraction(1)
        >>> bevel = Prism("yz", ((Fraction(0), half), (Fraction(0), one), (one, one)), (half, one))
        >>> bevel.box == ((half, one), (Fraction(0), one), (half, one))
        True
        """
        spans = {
            axis: (min(values), max(values))
            for axis, values in zip(self.axes, zip(*self.corners, strict=True), strict=True)
        }
        x, y, z = (spans.get(axis, self.along) for axis in "xyz")
        return (x, y, z)

    def reflected(self, axis: str, extent: Fraction) -> Prism:
        """The same with `axis` counted from its other end, `extent` away."""
        if axis not in self.axes:
            return replace(self, along=(extent - self.along[1], extent - self.along[0]))
        u = axis == self.axes[0]
        corners = tuple((extent - a, b) if u else (a, extent - b) for a, b in self.corners)
        return replace(self, corners=corners)


class Feature(Struct, frozen=True):
    """What the finished part lacks.

    `kind` is slot, cheek, edge-cheek, groove, rebate, housing, mitre, bevel or shape; `at` an end
    (`A`, `B`), an edge (`inside-edge`, `outside-edge`), or of a housing `face` or `back`; `mate`
    the mark and end it fits, as `A3/B`. What is no box is a `prism`, and `box` the least box round
    it. `unproven_by_saw` marks what is shaped at the bench.
    """

    kind: str
    at: str
    box: Box
    mate: str | None = None
    prism: Prism | None = None
    unproven_by_saw: bool = False

    @property
    def mate_mark(self) -> str:
        """The piece that it fits; empty where it fits none."""
        return (self.mate or "").rpartition("/")[0]

    @property
    def mate_at(self) -> str:
        """The end of that piece, or its edge."""
        return (self.mate or "").rpartition("/")[2]

    @property
    def shape(self) -> object:
        """What it takes away, however its corners go round: equal for features that take the
        same."""
        if self.prism is None:
            return self.box
        return (self.prism.axes, frozenset(self.prism.corners), self.prism.along)

    def reflected(self, size: Size, axis: str) -> Feature:
        """The same feature of a piece of `size` with `axis`, x, y or z, counted from the other
        side."""
        extent = {"x": size.length, "y": size.width, "z": size.thickness}[axis]
        spans = list(self.box)
        n = "xyz".index(axis)
        spans[n] = (extent - spans[n][1], extent - spans[n][0])
        box = (spans[0], spans[1], spans[2])
        prism = None if self.prism is None else self.prism.reflected(axis, extent)
        return replace(self, box=box, prism=prism)


class Part(Struct, frozen=True):
    """One physical piece as it leaves the saw, before assembly and trimming."""

    mark: str
    door: str
    role: str
    name: Fact
    material: str
    size: Size
    features: tuple[Feature, ...]
    inside: Hand | None = None
    """`None` where no edge is marked."""

    @property
    def either_hand(self) -> bool:
        """Whether its marks alone make it a piece of its hand: its ends are equal and its section
        is centred in the thickness."""
        shapes = [feature.shape for feature in self.features]
        # What is reflected twice is as it was: no shape is left over.
        return all(
            feature.reflected(self.size, axis).shape in shapes
            for axis in "zx"
            for feature in self.features
        )


class Place(Struct, frozen=True):
    """Where a part's frame lies in its door's: x right, y up, z toward the cabinet, from the
    door's lower left front corner. `axes` say where the part's x, y and z run."""

    mark: str
    origin: tuple[Fraction, Fraction, Fraction]
    axes: tuple[str, str, str]

    @property
    def inside(self) -> Hand:
        """The hand of the piece that lies so: `right` where the determinant of its axes is -1.

        >>> nought = (Fraction(0), Fraction(0), Fraction(0))
        >>> Place("A1", nought, ("-y", "-x", "+z")).inside  # a left stile
        'right'
        >>> Place("A3", nought, ("+x", "+y", "+z")).inside  # a top rail
        'left'
        """
        order = ["xyz".index(axis[1]) for axis in self.axes]
        swaps = sum(order[i] > order[j] for i in range(3) for j in range(i + 1, 3))
        turned = sum(axis[0] == "-" for axis in self.axes)
        return "right" if (swaps + turned) % 2 else "left"


class Pane(Struct, frozen=True):
    """A pane of glass, cut to size by others: the box it takes up in its door's frame."""

    mark: str
    box: Box


class Door(Struct, frozen=True):
    """One leaf, `at` its lower left corner in the opening (below 0 where it laps over its case).
    `job` and `name` say whose it is."""

    mark: str
    job: str
    name: Fact
    opening: tuple[Fraction, Fraction]
    size: tuple[Fraction, Fraction]
    at: tuple[Fraction, Fraction]
    hinge: str
    gaps: Mapping[str, Fraction]
    face_side: str
    pair: tuple[str, ...]
    places: tuple[Place, ...]
    panes: tuple[Pane, ...] = ()


AS_THE_STOCK = 0
"""Of how many boards a stick is glued up where nobody has told: as many as their widths ask for."""


class StickPiece(Struct, frozen=True):
    mark: str
    start: Fraction
    """Where the piece begins, from the stick's end A."""
    end_a: Hand = "left"
    """The side that its end A is on in the stick: equals its `inside`."""
    remarked: bool = False
    """Either hand would do, and its marks alone decide."""


class Stick(Struct, frozen=True):
    """A length of stock ripped to one width; `blank` is what to lay out for it before ripping.

    It has one marked face and one inside edge. Seen from the show face's side with the inside edge
    toward the viewer, its end A, which is squared, is to the left: pieces whose `end_a` is `right`
    lie in it turned end for end.

    `test` marks the stick that test pieces come from; `boards` is how many it is glued up from, or
    `AS_THE_STOCK`; `None` where it is one piece.
    """

    mark: str
    material: str
    size: Size
    blank: Size
    pieces: tuple[StickPiece, ...]
    test: bool = False
    boards: int | None = None
    twin: str | None = None
    """The stick that is resawn from one piece together with this one, told of the first of both."""
    marked: Marked = "face"
