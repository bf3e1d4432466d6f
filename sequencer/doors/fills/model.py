"""What a kind of fill is given, and what it answers."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from sequencer.joints import JointSizes
from sequencer.lengths import Unit
from sequencer.plan import BoardSeason, Order, Pane, Part, Place
from sequencer.trade.fits import Datum


@dataclass(frozen=True, slots=True)
class Fitting:
    """What a fill is fitted to: the frame's groove or rebate, and the blade that cuts it."""

    sizes: JointSizes
    kerf: Fraction
    unit: Unit

    def fact(self, fact: Datum) -> Fraction:
        return fact.of(self.unit)


@dataclass(frozen=True, slots=True)
class Filled:
    """The parts that fill a leaf's lights, their places in the door, and what others make.
    `boards` is the year of each light that boards fill."""

    parts: tuple[Part, ...]
    places: tuple[Place, ...]
    panes: tuple[Pane, ...] = ()
    orders: tuple[Order, ...] = ()
    boards: tuple[BoardSeason, ...] = ()
