"""A framed leaf's numbers: outside, members, opening inside, and how far tenons go."""

from __future__ import annotations

from fractions import Fraction
from typing import Literal

from msgspec import Struct

from sequencer.doors.curve import Curve, edge_curve
from sequencer.errors import Refusal
from sequencer.facts import parts
from sequencer.job.bars import Room
from sequencer.job.schema import Door, Side
from sequencer.joints import Joint
from sequencer.lengths import Unit
from sequencer.records import replace
from sequencer.trade.fits import TENON_LEAST, WIDTH_STEP

ZERO = Fraction(0)


class Tenons(Struct, frozen=True):
    """How much of each rail's width goes into the stiles: of the top rail, which may be shaped, at
    its hinge and at its free end."""

    hinge: Fraction
    free: Fraction
    bottom: Fraction

    @property
    def each(self) -> tuple[Fraction, ...]:
        return (self.hinge, self.free, self.bottom)

    def at_most(self, width: Fraction) -> Tenons:
        return Tenons(*(min(width, tenon) for tenon in self.each))


class Frame(Struct, frozen=True):
    """A leaf's numbers, left and right as seen from the front. `top` is the top rail's width as it
    leaves the saw, before it is shaped."""

    hinge: Side
    width: Fraction
    height: Fraction
    left: Fraction
    right: Fraction
    top: Fraction
    bottom: Fraction
    proud: Fraction
    tenons: Tenons
    left_reach: Fraction
    right_reach: Fraction
    curve: Curve | None

    @property
    def stile_length(self) -> Fraction:
        return self.height + 2 * self.proud

    @property
    def above(self) -> Fraction:
        """The stiles' upper ends."""
        return self.height + self.proud

    @property
    def sight(self) -> tuple[Fraction, Fraction]:
        """The opening inside the frame, width and height; under a shaped rail, where it is
        lowest."""
        return self.width - self.left - self.right, self.height - self.top - self.bottom

    @property
    def room(self) -> Room:
        return Room(self.left, self.bottom, *self.sight)

    @property
    def rail_start(self) -> Fraction:
        return self.left - self.left_reach

    @property
    def rail_length(self) -> Fraction:
        return self.left_reach + self.sight[0] + self.right_reach

    def tenon(self, rail: Literal["top", "bottom"], side: Side) -> Fraction:
        if rail == "bottom":
            return self.tenons.bottom
        return self.tenons.hinge if side == self.hinge else self.tenons.free


def measure(spec: Door, hinge: Side, joint: Joint, tenons: Tenons, unit: Unit) -> Frame:
    """Raises `Refusal` where nothing is left inside the frame, or of a tenon."""
    width, height = spec.leaf_size
    stiles = (spec.hinge_stile, spec.free_stile)
    left, right = stiles if hinge == "left" else stiles[::-1]
    rise = ZERO if spec.shape is None else spec.shape.rise
    frame = Frame(
        hinge=hinge,
        width=width,
        height=height,
        left=left,
        right=right,
        top=spec.top_rail + rise,
        bottom=spec.bottom_rail,
        proud=joint.proud(spec),
        tenons=tenons,
        left_reach=joint.reach(spec, left),
        right_reach=joint.reach(spec, right),
        curve=edge_curve(spec, width - left - right, hinge, unit),
    )
    if min(*frame.sight, *tenons.each) <= 0:
        raise Refusal(parts.NO_ROOM_FOR_PANEL(where=spec.where))
    return frame


def rail_tenons(spec: Door, joint: Joint, deepest: Fraction | None, unit: Unit) -> Tenons:
    """Tenons as the groove, or the shape's groove, leaves them, none wider than a cut `deepest`
    deep takes. Raises `Refusal` where a shape leaves too little of one."""
    top, bottom = joint.tenon_widths(spec, deepest)
    if spec.shape is None:
        return Tenons(top, top, bottom)
    across = spec.leaf_size[0] - spec.hinge_stile - spec.free_stile
    if across <= 0:
        return Tenons(ZERO, ZERO, bottom)
    curve = edge_curve(spec, across, "left", unit)
    assert curve is not None
    depth, step = spec.groove.depth, WIDTH_STEP.of(unit)
    widths = []
    for at_start in (True, False):
        # The panel's corner stands in the stile's groove, and the tenon clear of it.
        edge = -(-curve.groove_clear(depth, at_start=at_start) // step) * step
        whole = spec.top_rail + spec.shape.rise - edge
        if whole < TENON_LEAST * (spec.top_rail - depth):
            raise Refusal(parts.SHAPE_TAKES_TENON(where=spec.where, shape=spec.shape.kind))
        widths.append(joint.tenon_widths(replace(spec, top_rail=whole + depth), deepest)[0])
    return Tenons(widths[0], widths[1], bottom)
