"""Doors, parts and sticks: wood, as it is designed and laid out. Lengths in the plan's unit."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction
from typing import Literal

Span = tuple[Fraction, Fraction]
Box = tuple[Span, Span, Span]
"""x-, y- and z-range in a piece's frame."""

Down = Literal["face", "back", "inside-edge", "outside-edge", "end-A", "end-B"]
Against = Literal["face", "back", "inside-edge", "outside-edge", "end-A", "end-B"]
Keeps = Literal["guide", "far", "larger"]
"""Which side of a through cut is the part; `larger` where an end is squared by eye."""


@dataclass(frozen=True, slots=True)
class Size:
    length: Fraction
    width: Fraction
    thickness: Fraction


@dataclass(frozen=True, slots=True)
class Prism:
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


@dataclass(frozen=True, slots=True)
class Feature:
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


@dataclass(frozen=True, slots=True)
class Part:
    """One physical piece as it leaves the saw, before assembly and trimming."""

    mark: str
    door: str
    role: str
    name: str
    material: str
    size: Size
    features: tuple[Feature, ...]


@dataclass(frozen=True, slots=True)
class Place:
    """Where a part's frame lies in its door's: x right, y up, z toward the cabinet, from the
    door's lower left front corner. `axes` say where the part's x, y and z run."""

    mark: str
    origin: tuple[Fraction, Fraction, Fraction]
    axes: tuple[str, str, str]


@dataclass(frozen=True, slots=True)
class Pane:
    """A pane of glass, cut to size by others: the box it takes up in its door's frame."""

    mark: str
    box: Box


@dataclass(frozen=True, slots=True)
class Door:
    """One leaf, `at` its lower left corner in the opening (below 0 where it laps over its case).
    `job` and `name` say whose it is."""

    mark: str
    job: str
    name: str
    opening: tuple[Fraction, Fraction]
    size: tuple[Fraction, Fraction]
    at: tuple[Fraction, Fraction]
    hinge: str
    gaps: Mapping[str, Fraction]
    face_side: str
    pair: tuple[str, ...]
    places: tuple[Place, ...]
    panes: tuple[Pane, ...] = ()


@dataclass(frozen=True, slots=True)
class StickPiece:
    mark: str
    start: Fraction
    """Where the piece begins, from the stick's end A."""


@dataclass(frozen=True, slots=True)
class Stick:
    """A length of stock ripped to one width; `blank` is what to lay out for it before ripping.

    `test` marks the stick that test pieces come from; `boards` is how many it is glued up from,
    where the job says so.
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
