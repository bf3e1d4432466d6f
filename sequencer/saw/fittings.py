"""What is set by hand before a cut, and what carries the piece past the blade: a row each."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Literal

CarrierName = Literal["rip-fence", "crosscut-sled", "tenoning-jig", "mitre-sled"]
"""`mitre-sled`: a sled with two fences at 45° to the blade, one for each hand. The piece lies with
its outside edge along a fence; its guide is where, from the end against the stop, the line that is
kept crosses the outside edge."""

GuardState = Literal["fitted", "knife", "cover"]
Body = Literal["fence", "sled", "jig"]


@dataclass(frozen=True, slots=True)
class Knob:
    """`minutes` names the shop's minutes for setting it. `grows` says where the cut goes as its
    number grows; without a number it is empty. `seldom`: it stays all day in most plans, and is
    told of only where nothing else is. `spare`: part of a plan only where a cut asks for it."""

    minutes: str
    grows: Literal["up", "away", ""] = ""
    seldom: bool = False
    spare: bool = False


KNOBS: Mapping[str, Knob] = {
    "cutter": Knob("cutter", seldom=True),
    "tilt": Knob("tilt", seldom=True),
    "height": Knob("height", "up"),
    "carrier": Knob("carrier"),
    "guard": Knob("guard"),
    "fence": Knob("fence", "away"),
    "stop": Knob("stop", "away"),
    "jig": Knob("jig", "away"),
    "mitre stop": Knob("stop", "away", spare=True),
}
"""In the order in which they are set and told."""


@dataclass(frozen=True, slots=True)
class Carrier:
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

GUIDES: tuple[str, ...] = tuple(dict.fromkeys(row.knob for row in CARRIERS.values()))
"""The knobs that set a guide."""

NUMBERED = ("height", *GUIDES)
"""Those that stand at a length."""
