"""Operations: one cut of one piece or stick, what it asks of the saw, and what must come before."""

from __future__ import annotations

from fractions import Fraction
from typing import Literal

from msgspec import Struct

from sequencer.facts import Fact
from sequencer.plan import CarrierName, Cut, Removal, Span
from sequencer.saw.kinds import KindName
from sequencer.saw.measures import Measure
from sequencer.saw.operation import OperationId

Tuned = Literal["guide", "height"]
"""What a test cut dials in: how far the guide, or what stands before it, is from the blade; or how
far the blade stands up."""


class ScrapTest(Struct, frozen=True):
    """A test cut for one freshly set knob: what is measured on scrap, when it is good, and how the
    measure answers to the knob (`per_unit`, signed). `scrap` names the test piece or stick."""

    knob: Tuned
    measure: Measure
    target: Fraction
    low: Fraction
    high: Fraction
    per_unit: Fraction
    feel: Fact
    scrap: str


class Check(Struct, frozen=True):
    """Something measured on the work itself, at the bench or on a first piece; no knob to turn
    (`knob` and `per_unit` are `None`) or one that the next piece is corrected by."""

    measure: Measure
    target: Fraction
    low: Fraction
    high: Fraction
    feel: Fact
    marks: tuple[str, ...]
    knob: Tuned | None = None
    per_unit: Fraction | None = None


class Setting(Struct, frozen=True):
    """What a cut asks of the saw. `depth` is a range above the carrier's deck (a point where only
    one will do); `guide` is `None` where an end is squared by eye, else from the blade to what the
    piece bears on: the `spacer`, where one stands before the guide; `tilt` is how far the blade
    leans in one unit of height, toward the guide where positive."""

    carrier: CarrierName
    cutter: str
    kerf: Fraction
    guide: Fraction | None
    depth: Span
    through: bool
    tests: tuple[ScrapTest, ...] = ()
    tilt: Fraction = Fraction(0)
    spacer: Fraction = Fraction(0)


class Operation(Struct, frozen=True):
    """`mark` is the piece, stick or leaf it is done to. A bench operation has no `setting` and no
    cuts; it may remove something. `minutes` are its own, beyond what setting up costs."""

    name: OperationId
    kind: KindName
    mark: str
    setting: Setting | None = None
    cuts: tuple[Cut, ...] = ()
    minutes: Fraction = Fraction(0)
    checks: tuple[Check, ...] = ()
    removes: tuple[Removal, ...] = ()
    marks: tuple[str, ...] = ()

    @property
    def id(self) -> str:
        """Its name's text."""
        return str(self.name)


class Edge(Struct, frozen=True):
    """`before` must be done before `after`, because of `reason`."""

    before: str
    after: str
    reason: Fact


class ScrapPieces(Struct, frozen=True):
    """The test pieces of one kind of stock: `stile` for slots, `rail` for shoulders and cheeks;
    `stick` is their stick's mark, for trying the groove. `rail_length` is the rail piece's."""

    stick: str
    stile: str
    rail: str
    rail_length: Fraction
