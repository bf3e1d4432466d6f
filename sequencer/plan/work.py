"""Setups, steps and checkpoints: what is done at the saw and at the bench."""

from __future__ import annotations

from fractions import Fraction
from typing import Literal

from msgspec import Struct

from sequencer.facts import Fact
from sequencer.job.schema import Side
from sequencer.plan.handling import Hold, Waste
from sequencer.plan.pieces import Against, Box, Down, Keeps, Prism, Size
from sequencer.saw.fittings import CarrierName, GuardState
from sequencer.saw.kinds import KindName
from sequencer.saw.measures import AGAINST, Measure
from sequencer.trade.tools import How, ToolName


class Change(Struct, frozen=True):
    """One knob's change on entering a setup: what it was and is. `number` is where it is set, of a
    knob with a scale, and `stood` where it was by that same scale, if it is moved from there.
    `side` is the side of the blade that a fence is set on, where that is not always the same."""

    knob: str
    before: str | None
    after: str
    stood: Fraction | None = None
    number: Fraction | None = None
    side: Side | None = None


class Caution(Struct, frozen=True):
    """A hazard message: `word` is DANGER, WARNING, CAUTION or NOTICE, `says` the hazard with its
    figures and how the piece is held, by which the wording room tells its four parts."""

    rule: str
    word: str
    says: Fact
    source: str


class SetBy(Struct, frozen=True):
    """How one knob of a setup is set. `what` is the block's thickness, or the steps that what
    it is to fit was measured at; `None` where it is tried by that itself."""

    knob: str
    how: How
    what: str | None = None


class Known(Struct, frozen=True):
    """What is known of where a knob of a setup is to be set: by a saved setting, a gauge, or the
    readings of its scale. Its scale is to show `off` more than where the knob then stands. `spread`
    is one sigma of where it comes to stand, and `chance` that a test of it is good at once, where
    `count` readings tell it; `setting` is the number of the saved setting."""

    knob: str
    how: Literal["saved", "gauge", "scale"]
    off: Fraction = Fraction(0)
    setting: int | None = None
    count: int = 0
    spread: Fraction | None = None
    chance: Fraction | None = None
    look: bool = False
    """Whether its test may be left to a look at the first piece, which costs less than a cut on
    scrap."""

    @property
    def sure(self) -> bool:
        """Whether one check cut is likelier than a test cut with corrections."""
        return self.how != "scale" if self.chance is None else 2 * self.chance >= 1


class Setup(Struct, frozen=True):
    """A longest run of steps between which no needed knob changes.

    `height` is above the table, `depth` above the carrier's deck; `guide` from what the piece bears
    on to the nearest side of the kerf (`None`: squared by eye); `reading` what the fence or jig
    scale is to show: the guide, a spacer, a riding jig's thickness, and what is `known` of the
    scale; `move` the change of that reading since the same knob was last set; `saved` which saved
    settings set it. `tilt` is how far the blade leans in one unit of height, toward the guide where
    positive.
    """

    number: int
    cutter: str
    kerf: Fraction
    tilt: Fraction
    carrier: CarrierName
    guard: GuardState
    height: Fraction
    depth: Fraction
    guide: Fraction | None
    reading: Fraction | None
    move: Fraction | None
    saved: tuple[Fact, ...]
    minutes: Fraction
    cautions: tuple[Caution, ...]
    changes: tuple[Change, ...] = ()
    why: tuple[Fact, ...] = ()
    layer: int = 0
    """No setup waits for another of its layer, but for some of the layers before it; 0 where it
    was not told."""
    set_by: tuple[SetBy, ...] = ()
    """How guide and height are set, the guide first; empty where a plan is older."""

    known: tuple[Known, ...] = ()
    """What is known of its knobs from earlier jobs."""

    spacer: Fraction = Fraction(0)
    """How thick a block is that stands behind the piece, before the jig; 0 where none does."""

    def knows(self, knob: str) -> Known | None:
        """What is known of a knob; `None` where nothing is."""
        return next((each for each in self.known if each.knob == knob), None)

    def off(self, knob: str) -> Fraction:
        """How much more its scale is to show than where the knob then stands."""
        return next((each.off for each in self.known if each.knob == knob), Fraction(0))

    @property
    def stands(self) -> Fraction | None:
        """How far fence, stop or jig stands from the nearest side of the kerf: the guide, and a
        block before it; `None` where an end is squared by eye."""
        return None if self.guide is None else self.guide + self.spacer

    @property
    def along(self) -> Fraction | None:
        """What stands between the fence, at its scale's number, and the blade: the guide, and a
        jig that rides; `reading` without what the scale is off."""
        own = sum((each.off for each in self.known if each.knob != "height"), Fraction(0))
        return None if self.reading is None else self.reading - own

    @property
    def height_shown(self) -> Fraction:
        """What the scale of the height is to show."""
        return self.height + self.off("height")

    def how(self, knob: str) -> How | None:
        """How a knob is set; `None` where nothing is told of it."""
        return next((each.how for each in self.set_by if each.knob == knob), None)


