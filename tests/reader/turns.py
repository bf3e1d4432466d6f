"""What is turned at the saw, as told: settings, moves, corrections."""

from __future__ import annotations

import re
from dataclasses import dataclass
from fractions import Fraction

from tests.reader.words import LENGTH, Unreadable, length


@dataclass(frozen=True)
class Turn:
    """A knob set (`to`), or moved by `by` (its number growing where positive)."""

    knob: str
    to: Fraction | None = None
    by: Fraction | None = None


_SET = re.compile(
    rf"set the (blade height|fence|stop|jig|mitre stop)"
    rf"(?:, on the (?:left|right) of the blade,)? to ({LENGTH})"
    r"(?:, measured from the (?:auxiliary|tall) fence)?"
)
_MOVE = re.compile(
    rf"(blade|fence|stop|jig|mitre stop) ({LENGTH}) (up|down|away from the blade|toward the blade)"
)


BLOCK = re.compile(rf"put the ({LENGTH}) block between jig and piece")
BLOCK_OUT = "take the block from between jig and piece"
BEHIND = re.compile(rf"({LENGTH}) block between jig and piece(, stays)?\.?", re.IGNORECASE)


def turn(text: str) -> Turn | None:
    """What is turned; `None` where it is no knob with a scale."""
    if found := _SET.fullmatch(text):
        knob = "height" if found[1] == "blade height" else found[1]
        return Turn(knob, to=length(found[2]))
    if found := _MOVE.fullmatch(text):
        up_and_down = found[3] in ("up", "down")
        if up_and_down != (found[1] == "blade"):
            raise Unreadable(f"“{text}” goes no way that a {found[1]} goes")
        grows = found[3] in ("up", "away from the blade")
        by = length(found[2])
        return Turn("height" if up_and_down else found[1], by=by if grows else -by)
    return None


@dataclass(frozen=True)
class Correction:
    """What is turned where a measure is too great, or a fit that is tried by hand too `tight`: the
    knob, whether its number shrinks then, and by what share of the difference or of a paper."""

    knob: str
    shrinks: bool
    share: Fraction
    tight: bool = False


_CORRECT = re.compile(
    r"Too (?P<too>much|tight)(?P<more>, new (?:ends?|strip))?: "
    r"(?P<first>lower blade|raise blade|"
    r"(?:fence|stop|jig|mitre stop) (?:toward|away)|block (?:thicker|thinner))"
    r" by (?P<share>half |[\d.]+ of |)"
    r"(?P<by>that much|that|the thickness of a sheet of paper)(?:, paper beside it)?\. "
    r"Too (?P<other>little|loose)(?P<less>, new (?:ends?|strip))?: (?P<then>[\w ]+)"
    r"(?:, paper beside it)?\."
)
_WAY = re.compile(" (?=toward|away|thicker|thinner)")
CORRECTS = re.compile("Too (?:much|tight)(?:, new (?:ends?|strip))?: ")
"""How a line begins that says what to turn."""

_WAYS = {
    ("much", "that much", "little"),
    ("much", "that", "little"),
    ("tight", "the thickness of a sheet of paper", "loose"),
}
_BACK = {
    "lower blade": "raise it", "raise blade": "lower it",
    "toward": "away", "away": "toward", "thicker": "thinner", "thinner": "thicker",
}  # fmt: skip


def correction(text: str) -> Correction | None:
    """What a line tells to be turned; `None` where it tells nothing of the kind."""
    found = _CORRECT.match(text)
    if found is None:
        if CORRECTS.match(text):
            raise Unreadable(f"“{text}” says not what to turn")
        return None
    if (found["too"], found["by"], found["other"]) not in _WAYS:
        raise Unreadable(f"“{text}” takes a fit for what is read, or the other way round")
    first = found["first"]
    blade = first.endswith("blade") and first.startswith(("lower", "raise"))
    knob, way = ("height", first) if blade else _WAY.split(first, maxsplit=1)
    if found["more"] and found["less"]:
        raise Unreadable(f"“{text}” spends an end whatever was measured")
    if _BACK[way] != found["then"]:
        raise Unreadable(f"“{text}” turns the same way for too much and too little")
    share = {"": Fraction(1), "half ": Fraction(1, 2)}
    said = found["share"]
    return Correction(
        knob,
        way in ("lower blade", "toward", "thinner"),
        share[said] if said in share else Fraction(said.split(" ")[0]),
        found["too"] == "tight",
    )
