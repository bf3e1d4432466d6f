"""From a reading to an answer: good, or which knob goes which way and how far.

move = (target − measured) / per_unit, where per_unit is how much the measure changes when the
knob's number grows by one: −2 for a slot cut by turning the piece round, since both walls move.
"""

from __future__ import annotations

from collections.abc import Mapping
from fractions import Fraction
from typing import Literal

from msgspec import Struct

from sequencer.errors import Refusal
from sequencer.facts import Fact, Length, answers, taps
from sequencer.instructions.figures import Scale
from sequencer.lengths import Unit, convert
from sequencer.plan import Checkpoint
from sequencer.saw.fittings import KNOBS, SPACER
from sequencer.saw.measures import FELT
from sequencer.sawside import instructed

Verdict = Literal["good", "adjust", "question", "noted"]
"""`noted`: measured at the bench, where no knob answers for it."""

Feel = Literal["tight", "loose", "fits"]

FARTHEST = Fraction(3)
"""mm: a reading farther off than this is a slip of the hand or of the unit; ours."""

PAPER: Mapping[Unit, Fraction] = {"in": Fraction(4, 1000), "mm": Fraction(1, 10)}
"""A sheet of office paper; common practice."""

FINEST_FEELER: Mapping[Unit, Fraction] = {"in": Fraction(2, 1000), "mm": Fraction(1, 20)}
"""The thinnest blade of an ordinary set of feeler gauges, and their usual step; common practice."""

UNITS: Mapping[Unit, str] = {"in": "inches", "mm": "millimetres"}
"""The term for each unit."""


class Answer(Struct, frozen=True):
    """`says` is told one after another; `move` is the change of the knob's number, `None` where
    nothing is to be moved."""

    verdict: Verdict
    says: tuple[Fact, ...]
    move: Fraction | None = None


def setting_of(knob: str) -> str:
    """The term for what a knob moves."""
    return f"moved.{knob}"


def judge(point: Checkpoint, value: Fraction, scale: Scale) -> Answer:
    """The answer to a measured `value`, in the plan's unit."""
    doubt = _doubt(point, value, scale)
    if doubt is not None:
        return Answer("question", (doubt, answers.NOTHING_CHANGED()))
    measured, target = Length(value, scale.unit), Length(point.target, scale.unit)
    if point.low <= value <= point.high:
        return Answer("good", (answers.GOOD(measured=measured, target=target),))
    if point.knob is None or not point.per_unit:
        off = answers.TOO_MUCH if value > point.target else answers.TOO_LITTLE
        by = Length(abs(value - point.target), scale.unit)
        said = off(measured=measured, target=target, by=by)
        return Answer("noted", (said, *([point.feel] if point.feel else [])))
    move = (point.target - value) / point.per_unit
    first, *more = how_to_move(point.knob, move, point.per_unit, scale)
    said = answers.ADJUST(measured=measured, target=target, move=first)
    return Answer("adjust", (said, *more), move)


def by_feel(point: Checkpoint, feel: Feel, scale: Scale) -> Answer:
    """The answer to a fit tried by hand: a change by one paper's thickness, the least that is
    felt. Raises `Refusal` where the measure cannot be felt."""
    grows = FELT.get(point.measure.what)
    told = grows is not None and point.per_unit and point.knob is not None
    if feel == "fits" and (told or point.tool == "fit"):
        return Answer("good", (answers.FITS(),))
    if grows is None or not point.per_unit or point.knob is None:
        raise Refusal(taps.NO_FEEL(measure=instructed.measured(point.measure)))
    wanted = grows * (1 if feel == "tight" else -1)
    move = wanted * PAPER[scale.unit] / point.per_unit
    first, *more = how_to_move(point.knob, move, point.per_unit, scale)
    felt = answers.TIGHT if feel == "tight" else answers.LOOSE
    return Answer("adjust", (felt(move=first), *more), move)


def how_to_move(knob: str, move: Fraction, per_unit: Fraction, scale: Scale) -> tuple[Fact, ...]:
    """Knob, way and amount; whether a move counts twice; the amount in graduations, and as paper
    where it is smaller than one."""
    size = abs(move)
    twice = [answers.TWICE()] if abs(per_unit) == 2 else []
    if knob == SPACER:
        by = Length(size, scale.unit)
        thin = _thin(max(size, FINEST_FEELER[scale.unit]), scale.unit)
        thicker = answers.THICKER(by=by, thin=thin)
        return (thicker if move > 0 else answers.THINNER(by=by), *twice)
    way = f"way.{KNOBS[knob].way(grows=move > 0)}"
    said = answers.MOVE(setting=setting_of(knob), by=Length(size, scale.unit), way=way)
    return (said, *twice, _amount(size, knob, scale))


def _amount(size: Fraction, knob: str, scale: Scale) -> Fact:
    """The same amount by what is at hand."""
    step = Length(scale.divided(knob), scale.unit)
    counted = size / step.value
    if counted >= 1:
        near = Fraction(round(counted * 4), 4)
        if counted.denominator == 1:
            return answers.GRADUATIONS(n=int(counted), step=step)
        return answers.ABOUT_GRADUATIONS(n=near, step=step)
    if knob == "height":
        return answers.A_TOUCH(step=step)
    return answers.LESS(step=step, thin=_thin(size, scale.unit))


def _thin(size: Fraction, unit: Unit) -> Fact:
    """A thickness, as sheets of paper or a feeler gauge."""
    finest, paper = FINEST_FEELER[unit], PAPER[unit]
    if size < finest:
        return answers.NO_FEELER(size=Length(finest, unit))
    gauge = Length(round(size / finest) * finest, unit)
    sheets = round(size / paper)
    if abs(size - sheets * paper) > paper / 4:
        return answers.FEELER(size=gauge)
    return answers.PAPER(n=sheets, size=gauge)


def _doubt(point: Checkpoint, value: Fraction, scale: Scale) -> Fact | None:
    measured, target = Length(value, scale.unit), Length(point.target, scale.unit)
    other: Unit = "in" if scale.unit == "mm" else "mm"
    if point.target:
        factor = value / point.target
        inch = convert(Fraction(1), "in", "mm")
        for ratio, likely in ((inch, "mm"), (1 / inch, "in")):
            if abs(factor - ratio) <= ratio / 10 and likely == other:
                return answers.OTHER_UNIT(
                    measured=measured, target=target, unit=UNITS[other], sign=other
                )
    off = abs(point.target - value)
    if off > convert(FARTHEST, "mm", scale.unit):
        return answers.TOO_FAR(measured=measured, target=target, by=Length(off, scale.unit))
    return None