class Cut(Struct, frozen=True):
    """One pass of one piece or stick, as the person makes it. `sweep`: all between the guiding
    surface and the far side of the kerf is nibbled away, or only what lies within `back` of that
    far side, where the waste has another shoulder. `hold` and `waste` say what hands do and what
    falls; `None` only where a plan is older than they are."""

    mark: str
    down: Down
    against: Against | None
    keeps: Keeps | None
    sweep: bool = False
    back: Fraction | None = None
    hold: Hold | None = None
    waste: Waste | None = None


class Removal(Struct, frozen=True):
    """What a bench step takes off a piece, in its frame; `box` is the least box round a `prism`."""

    mark: str
    box: Box
    prism: Prism | None = None


class Step(Struct, frozen=True):
    """One thing to do. Bench steps have no setup. `kind` is the verb's noun."""

    number: int
    setup: int | None
    kind: KindName
    operations: tuple[str, ...]
    cuts: tuple[Cut, ...] = ()
    removes: tuple[Removal, ...] = ()
    marks: tuple[str, ...] = ()
    """The pieces, sticks or doors it is done to, in order, each once."""
    cautions: tuple[Caution, ...] = ()
    """What a bench step warns of; what a setup's do stands with the setup."""


class Checkpoint(Struct, frozen=True):
    """What to measure before going on, and how far to correct.

    Good when `low` ≤ measured ≤ `high`. `per_unit` is the signed change of the measure when the
    knob's number grows by 1: move = (target − measured) / per_unit. `at_step` is the step at which
    it is measured, `before_step` the first that relies on it. `setup`, `knob`, `per_unit` and
    `scrap` are `None` at the bench. With the tool `fit` no number is read: the piece is tried
    against what it is to fit, or looked at, and the numbers are those of the plan.
    """

    at_step: int
    before_step: int
    setup: int | None
    measure: Measure
    target: Fraction
    low: Fraction
    high: Fraction
    knob: str | None
    per_unit: Fraction | None
    feel: Fact
    scrap: str | None
    marks: tuple[str, ...] = ()
    """The pieces, sticks or doors it is measured on, where that is no test piece."""
    planned: Fraction | None = None
    """What the plan's own sizes make of the measure; `target` is the tool's nearest mark. `None`
    where a plan is older than its tools."""
    tool: ToolName | None = None
    resolution: Fraction | None = None
    """What measures it, and the steps that this is read in: target and limits are whole steps."""

    after: tuple[int, ...] = ()
    """The checks, by their place in the plan, whose readings it refers to: what fits what is
    already cut is good by as much more or less as that came out."""
    shares: tuple[Fraction, ...] = ()
    """For each of them, by how much more it is good for what that came out more: 1 for a tenon and
    its slot, -1 for two halves that make a whole; none stand for 1 each."""

    @property
    def refers(self) -> tuple[tuple[int, Fraction], ...]:
        """Every check that it refers to, with its share."""
        return tuple(zip(self.after, self.shares or [Fraction(1)] * len(self.after), strict=True))

    @property
    def by_eye(self) -> bool:
        """Whether no tool tells it, and there is nothing to try it against."""
        return self.tool == "fit" and self.measure.what not in AGAINST

    @property
    def looked_at(self) -> bool:
        """Whether a depth is measured on the first piece, in place of a cut on scrap."""
        return self.scrap is None and self.knob == "height"

    @property
    def stands_by(self) -> str:
        """The test piece that it is made on, or that is there where the look is not good; empty at
        the bench, and where a length is measured."""
        spare = self.feel.given.get("spare") if self.looked_at else None
        return self.scrap or (spare if isinstance(spare, str) else "")

    @property
    def exact(self) -> Fraction:
        """What the plan's own sizes make of the measure."""
        return self.target if self.planned is None else self.planned


class Scrap(Struct, frozen=True):
    """A test piece: the stick it is cut from and the setups it serves."""

    mark: str
    stick: str
    size: Size
    serves: tuple[int, ...]
