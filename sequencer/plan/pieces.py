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

CarrierName = Literal["rip-fence", "crosscut-sled", "tenoning-jig"]
GuardState = Literal["fitted", "knife", "cover"]


@dataclass(frozen=True, slots=True)
class Size:
    length: Fraction
    width: Fraction
    thickness: Fraction


@dataclass(frozen=True, slots=True)
class Feature:
    """What the finished part lacks: `kind` is slot, cheek, edge-cheek or groove; `at` an end
    (`A`, `B`) or `inside-edge`; `mate` the mark and end it fits, as `A3/B`."""

    kind: str
    at: str
    box: Box
    mate: str | None = None


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
class Door:
    """One leaf, `at` its lower left corner in the opening. `job` and `name` say whose it is."""

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


@dataclass(frozen=True, slots=True)
class StickPiece:
    mark: str
    start: Fraction
    """Where the piece begins, from the stick's end A."""


@dataclass(frozen=True, slots=True)
class Stick:
    """A length of stock ripped to one width; `blank` is what to lay out for it before ripping.

    `test` marks the stick that test pieces come from.
    """

    mark: str
    material: str
    size: Size
    blank: Size
    pieces: tuple[StickPiece, ...]
    test: bool = False
