"""The words for knobs, carriers, guard states, passes and kinds of step: each stands here alone."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction
from math import atan2, degrees

from sequencer.saw.measures import Measure


@dataclass(frozen=True, slots=True)
class CarrierWords:
    """`put`: what is done to have it on the saw. `surface`: what sets the guide on it, and how a
    piece `bears` on that."""

    name: str
    short: str
    put: str
    surface: str
    bears: str = "at"


CARRIERS: Mapping[str, CarrierWords] = {
    "rip-fence": CarrierWords("rip fence", "fence", "work along the rip fence", "fence", "against"),
    "crosscut-sled": CarrierWords("crosscut sled", "sled", "put the crosscut sled on", "stop"),
    "tenoning-jig": CarrierWords(
        "tenoning jig", "jig", "put the tenoning jig on", "jig", "against"
    ),
    "mitre-sled": CarrierWords("mitre sled", "mitre sled", "put the mitre sled on", "mitre stop"),
}

KNOBS: Mapping[str, str] = {
    "cutter": "blade",
    "tilt": "tilt",
    "height": "blade height",
    "carrier": "carrier",
    "guard": "guard",
    "fence": "fence",
    "stop": "stop",
    "jig": "jig",
    "mitre stop": "mitre stop",
}

MOVED: Mapping[str, tuple[str, str]] = {
    "up": ("up", "down"),
    "away": ("away from the blade", "toward the blade"),
}
"""Where a knob goes whose number grows, and whose number shrinks, by how it grows."""

GUARDS: Mapping[str, str] = {
    "fitted": "guard and riving knife on",
    "knife": "guard off, riving knife low",
    "cover": "guard and riving knife off",
}
GUARDS_SET: Mapping[str, str] = {
    **GUARDS,
    "knife": "guard off, riving knife set below the top of the blade",
}
"""The same, told to be done."""


CLEARED: Mapping[str, str] = {
    "fence": "push the fence right away from the blade, clear of carrier and offcuts",
    "stop": "take the stop off the sled: the offcut falls where it stood",
}
"""What must not stand beside a cut that frees something there, told to be done."""


def leaning(tilt: Fraction, tilts: str) -> str:
    """How a blade leans: the side that it `tilts` to, its angle, and the rise where that is a ratio
    for a rule.

    >>> leaning(Fraction(-1, 8), "left"), leaning(Fraction(541, 1625), "right")
    ('left 7.1°, away from the fence (1 in 8)', 'right 18.4°, toward the fence')
    """
    rise, run = abs(tilt.numerator), tilt.denominator
    way = "away from" if tilt < 0 else "toward"
    said = f"{tilts} {degrees(atan2(rise, run)):.1f}°, {way} the fence"
    return f"{said} ({rise} in {run})" if run <= 64 else said


@dataclass(frozen=True, slots=True)
class KindWords:
    """What a setup for it is called, and what is told to be done."""

    title: str
    verb: str


KINDS: Mapping[str, KindWords] = {
    "rip": KindWords("rip to width", "Rip"),
    "groove": KindWords("groove", "Groove"),
    "rebate": KindWords("rebates", "Rebate"),
    "square": KindWords("square ends", "Square one end"),
    "crosscut": KindWords("crosscut", "Crosscut"),
    "slot": KindWords("slots", "Slot"),
    "shoulder": KindWords("shoulders", "Cut the shoulders"),
    "cheek": KindWords("tenon cheeks", "Cut the cheeks"),
    "edge shoulder": KindWords("edge shoulders", "Cut the edge shoulders"),
    "edge cheek": KindWords("edge cheeks", "Cut the edge cheeks"),
    "sweep": KindWords("tenons to width", "Nibble the waste away"),
    "housing": KindWords("housings", "Cut the housing"),
    "mitre": KindWords("mitred shoulders", "Nibble the corner away to 45°"),
    "bevel": KindWords("bevels", "Bevel"),
}
"""Of cuts. What is told of the bench stands in `sheets/bench.toml`."""

PASSES: Mapping[str, str] = {
    "first": "first pass",
    "middle": "middle pass",
    "widen": "widened",
    "flat": "lying flat",
    "edge": "on edge",
    "near": "near shoulder",
    "far": "far shoulder and waste",
}


def measure(measure: Measure) -> str:
    """What is measured; as its text form has it, for the time being."""
    return str(measure)


def verb(kind: str) -> str:
    """What is told to be done in a step of that kind."""
    return KINDS[kind].verb if kind in KINDS else kind.capitalize()
