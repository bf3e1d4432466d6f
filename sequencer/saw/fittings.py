"""What is set by hand before a cut, and what carries the piece past the blade: a row each."""

from __future__ import annotations

from collections.abc import Mapping
from fractions import Fraction
from typing import Literal

from msgspec import Struct

CarrierName = Literal["rip-fence", "crosscut-sled", "tenoning-jig", "mitre-sled"]
"""`mitre-sled`: a sled with two fences at 45° to the blade, one for each hand. The piece lies with
its outside edge along a fence; its guide is where, from the end against the stop, the line that is
kept crosses the outside edge."""

GuardState = Literal["fitted", "knife", "cover"]
Body = Literal["fence", "sled", "jig"]
Way = Literal["up", "down", "away", "toward"]

_BACK: Mapping[Way, Way] = {"up": "down", "down": "up", "away": "toward", "toward": "away"}

SPACER = "spacer"
"""What may stand between the jig and the piece: a setup block at hand, in place of moving the jig
by as much."""


class Knob(Struct, frozen=True):
    """`minutes` are those for setting it where a shop's file says nothing (common practice), or
    name the knob whose minutes are its own. `grows` says where it goes as its number grows; without
    a number it is `None`. `seldom`: it stays all day in most plans, and is told of only where
    nothing else is. `spare`: part of a plan only where a cut asks for it."""

    minutes: Fraction | str
    grows: Way | None = None
    seldom: bool = False
    spare: bool = False

    def way(self, *, grows: bool) -> Way:
        """Where it goes when its number grows, or shrinks. Raises `ValueError` where it has none.

        >>> KNOBS["stop"].way(grows=False)
        'toward'
        """
        if self.grows is None:
            raise ValueError("a knob without a scale goes nowhere")
        return self.grows if grows else _BACK[self.grows]


KNOBS: Mapping[str, Knob] = {
    "cutter": Knob(Fraction(5), seldom=True),
    "tilt": Knob(Fraction(2), seldom=True),
    "height": Knob(Fraction(1), "up"),
    "carrier": Knob(Fraction(2)),
    "guard": Knob(Fraction(1)),
    "fence": Knob(Fraction(1), "away"),
    "stop": Knob(Fraction(1), "away"),
    "jig": Knob(Fraction(2), "away"),
    "mitre stop": Knob("stop", "away", spare=True),
    SPACER: Knob(Fraction(1, 2), spare=True),
}
"""In the order in which they are set and told."""


def timed_as(knob: str) -> str:
    """The key of a knob's minutes in a shop's file; a name that is no knob's is its own.

    >>> timed_as("mitre stop"), timed_as("test_cut")
    ('stop', 'test_cut')
    """
    row = KNOBS.get(knob)
    name = row.minutes if row is not None and isinstance(row.minutes, str) else knob
    return name.replace(" ", "_")


MINUTES: Mapping[str, Fraction] = {
    timed_as(name): row.minutes for name, row in KNOBS.items() if isinstance(row.minutes, Fraction)
}
"""The minutes of every knob that has its own, by their keys in a shop's file."""


class Carrier(Struct, frozen=True):
    """`knob` sets its guide. `body` is which of the shop's fittings it is, or is built as: whose
    deck lies under the work, and how the work is held. `rides`: where the shop's rides the fence,
    that sets the guide, and its scale adds the body's thickness. `guarded`: a through cut keeps
    guard and riving knife. `slanted`: its fences stand at 45° to the blade, one for either hand,
    and the picture looks from above."""

    knob: str
    body: Body
    rides: bool = False
    guarded: bool = False
    slanted: bool = False

    def guide_knob(self, rides: str) -> str:
        """The knob that sets the guide in a shop whose jig `rides` fence or slot."""
        return "fence" if self.rides and rides == "fence" else self.knob


CARRIERS: Mapping[str, Carrier] = {
    "rip-fence": Carrier("fence", "fence", guarded=True),
    "crosscut-sled": Carrier("stop", "sled"),
    "tenoning-jig": Carrier("jig", "jig", rides=True),
    "mitre-sled": Carrier("mitre stop", "sled", slanted=True),
}

SCALES: Mapping[str, str] = {
    timed_as(name): name
    for name, row in KNOBS.items()
    if row.grows is not None and isinstance(row.minutes, Fraction)
}
"""The knobs that have a scale of their own, by their keys in a shop's file."""

GUIDES: tuple[str, ...] = tuple(dict.fromkeys(row.knob for row in CARRIERS.values()))
"""The knobs that set a guide."""

NUMBERED = ("height", *GUIDES)
"""Those that stand at a length, by a scale."""
