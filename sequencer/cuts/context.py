"""What every operation of a plan is made with."""

from __future__ import annotations

from collections.abc import Mapping
from fractions import Fraction

from msgspec import Struct, field

from sequencer.cuts.model import ScrapTest, Setting
from sequencer.facts import Fact
from sequencer.job.rack import Rack
from sequencer.job.schema import Cutter, Shop
from sequencer.lengths import Unit
from sequencer.methods import Choices
from sequencer.plan import CarrierName, Span
from sequencer.records import replace
from sequencer.saw.measures import Measure
from sequencer.trade import fits


class Context(Struct, frozen=True):
    """The shop, the methods chosen, the cutter that cuts (`kerf` as measured), and the boards that
    there are. `glued` says of how many boards sticks are glued up, by their marks, where that was
    settled before; `None` where the boards decide it."""

    unit: Unit
    shop: Shop
    choices: Choices
    cutter: Cutter
    kerf: Fraction
    rack: Rack = field(default_factory=Rack)
    glued: Mapping[str, int] | None = None

    def for_slots(self) -> Context:
        """The same with the cutter that slots are cut with."""
        dado = self.choices.dado
        return self if dado is None else replace(self, cutter=dado, kerf=dado.kerf)

    def fact(self, fact: fits.Datum) -> Fraction:
        return fact.of(self.unit)

    def through(self, carrier: CarrierName, thickness: Fraction, guide: Fraction | None) -> Setting:
        """A through cut of stock `thickness` thick: any height from a little over the work to the
        most that guidance allows."""
        depth = self.on_scale(
            thickness + self.fact(fits.OVER_LEAST), thickness + self.fact(fits.OVER_MOST)
        )
        return Setting(carrier, self.cutter.name, self.kerf, guide, depth, through=True)

    def on_scale(self, low: Fraction, high: Fraction) -> Span:
        """The range narrowed to the shop's graduation, where that leaves any of it: where any
        height in a range will do, a plain number is set."""
        step = self.shop.graduation
        narrowed = (-(-low // step) * step, high // step * step)
        return narrowed if narrowed[0] <= narrowed[1] else (low, high)

    def partial(
        self, carrier: CarrierName, guide: Fraction, depth: Span, *tests: ScrapTest
    ) -> Setting:
        """A cut that does not go through, to a depth within the range `depth`."""
        return Setting(carrier, self.cutter.name, self.kerf, guide, depth, False, tests)

    def nibbles(self, width: Fraction) -> int:
        """Passes that nibble away waste `width` wide."""
        return -(-width // (self.kerf - self.fact(fits.OVERLAP)))

    def fit(
        self, measure: Measure, target: Fraction, per_unit: int, feel: Fact, scrap: str
    ) -> ScrapTest:
        """A test of the guide, good within the fit's band on either side of `target`."""
        near = self.fact(fits.FIT_BAND) / 2
        return self.within(near, measure, target, per_unit, feel, scrap)

    def within(
        self,
        near: Fraction,
        measure: Measure,
        target: Fraction,
        per_unit: int,
        feel: Fact,
        scrap: str,
    ) -> ScrapTest:
        """A test of the guide, good so `near` to either side of `target`."""
        low, high = target - near, target + near
        return ScrapTest("guide", measure, target, low, high, Fraction(per_unit), feel, scrap)

    def depth(
        self, measure: Measure, target: Fraction, feel: Fact, scrap: str, *, over: bool
    ) -> ScrapTest:
        """A test of the height: `over` says that the depth may sooner be over than under, else
        under than over."""
        easy, edge = self.fact(fits.DEPTH_BAND), self.fact(fits.DEPTH_EDGE)
        under, over_by = (edge, easy) if over else (easy, edge)
        low, high = target - under, target + over_by
        return ScrapTest("height", measure, target, low, high, Fraction(1), feel, scrap)


def exactly(depth: Fraction) -> Span:
    """The range that only one depth is in."""
    return (depth, depth)


def turned_slotting(context: Context, centred: bool, what: str) -> bool:
    """Whether a slot or groove is cut by turning the piece round."""
    answer = context.choices.slot if what == "slot" else context.choices.groove
    return centred and answer == "turned"
