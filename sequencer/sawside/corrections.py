"""From a reading to an answer in words: good, or which knob goes which way and how far.

move = (target − measured) / per_unit, where per_unit is how much the measure changes when the
knob's number grows by one: −2 for a slot cut by turning the piece round, since both walls move.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction
from typing import Literal

from sequencer.errors import Refusal
from sequencer.facts import dialect_for
from sequencer.lengths import Unit, convert
from sequencer.plan import Checkpoint
from sequencer.saw.measures import What
from sequencer.sheets.figures import PLACES, Scale
from sequencer.wording import Room, saws
from sequencer.wording.measures import measure_words

Verdict = Literal["good", "adjust", "question", "noted"]
"""`noted`: measured at the bench, where no knob answers for it."""

Feel = Literal["tight", "loose", "fits"]

FARTHEST = Fraction(3)
"""mm: a reading farther off than this is a slip of the hand or of the unit; ours."""

PAPER = Fraction(1, 10)
"""mm: a sheet of office paper; common practice."""

FINEST_FEELER = Fraction(1, 20)
"""mm: the thinnest blade of an ordinary set of feeler gauges, and their usual step; common
practice."""

GROWS: Mapping[What, int] = {What.CHANNEL_WIDTH: 1, What.TENON: -1}
"""Measures that can be told by feel: whether a joint that is too tight wants more of it or less."""


@dataclass(frozen=True, slots=True)
class Answer:
    """`move` is the change of the knob's number, `None` where nothing is to be moved."""

    verdict: Verdict
    words: str
    move: Fraction | None = None


def judge(point: Checkpoint, value: Fraction, scale: Scale) -> Answer:
    """The answer to a measured `value`, in the plan's unit."""
    said = f"You measured {_fine(value, scale)}, wanted {_fine(point.target, scale)} {scale.unit}"
    doubt = _doubt(point, value, scale)
    if doubt:
        return Answer("question", f"{said}: {doubt}. Nothing has been changed.")
    near = Fraction(1, 2 * 10 ** PLACES[scale.unit])  # a caliper shows no more
    if point.low - near <= value <= point.high + near:
        return Answer("good", f"{said}: good.")
    if point.knob is None or not point.per_unit:
        return Answer(
            "noted", f"{said}: {_off(point, value, scale)}. {_room(scale).sentence(point.feel)}"
        )
    move = (point.target - value) / point.per_unit
    return Answer("adjust", f"{said}: {words_for(point.knob, move, point.per_unit, scale)}", move)


def by_feel(point: Checkpoint, feel: Feel, scale: Scale) -> Answer:
    """The answer to a fit tried by hand: a change by one paper's thickness, the least that is
    felt. Raises `Refusal` where the measure cannot be felt."""
    grows = GROWS.get(point.measure.what)
    if grows is None or not point.per_unit or point.knob is None:
        raise Refusal(f"{measure_words(point.measure, _room(scale))} cannot be told by feel")
    if feel == "fits":
        return Answer("good", "It fits: taken as planned, since no number was entered.")
    wanted = grows * (1 if feel == "tight" else -1)
    move = wanted * convert(PAPER, "mm", scale.unit) / point.per_unit
    words = words_for(point.knob, move, point.per_unit, scale)
    return Answer("adjust", f"Too {feel}, by one paper's thickness to begin with: {words}", move)


def words_for(knob: str, move: Fraction, per_unit: Fraction, scale: Scale) -> str:
    """Knob, way and amount: as a decimal, in graduations, and as paper where smaller than one.

    >>> words_for("jig", Fraction(-6, 1000), Fraction(-2), Scale("in", Fraction(1, 64)))[:46]
    'move the jig 0.006 in toward the blade (half o'
    """
    size = abs(move)
    way = saws.way(knob, _room(scale), grows=move > 0)
    what = "the blade" if knob == "height" else f"the {saws.knob(knob, _room(scale))}"
    text = f"move {what} {_fine(size, scale)} {scale.unit} {way}"
    if abs(per_unit) == 2:
        text += " (half of what is wrong: the cut is made from both sides, so a move counts twice)"
    return f"{text}. {_amount(size, knob, scale)}"


def _amount(size: Fraction, knob: str, scale: Scale) -> str:
    """The same amount by what is at hand."""
    step = scale.length(scale.graduation)
    counted = size / scale.graduation
    if counted >= 1:
        near = round(counted)
        many = "1 graduation" if near == 1 else f"{near} graduations"
        about = "That is" if counted == near else "That is about"
        return f"{about} {many} of {step}."
    if knob == "height":
        return f"That is less than one graduation of {step}: turn the wheel a touch, then try."
    return f"That is less than one graduation of {step}: {_thin(convert(size, scale.unit, 'mm'))}."


def _thin(size: Fraction) -> str:
    """A thickness in mm, as sheets of paper or a feeler gauge."""
    if size < FINEST_FEELER:
        return f"thinner than any feeler of {_tidy(FINEST_FEELER)} mm; tap it, then try"
    gauge = f"a {_tidy(round(size / FINEST_FEELER) * FINEST_FEELER)} mm feeler"
    sheets = round(size / PAPER)
    if abs(size - sheets * PAPER) > PAPER / 4:
        return gauge
    return f"{'one sheet' if sheets == 1 else f'{sheets} sheets'} of paper, or {gauge}"


def _doubt(point: Checkpoint, value: Fraction, scale: Scale) -> str:
    other: Unit = "in" if scale.unit == "mm" else "mm"
    names = {"in": "inches", "mm": "millimetres"}
    if point.target:
        factor = value / point.target
        inch = convert(Fraction(1), "in", "mm")
        for ratio, likely in ((inch, "mm"), (1 / inch, "in")):
            if abs(factor - ratio) <= ratio / 10 and likely == other:
                return f"that looks like {names[other]}; enter it again with {other} behind it"
    off = abs(point.target - value)
    if off > convert(FARTHEST, "mm", scale.unit):
        return f"off by {_fine(off, scale)} {scale.unit}, more than a setting is ever off"
    return ""


def _off(point: Checkpoint, value: Fraction, scale: Scale) -> str:
    size = _fine(abs(value - point.target), scale)
    return f"{size} {scale.unit} too {'much' if value > point.target else 'little'}"


def _fine(value: Fraction, scale: Scale) -> str:
    """As a caliper shows it; with a place more where that would hide a difference."""
    places = PLACES[scale.unit]
    if value * 10**places == round(value * 10**places):
        return scale.decimal(value)
    scaled = round(value * 10 ** (places + 1))
    whole, rest = divmod(scaled, 10 ** (places + 1))
    return f"{whole}.{rest:0{places + 1}d}".rstrip("0").rstrip(".")


def _tidy(value: Fraction) -> str:
    whole, rest = divmod(round(value * 100), 100)
    return f"{whole}.{rest:02d}".rstrip("0").rstrip(".")


def _room(scale: Scale) -> Room:
    return Room(dialect_for(scale.unit), "page", scale.graduation)
