"""How many test cuts a setting takes until one is good, and what they take.

A setting goes by its scale, a test cut is read, and the setting is moved by what the reading is
off. How often that is to be done follows from the window, the passes in a test and the tool, by the
spreads of a saw of which nothing is known. A shop's minutes for a test cut are those of a usual
setting: one that takes more tries costs more, in quarters of a minute.
"""

from __future__ import annotations

from fractions import Fraction
from functools import lru_cache
from math import ceil, sqrt

from msgspec import Struct

from sequencer.cuts.model import ScrapTest, Setting
from sequencer.job.schema import Shop
from sequencer.lengths import Unit
from sequencer.saw.fittings import CARRIERS, SPACER
from sequencer.saw.measures import What
from sequencer.scales import chance
from sequencer.setups.tools import read_by
from sequencer.trade import spreads
from sequencer.trade.fits import FOLLOWED_BAND

USUAL = 1.8
"""Test cuts of a usual setting; ours: the mean of all settings that the ten examples dial in."""

QUARTER = Fraction(1, 4)
"""Of a minute: what the search counts in; ours."""


class Dialling(Struct, frozen=True):
    """What dialling in takes in a shop."""

    shop: Shop
    unit: Unit

    def minutes(self, test: ScrapTest, setting: Setting, knob: str, number: Fraction) -> Fraction:
        """Until a test of a setting is good, for which a knob is set to `number`. Where that lies
        between two marks of its scale, that takes more tries: no less than a quarter of a minute.
        """
        each = float(self.shop.minutes.test_cut) / USUAL
        on = self.tries(test, setting, knob)
        minutes = round(on * each / QUARTER) * QUARTER
        if not self._marked(setting, knob, number):
            off = self.tries(test, setting, knob, self.shop.scale(knob))
            minutes += ceil((off - on) * each / QUARTER) * QUARTER
        return minutes

    def tries(
        self, test: ScrapTest, setting: Setting, knob: str, between: Fraction = Fraction(0)
    ) -> float:
        """Test cuts until one is good, on the average: the first by the scale, or a block that
        stands before a jig that was tried by itself, each further one moved by what was read.
        `between`: how far marks are apart, where the scale is set between two of them, by eye: a
        quarter of that off at most."""
        unit = self.unit
        read = read_by(test, self.shop.tools)
        low, high = float(read.low - read.target), float(read.high - read.target)
        if _followed(test, setting) and read.tool != "fit":
            band = float(FOLLOWED_BAND.of(unit) // read.resolution * read.resolution)
            low, high = min(low, -band), max(high, band)
        per = abs(float(test.per_unit))
        misread = float(spreads.misread(read.tool, read.resolution, unit))
        set_by = float((spreads.MOVE if knob == SPACER else spreads.SCALE).of(unit))
        return _tries(
            low,
            high,
            per * sqrt(set_by**2 + float(between) ** 2 / 48),
            per * float(spreads.MOVE.of(unit)),
            sqrt(per * float(spreads.PASS.of(unit)) ** 2 + misread**2 / 3),
        )

    def _marked(self, setting: Setting, knob: str, number: Fraction) -> bool:
        """Whether a number is one of its scale's marks, or a block at hand fills what it leaves."""
        if knob == SPACER or number % self.shop.scale(knob) == 0:
            return True
        return setting.guide is not None and setting.guide in self.shop.tools.blocks


def _followed(test: ScrapTest, setting: Setting) -> bool:
    """Whether what is measured is the width of a slot, which its tenons go by."""
    slot = CARRIERS[setting.carrier].body == "jig" and test.knob == "guide"
    return slot and test.measure.what is What.CHANNEL_WIDTH


@lru_cache(maxsize=4096)
def _tries(low: float, high: float, first: float, moved: float, noise: float) -> float:
    """A reading is off by the setting and by the `noise` of its own try. The correction takes the
    one away and puts the other in, and what the move itself is off."""
    at_once = chance(low, high, sqrt(first**2 + noise**2))
    then = chance(low, high, sqrt(moved**2 + 2 * noise**2))
    return 1 + (1 - at_once) / then
