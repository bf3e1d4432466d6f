"""A panel in its grooves over the year.

The frame's opening keeps its width, since rails are long along the grain; the panel swells and
shrinks between the stiles. A groove deepens a little as its stile swells, which is left out: it
only adds air.
"""

from __future__ import annotations

from fractions import Fraction

from msgspec import Struct

from sequencer.lengths import Unit, round_up
from sequencer.movement import Moves
from sequencer.records import replace
from sequencer.trade.fits import PANEL_AIR, PANEL_STEP, WIDTH_STEP

MOST_PANELS = 24
"""Beside each other in one door; ours. More are sooner a slip of the pen."""


class GroovedSpan(Struct, frozen=True):
    """A panel's room across the grain: `sight` between the stiles, and a groove `depth` deep at
    either side of it; `engagement` is to stay in each groove in the driest season."""

    sight: Fraction
    depth: Fraction
    engagement: Fraction
    unit: Unit

    @property
    def step(self) -> Fraction:
        return WIDTH_STEP.of(self.unit)

    @property
    def most(self) -> Fraction:
        """The width that a panel may have at its widest."""
        return self.sight + 2 * (self.depth - PANEL_AIR.of(self.unit))

    @property
    def least(self) -> Fraction:
        """The width that it must have at its narrowest."""
        return self.sight + 2 * self.engagement

    def play(self, width: Fraction) -> Fraction:
        """At each side, of a panel that is `width` wide."""
        return (self.sight - width) / 2 + self.depth

    def widest_panel(self, moved: Moves) -> Fraction:
        """The widest that does not bind at its widest, today: on a mark of a rule where one so wide
        stays in its grooves, else on a finer step."""
        most, mark = self.most / moved.widest, PANEL_STEP.of(self.unit)
        width = most // mark * mark
        return width if width >= self.narrowest_panel(moved) else most // self.step * self.step

    def narrowest_panel(self, moved: Moves) -> Fraction:
        """The narrowest that stays in its grooves, today."""
        return self.least / moved.narrowest

    def holds(self, moved: Moves) -> bool:
        """Whether some width neither binds nor leaves its groove."""
        return self.widest_panel(moved) >= self.narrowest_panel(moved)

    def deep_enough(self, moved: Moves) -> Fraction:
        """The least groove depth with which a panel holds."""
        width = -(-self.narrowest_panel(moved) // self.step) * self.step
        air = PANEL_AIR.of(self.unit)
        return round_up((width * moved.widest - self.sight) / 2 + air, self.unit)

    def panels(self, moved: Moves, between: Fraction, least_sight: Fraction) -> int | None:
        """How many panels, with muntins `between` them, are narrow enough to hold; `None` where
        their sight would be under `least_sight` first, or they would be too many."""
        for count in range(2, MOST_PANELS + 1):
            sight = (self.sight - (count - 1) * between) / count
            if sight < least_sight:
                return None
            if replace(self, sight=sight).holds(moved):
                return count
        return None
