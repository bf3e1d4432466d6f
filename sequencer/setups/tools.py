"""Which tool reads a measure, and what is good on its marks.

What is good is stated about the size that the plan makes. A person reads steps of a tool: target
and limits become whole steps, so that what is printed can be read, and what is read compared.
"""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from msgspec import Struct

from sequencer.cuts.model import Check, ScrapTest
from sequencer.job.schema import Tools
from sequencer.saw.measures import What
from sequencer.trade.tools import LEAST_STEPS, ToolName


class Read(Struct, frozen=True):
    """How a measure is read: `target`, `low` and `high` in whole steps of `resolution`."""

    tool: ToolName
    resolution: Fraction
    target: Fraction
    low: Fraction
    high: Fraction


TRIED = frozenset({What.HOUSING_WIDTH})
"""Whatever tools there are, it is tried by the bar that it is for, whose width nobody measures."""


def read_by(check: ScrapTest | Check, tools: Tools) -> Read:
    """The first tool that reaches, and tells what is good from what is not: a rule, a caliper, a
    tape. Where none does, the piece is tried against what it is to fit."""
    if check.measure.what in TRIED:
        return _tried(check, tools)
    about = check.knob is not None
    hands = list(_at_hand(check.high, tools))
    if not about:  # nothing at the bench corrects a length: it is read to half a mark
        tool, step = hands[0]
        hands.append((tool, step / 2))
    for tool, step in hands:
        read = _on_marks(check, tool, step, about=about)
        if _tells(read):
            return read
    return _tried(check, tools)


def _tried(check: ScrapTest | Check, tools: Tools) -> Read:
    return Read("fit", tools.rule, check.target, check.low, check.high)


def _tells(read: Read) -> bool:
    """Whether it has steps enough, and the target is no limit, but where nothing is less."""
    inside = read.low < read.target < read.high or read.low == read.target == 0
    return inside and read.high - read.low >= LEAST_STEPS * read.resolution


def _at_hand(most: Fraction, tools: Tools) -> Iterator[tuple[ToolName, Fraction]]:
    if most <= tools.rule_reach:
        yield "rule", tools.rule
    if tools.caliper is not None and most <= tools.caliper_reach:
        yield "caliper", tools.caliper
    yield "tape", tools.tape


def _on_marks(check: ScrapTest | Check, tool: ToolName, step: Fraction, *, about: bool) -> Read:
    """A cut that is corrected is good `about` its target's mark, and nothing is less than none;
    what is measured once, only where the requirement itself lets it be."""
    target = _nearest(check.target, step)
    if about:
        low = max(Fraction(0), target - (check.target - check.low) // step * step)
        high = target + (check.high - check.target) // step * step
    else:
        low, high = -(-check.low // step) * step, check.high // step * step
        first = low if check.low == check.target == 0 else low + step
        target = min(max(target, first), high - step)
    return Read(tool, step, target, low, high)


def _nearest(value: Fraction, step: Fraction) -> Fraction:
    return round(value / step) * step
