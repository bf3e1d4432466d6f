"""What every corner joint answers: its sizes, what it takes from stile and rail, and its cuts.

A joint is one object. Doors ask it for sizes and features, operations for the cuts that make them;
nothing else knows one joint from another.
"""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from typing import Protocol

from msgspec import Struct

from sequencer.cuts.context import Context
from sequencer.cuts.model import Operation, ScrapPieces
from sequencer.job.schema import Door, FaceSide
from sequencer.lengths import Unit
from sequencer.measured import Measured
from sequencer.methods import Choices
from sequencer.plan import Feature, Part, Span

BAR_ROLES = frozenset({"mid rail", "mullion"})
"""Roles of the parts that bar joints end."""


class JointSizes(Struct, frozen=True):
    """z-ranges are in the piece's frame, from the show face. `slot_centred` and `groove_centred`
    say that slot or groove may be cut by turning the piece round; `trimmed`, that the groove's pass
    trims the tenon.

    `groove` is what holds the panel, or with glass the rebate, which is open to the back; `panel`
    is how thick a panel's edge suits it (0 with glass). `slot` is the groove itself where stiles
    have no slot of their own, and open to the back where they are halved. `stub` is a stub tenon
    that fits the groove (`None` with glass), `tongue` what a bar's slot straddles (`None` where it
    has no wood on both sides).
    """

    thickness: Fraction
    slot: Span
    tenon: Span
    groove: Span
    groove_depth: Fraction
    panel: Fraction
    slot_centred: bool
    groove_centred: bool
    stub: Span | None = None
    tongue: Span | None = None

    @property
    def trimmed(self) -> bool:
        return self.groove[0] <= self.tenon[0] and self.tenon[1] <= self.groove[1]

    @property
    def rebated(self) -> bool:
        return self.groove[1] == self.thickness

    @property
    def slot_width(self) -> Fraction:
        return self.slot[1] - self.slot[0]

    @property
    def tenon_thickness(self) -> Fraction:
        return self.tenon[1] - self.tenon[0]


class Corner(Struct, frozen=True):
    """One corner of a frame: which end of which stile meets which end of which rail, both whole
    pieces' lengths and widths, `reach`, how far the rail runs past the stile's inside edge, and
    `tenon_width`, how much of the rail's width, from its outside edge, goes into the stile."""

    stile: str
    stile_end: str
    stile_length: Fraction
    stile_width: Fraction
    rail: str
    rail_end: str
    rail_length: Fraction
    rail_width: Fraction
    reach: Fraction
    tenon_width: Fraction
    proud: Fraction

    @property
    def stile_mate(self) -> str:
        return f"{self.rail}/{self.rail_end}"

    @property
    def rail_mate(self) -> str:
        return f"{self.stile}/{self.stile_end}"


class Tee(Struct, frozen=True):
    """One end of a bar, a mid rail or a mullion, let into a crosspiece. `at` is the x-range of the
    crosspiece that the bar takes up, `edge` which of its edges the bar meets; `reach` how far the
    bar runs past that edge."""

    bar: str
    bar_end: str
    bar_length: Fraction
    bar_width: Fraction
    across: str
    across_width: Fraction
    at: Span
    edge: str
    reach: Fraction


class Cutting(Struct, frozen=True):
    """What the cuts of one part's joints are made from; `scrap` is what they are tried on."""

    part: Part
    sizes: JointSizes
    face_side: FaceSide
    scrap: ScrapPieces
    context: Context


class BarJoint(Protocol):
    """A joint that lets a bar into a crosspiece. `name` is what the job file calls it; `slotted`
    says that bars are slotted like the stiles of a bridle joint."""

    name: str
    slotted: bool

    def reach(self, door: Door, across_width: Fraction) -> Fraction:
        """How far a bar runs past the edge of a crosspiece `across_width` wide."""

    def in_bar(self, tee: Tee, sizes: JointSizes) -> tuple[Feature, ...]:
        """What the bar's end lacks. Raises `Refusal` where the joint cannot be."""

    def in_crosspiece(self, tee: Tee, sizes: JointSizes) -> tuple[Feature, ...]:
        """What the crosspiece lacks."""

    def operations(self, cutting: Cutting) -> Iterator[Operation]:
        """The cuts of this joint: both ends of a part that is a bar, and of any part what bars are
        let into. Raises `Refusal` where it cannot be cut."""


class Joint(Protocol):
    """A corner joint. `name` is what the job file calls it; `slotted` says that stiles have a slot
    cut in passes, whose depth may be one for all rails."""

    name: str
    slotted: bool

    def size(
        self, door: Door, kerf: Fraction, unit: Unit, measured: Measured, choices: Choices
    ) -> JointSizes:
        """Every width and place through the thickness. Raises `Refusal` where it cannot be."""

    def proud(self, door: Door) -> Fraction:
        """What ends stand past the door until they are planed flush."""

    def reach(self, door: Door, stile_width: Fraction) -> Fraction:
        """How far a rail runs past the inside edge of a stile `stile_width` wide."""

    def tenon_widths(
        self, door: Door, deepest: Fraction | None = None
    ) -> tuple[Fraction, Fraction]:
        """How much of the top and of the bottom rail's width goes into the stile; no more than a
        cut `deepest` deep takes, where that still makes a joint."""

    def in_stile(self, corner: Corner, sizes: JointSizes) -> tuple[Feature, ...]:
        """What the stile's end lacks."""

    def in_rail(self, corner: Corner, sizes: JointSizes) -> tuple[Feature, ...]:
        """What the rail's end lacks."""

    def operations(self, cutting: Cutting) -> Iterator[Operation]:
        """The cuts that make the joint's features of one part, in an order they may be made in.
        Raises `Refusal` where they cannot be made."""


def end_span(at: str, length: Fraction, start: Fraction, to: Fraction) -> Span:
    """The x-range `start` to `to` from end `at` of a piece `length` long.

    >>> end_span("B", Fraction(10), Fraction(0), Fraction(2))
    (Fraction(8, 1), Fraction(10, 1))
    """
    return (start, to) if at == "A" else (length - to, length - start)
