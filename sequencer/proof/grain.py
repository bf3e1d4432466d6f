"""The plan's lengths as whole numbers of its grain, the largest length that divides them all."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from fractions import Fraction
from math import lcm

from msgspec import Struct

from sequencer import facts
from sequencer.lengths import Unit
from sequencer.plan import Box, Feature, Plan, Removal, Size
from sequencer.proof.cells import Length
from sequencer.proof.prisms import cells_of
from sequencer.proof.solid import IntBox, Solid

HAIR: Mapping[Unit, Fraction] = {"in": Fraction(1, 200), "mm": Fraction(1, 8)}
"""What a kerf may be thinner than measured, ours: two passes of a piece turned round, each thinner
by this, still meet where they overlap by 0.010 in or 0.25 mm."""


class Grain(Struct, frozen=True):
    """`parts` of the grain make one of the plan's `unit`."""

    parts: int
    unit: Unit = "in"

    def of(self, value: Fraction) -> int:
        """The length in grains. Raises `ValueError` where it is no whole number of them."""
        whole, rest = divmod(value.numerator * self.parts, value.denominator)
        if rest:
            raise ValueError(f"{value} is no whole number of 1/{self.parts}")
        return whole

    def box(self, box: Box) -> IntBox:
        """A box in grains."""
        (x0, x1), (y0, y1), (z0, z1) = box
        of = self.of
        return (of(x0), of(x1), of(y0), of(y1), of(z0), of(z1))

    def shape(self, shape: Feature | Removal) -> Solid:
        """What a feature or a removal takes up, in grains or parts of them. Raises `ValueError`
        where its prism is none."""
        if shape.prism is None:
            return (self.box(shape.box),)
        return cells_of(shape.prism, self.parts)

    def block(self, size: Size) -> IntBox:
        """The whole of a piece in its frame."""
        return (0, self.of(size.length), 0, self.of(size.width), 0, self.of(size.thickness))

    def told(self, value: Length) -> facts.Length:
        """A length in the plan's unit again."""
        return facts.Length(Fraction(value) / self.parts, self.unit)


def grain_of(plan: Plan) -> Grain:
    """The coarsest grain that every length in the plan is a whole number of, but for the corners
    of prisms, which may lie anywhere."""
    return Grain(lcm(*{value.denominator for value in _lengths(plan)}), plan.unit)


def _lengths(plan: Plan) -> Iterator[Fraction]:
    yield HAIR[plan.unit]
    yield from plan.shop.decks.values()
    yield plan.shop.jig_thickness
    for door in plan.doors:
        yield from (*door.opening, *door.size, *door.at, *door.gaps.values())
        for place in door.places:
            yield from place.origin
        for pane in door.panes:
            yield from _box(pane.box)
    for part in plan.parts:
        yield from _size(part.size)
        for feature in part.features:
            if feature.prism is None:
                yield from _box(feature.box)
    for stick in plan.sticks:
        yield from (*_size(stick.size), *_size(stick.blank))
        yield from (piece.start for piece in stick.pieces)
    for setup in plan.setups:
        yield from (setup.kerf, setup.height, setup.depth)
        yield from (value for value in (setup.guide, setup.reading) if value is not None)
    for step in plan.steps:
        for removal in step.removes:
            if removal.prism is None:
                yield from _box(removal.box)
        yield from (cut.back for cut in step.cuts if cut.back is not None)
    for scrap in plan.scrap:
        yield from _size(scrap.size)
    for check in plan.checkpoints:
        if isinstance(check.measure.which, facts.Length):
            yield check.measure.which.value


def _size(size: Size) -> Iterable[Fraction]:
    return (size.length, size.width, size.thickness)


def _box(box: Box) -> Iterable[Fraction]:
    return (value for span in box for value in span)
