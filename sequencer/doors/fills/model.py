"""What a kind of fill is given, and what it answers."""

from __future__ import annotations

from fractions import Fraction

from msgspec import Struct

from sequencer.joints import JointSizes
from sequencer.lengths import Unit
from sequencer.methods import Marks
from sequencer.plan import BoardSeason, Order, Pane, Part, Place
from sequencer.trade.fits import Datum


class Fitting(Struct, frozen=True):
    """What a fill is fitted to: the frame's groove or rebate, and the blade that cuts it; `marks`
    are those of the saw, where one is known."""

    sizes: JointSizes
    kerf: Fraction
    unit: Unit
    marks: Marks | None = None

    def fact(self, fact: Datum) -> Fraction:
        return fact.of(self.unit)


class Filled(Struct, frozen=True):
    """The parts that fill a leaf's lights, their places in the door, and what others make.
    `boards` is the year of each light that boards fill."""

    parts: tuple[Part, ...]
    places: tuple[Place, ...]
    panes: tuple[Pane, ...] = ()
    orders: tuple[Order, ...] = ()
    boards: tuple[BoardSeason, ...] = ()
