"""The saw's knobs, a row each: all that is set by hand before a cut."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Literal


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
