"""What is bought and pulled from the rack, and the shop that saws it."""

from __future__ import annotations

from collections.abc import Mapping
from fractions import Fraction

from msgspec import Struct, field

from sequencer.facts import Dialect, Fact
from sequencer.job.schema import Side, Tools
from sequencer.job.sides import guide_side
from sequencer.plan.pieces import Size, Span
from sequencer.saw.fittings import CARRIERS, CarrierName, timed_as


class ShopFacts(Struct, frozen=True):
    """What of the shop the sheets and the proof need. `words` are those of its country."""

    name: str
    graduation: Fraction
    decks: Mapping[str, Fraction]
    jig_rides: str
    jig_thickness: Fraction
    jig_opening: Fraction
    sled_longest: Fraction
    sled_widest: Fraction
    max_height: Fraction
    hold_down: str
    cover: str | None
    cutters: Mapping[str, Mapping[str, str]]
    words: Dialect = "US"
    fence_side: Side = "right"
    jig_side: Side = "right"
    tilts: Side = "left"
    fence_height: Fraction | None = None
    sled_clamp: bool = True
    aids: tuple[str, ...] | None = None
    """Those at hand; `None` where the plan tells of no aids at all."""

    tools: Tools | None = None
    scales: Mapping[str, Fraction] | None = None
    """What measures, and what each scale of the saw is divided in; `None` where a plan is older."""

    known_as: str = ""
    made_with: Mapping[str, str] = field(default_factory=dict)
    """What settings are kept under: the saw, and by carrier the fittings that have a name."""
    timed: Mapping[str, Fraction] = field(default_factory=dict)
    """Minutes that earlier jobs have timed, where the shop's file states none, by their keys."""

    def sharpened(self, cutter: str) -> int:
        """How often a cutter has been."""
        return int(self.cutters.get(cutter, {}).get("sharpened", "0"))

    def scale(self, knob: str) -> Fraction:
        """What the scale of a knob is divided in."""
        return (self.scales or {}).get(timed_as(knob), self.graduation)

    def marked(self, knob: str, number: Fraction) -> bool:
        """Whether a knob's scale has a mark there."""
        return number % self.scale(knob) == 0

    def guide_knob(self, carrier: CarrierName) -> str:
        """The knob that sets a carrier's guide."""
        return CARRIERS[carrier].guide_knob(self.jig_rides)

    def guide_side(self, carrier: str, tilt: Fraction) -> Side:
        """On which side of the blade the guiding surface stands, seen from before the saw."""
        return guide_side(carrier, tilt, fence=self.fence_side, jig=self.jig_side, tilts=self.tilts)


class Blank(Struct, frozen=True):
    """What is cut from a board for a stick: the stick whole, or one of the strips (`#7/1`, `#7/2`)
    that it is glued up from. `size` is that of the finished stock in thickness, of the rough piece
    otherwise; `at` is where it lies on its board, along from the end and across from the edge
    (0, 0 on none)."""

    mark: str
    stick: str
    material: str
    size: Size
    at: tuple[Fraction, Fraction] = (Fraction(0), Fraction(0))


class Board(Struct, frozen=True):
    """A board that the user has, as measured: `crosscuts` are the rough lengths it is cut to, from
    its end, and `blanks` what is ripped from each. `trim` comes off both ends, `edge` off the
    edge that is straightened. A board that is not needed has neither."""

    mark: str
    material: str
    size: Size
    trim: Fraction
    edge: Fraction
    crosscuts: tuple[Span, ...] = ()
    blanks: tuple[Blank, ...] = ()


class RoughLine(Struct, frozen=True):
    """Stock of one wood and thickness, milled together. `sticks` and `test_sticks` come from
    it; `surface` is the area of their blanks in the plan's unit squared, `board_feet` what that is
    in the trade's measure and `cubic_metres` as volume, both at the thickness it is bought in,
    without and with the `allowance` in percent. `buy` is the nominal size that yields it (empty:
    none in the tables) and `yields` what that measures when surfaced."""

    material: str
    thickness: Fraction
    sticks: tuple[str, ...]
    test_sticks: tuple[str, ...]
    longest: Fraction
    widest: Fraction
    surface: Fraction
    bought_thickness: Fraction
    board_feet: Fraction
    cubic_metres: Fraction
    allowance: int
    board_feet_with: Fraction
    cubic_metres_with: Fraction
    buy: str
    yields: Fraction | None


class Order(Struct, frozen=True):
    """Something to order, made to size or bought: `count` of `what`, and its `size` in words of
    the plan's unit (empty where it has none)."""

    what: Fact
    count: int
    size: tuple[Fraction, ...] = ()
    note: Fact | None = None
