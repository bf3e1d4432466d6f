"""Pieces that were drawn elsewhere: each with its size, its joints and its groove."""

from __future__ import annotations

from fractions import Fraction
from typing import Literal

from msgspec import Struct

End = Literal["slot", "tenon"]
Side = Literal["left", "right"]


class Joinery(Struct, frozen=True):
    """What pieces that go together have in common, all centred in the thickness: the `slot`'s
    width, `clearance`, what the tenon is thinner, and the groove (`None`: there is none)."""

    slot: Fraction | None
    clearance: Fraction
    groove_width: Fraction | None
    groove_depth: Fraction


class Piece(Struct, frozen=True):
    """One piece as it is to leave the saw. `depth_a` and `depth_b` are how deep a slot is from its
    end, or how long a tenon; `tenon_width` is how much of the width the tenons keep, from the
    outside edge. `inside` is its hand, where the table tells it. `door` groups what goes together;
    `where` is `file:line`."""

    mark: str
    name: str
    door: str
    material: str
    length: Fraction
    width: Fraction
    thickness: Fraction
    end_a: End | None
    end_b: End | None
    depth_a: Fraction
    depth_b: Fraction
    tenon_width: Fraction
    joinery: Joinery | None
    where: str
    inside: Side | None = None

    @property
    def ends(self) -> tuple[tuple[str, End, Fraction], ...]:
        """The ends that have a joint: their names, kinds and depths."""
        both = (("A", self.end_a, self.depth_a), ("B", self.end_b, self.depth_b))
        return tuple((at, kind, depth) for at, kind, depth in both if kind is not None)
