"""Knobs, carriers, states of the guard, passes and kinds of step, each by its id.

Every word begins small but the verbs, which begin a line.
"""

from __future__ import annotations

from fractions import Fraction
from math import atan2, degrees

from sequencer.saw.fittings import KNOBS
from sequencer.wording import fittings
from sequencer.wording.catalogue import _
from sequencer.wording.room import Room, capitalised

_GUARDS: dict[str, str] = {
    "fitted": _("guard and riving knife on"),
    "knife": _("guard off, riving knife low"),
    "cover": _("guard and riving knife off"),
}
_GUARDS_SET: dict[str, str] = {
    **_GUARDS,
    "knife": _("guard off, riving knife set below the top of the blade"),
}
"""The same, told to be done."""

_VERBS: dict[str, str] = {
    "mill": _("Mill"),
    "edge glue-up": _("Glue up the boards"),
    "rip": _("Rip"),
    "plane": _("Plane the sawn edge"),
    "groove": _("Groove"),
    "rebate": _("Rebate"),
    "square": _("Square one end"),
    "crosscut": _("Crosscut"),
    "bevel": _("Bevel"),
    "mitre": _("Nibble the corner away to 45°"),
    "slot": _("Slot"),
    "housing": _("Cut the housing"),
    "shoulder": _("Cut the shoulders"),
    "edge shoulder": _("Cut the edge shoulders"),
    "sweep": _("Nibble the waste away"),
    "cheek": _("Cut the cheeks"),
    "edge cheek": _("Cut the edge cheeks"),
    "shape": _("Shape the rail"),
    "shaped groove": _("Groove along the shape"),
    "dry fit": _("Dry fit"),
    "trim": _("Saw off the horns"),
    "shape panel": _("Shape the panel"),
    "finish": _("Apply finish"),
    "glue-up": _("Glue up"),
    "diagonals": _("Check the diagonals"),
    "flush": _("Plane flush"),
    "rebate meeting": _("Rebate the meeting stiles"),
    "glaze": _("Glaze"),
    "hang": _("Hang"),
    "test cut": _("Test cut"),
    "check cut": _("Check cut"),
    "refit guard": _("Refit the guard"),
    "remove guard": _("Take the guard off"),
}
"""What is told to be done in a step of a kind."""

_PASSES: dict[str, str] = {
    "first": _("first pass"),
    "middle": _("middle pass"),
    "widen": _("widened"),
    "flat": _("lying flat"),
    "edge": _("on edge"),
    "near": _("near shoulder"),
    "far": _("far shoulder and waste"),
}

_LEANING: dict[tuple[str, bool, bool], str] = {
    ("left", False, True): _("left {angle}°, away from the fence"),
    ("left", False, False): _("left {angle}°, toward the fence"),
    ("left", True, True): _("left {angle}°, away from the fence ({rise} in {run})"),
    ("left", True, False): _("left {angle}°, toward the fence ({rise} in {run})"),
    ("right", False, True): _("right {angle}°, away from the fence"),
    ("right", False, False): _("right {angle}°, toward the fence"),
    ("right", True, True): _("right {angle}°, away from the fence ({rise} in {run})"),
    ("right", True, False): _("right {angle}°, toward the fence ({rise} in {run})"),
}


def carrier(name: str, room: Room) -> fittings.CarrierWords:
    """All words of a carrier."""
    words = fittings.CARRIERS[name]
    each = (words.name, words.short, words.put, words.surface, words.bears)
    return fittings.CarrierWords(*map(room.text, each))


def knob(name: str, room: Room) -> str:
    """What a knob is called."""
    return room.term(f"knob.{name}")


def moved(name: str, room: Room) -> str:
    """What goes up or down, away or toward, when the knob is turned."""
    return room.term(f"moved.{name}")


def way(knob: str, room: Room, *, grows: bool) -> str:
    """Where a knob goes when its number grows, or shrinks: `up`, `toward the blade`."""
    return room.term(f"way.{KNOBS[knob].way(grows=grows)}")


def guard(state: str, room: Room) -> str:
    """How guard and riving knife stand."""
    return room.text(_GUARDS[state])


def guard_set(state: str, room: Room) -> str:
    """The same, told to be done."""
    return room.text(_GUARDS_SET[state])


def cleared(knob: str, room: Room) -> str:
    """That the fence or the stop is taken out of the way."""
    return room.text(fittings.KNOBS[knob].cleared)


def leaning(tilt: Fraction, tilts: str, room: Room) -> str:
    """How a blade leans: the side that it `tilts` to, its angle, and the rise where that is a ratio
    for a rule.

    >>> leaning(Fraction(-1, 8), "left", Room("UK"))
    'left 7.1°, away from the fence (1 in 8)'
    >>> leaning(Fraction(541, 1625), "right", Room("UK"))
    'right 18.4°, toward the fence'
    """
    rise, run = abs(tilt.numerator), tilt.denominator
    return room.text(
        _LEANING[tilts, run <= 64, tilt < 0],
        angle=f"{degrees(atan2(rise, run)):.1f}",
        rise=rise,
        run=run,
    )


def title(kind: str, room: Room) -> str:
    """What a setup or step of that kind is called."""
    return room.term(f"kind.{kind}")


def verb(kind: str, room: Room) -> str:
    """What is told to be done in a step of that kind, with a capital."""
    return capitalised(room.text(_VERBS[kind]))


def made_by(name: str, room: Room) -> str:
    """What a pass is called; empty where that is not told."""
    return room.text(_PASSES[name]) if name in _PASSES else ""
