"""The line that a shaped top rail's lower edge follows, and lines beside it.

Heights are above the rail's lower edge as it leaves the saw; distances run from the left shoulder.
An arch is part of a circle: from its span c and rise h the radius is (c²/4 + h²) / (2h), the chord
and its middle ordinate of the handbooks. Lines beside it, a groove's bottom or a panel's edge, are
as far from it everywhere, at right angles to it.
"""

from __future__ import annotations

from collections.abc import Mapping
from fractions import Fraction
from math import isqrt
from typing import Literal

from msgspec import Struct

from sequencer.job.schema import Door, Side
from sequencer.lengths import Unit

ZERO = Fraction(0)

ORDINATE: Mapping[Unit, Fraction] = {"in": Fraction(1, 1000), "mm": Fraction(1, 100)}
"""Irrational heights are rounded to this step; ours, finer than anybody lays out."""

MOST_STATIONS = 6
"""Between an end and the middle."""

_SPACINGS: Mapping[Unit, tuple[Fraction, ...]] = {
    "in": tuple(map(Fraction, ("1/2", "1", "2", "3", "4", "6", "12", "24"))),
    "mm": tuple(map(Fraction, ("10", "20", "25", "50", "100", "200", "500"))),
}
_FINE = 10**6
Rounding = Literal["nearest", "down", "up"]


class Curve(Struct, frozen=True):
    """An edge over `span`, `rise` higher where it is highest: in the middle, or at its left or
    right end."""

    highest: Literal["middle", "left", "right"]
    span: Fraction
    rise: Fraction
    step: Fraction
    spacing: Fraction

    @property
    def radius(self) -> Fraction | None:
        """Of an arch, exactly."""
        if self.highest != "middle":
            return None
        return (self.span**2 / 4 + self.rise**2) / (2 * self.rise)

    def height(
        self, at: Fraction, offset: Fraction = ZERO, rounding: Rounding = "nearest"
    ) -> Fraction:
        """Of the line `offset` above the edge, rounded to the step where it is irrational. `at` may
        lie beyond the ends: the line goes on as it is."""
        radius = self.radius
        if radius is None:
            run = at if self.highest == "right" else self.span - at
            straight = self.rise * run / self.span
            if not offset:
                return straight
            lean = _root(1 + (self.rise / self.span) ** 2)
            return _rounded(straight + offset * lean, self.step, rounding)
        if 2 * at == self.span:
            return self.rise + offset
        below = _root((radius + offset) ** 2 - (at - self.span / 2) ** 2)
        found = _rounded(self.rise - radius + below, self.step, rounding)
        return min(found, self.rise + offset)  # nowhere higher than in the middle

    def stations(self) -> tuple[Fraction, ...]:
        """Where the edge is laid out: both ends and, along an arch, the middle and every `spacing`
        from either end."""
        if self.highest != "middle":
            return (ZERO, self.span)
        half = self.span / 2
        near = [n * self.spacing for n in range(int(half / self.spacing) + 1)]
        near = [at for at in near if at < half]
        return (*near, half, *(self.span - at for at in reversed(near)))

    def groove_clear(self, depth: Fraction, *, at_start: bool) -> Fraction:
        """The least height at the start or end that is clear of a groove `depth` deep along the
        edge, and of what stands in it as far as `depth` beyond."""
        ends = (ZERO, -depth) if at_start else (self.span, self.span + depth)
        return max(self.height(at, depth, "up") for at in ends)


def edge_curve(spec: Door, span: Fraction, hinge: Side, unit: Unit) -> Curve | None:
    """The top rail's edge between its shoulders; `None` where it is straight."""
    shape = spec.shape
    if shape is None:
        return None
    free: Side = "right" if hinge == "left" else "left"
    highest: Literal["middle", "left", "right"] = "middle"
    if shape.kind != "arch":
        highest = free if shape.kind == "peak" else hinge
    spacings = _SPACINGS[unit]
    fitting = (s for s in spacings if span / 2 <= MOST_STATIONS * s)
    return Curve(highest, span, shape.rise, ORDINATE[unit], next(fitting, spacings[-1]))


def _root(square: Fraction) -> Fraction:
    """√square, to a millionth below."""
    return Fraction(isqrt(square.numerator * _FINE**2 // square.denominator), _FINE)


def _rounded(value: Fraction, step: Fraction, rounding: Rounding) -> Fraction:
    if rounding == "up":
        return -(-value // step) * step
    half = step / 2 if rounding == "nearest" else ZERO
    return (value + half) // step * step
