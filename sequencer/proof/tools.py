"""Whether a check can be read as it is printed: its tool reaches, its numbers are the tool's."""

from __future__ import annotations

from fractions import Fraction

from sequencer.facts import Fact, Length, measures
from sequencer.facts import checks as told
from sequencer.job.schema import Tools
from sequencer.lengths import Unit
from sequencer.plan import Checkpoint, Plan, Setup
from sequencer.proof.dials import SPACER, guide_reading

UNMEASURED = frozenset({"housing-width"})
"""What is as wide as a bar was ripped, by the fence's scale."""


def unread(check: Checkpoint, tools: Tools | None, unit: Unit) -> Fact | None:
    """Why nobody can read the check so; `None` where anybody can. What is good lies on whole steps
    of the tool, with the target strictly inside where less is possible, and no further from what
    the plan makes than the tool can show. What no tool tells is tried by its fit, and what is made
    for a piece that nobody measures; nothing else is."""
    if tools is None or check.tool is None:
        return None
    what = measures.MEASURED(form=str(check.measure))
    hands: dict[str, tuple[Fraction | None, Fraction | None]] = {
        "rule": (tools.rule, tools.rule_reach),
        "caliper": (tools.caliper, tools.caliper_reach),
        "tape": (tools.tape, None),
    }
    unmeasured = check.measure.what.value in UNMEASURED
    if unmeasured and check.tool != "fit":
        return told.MADE_FOR_A_BAR(measure=what)
    if check.tool == "fit":
        band = check.high - check.low
        for name, (step, reach) in hands.items():
            # A step at either end may be lost to where the marks lie.
            if (
                not unmeasured
                and step
                and band >= 4 * step
                and (reach is None or check.high <= reach)
            ):
                return told.COULD_BE_READ(measure=what, tool=f"tool.{name}")
        found, target = Length(check.exact, unit), Length(check.target, unit)
        other = told.OTHER_TARGET(measure=what, found=found, target=target)
        return None if check.target == check.exact else other
    step, reach = hands[check.tool]
    tool = f"tool.{check.tool}"
    if step is None or check.resolution not in _read(step, between=check.knob is None):
        return told.NO_SUCH_TOOL(measure=what, tool=tool)
    if reach is not None and check.target > reach:
        return told.OUT_OF_REACH(measure=what, tool=tool, reach=Length(reach, unit))
    step = check.resolution or step
    for value in (check.target, check.low, check.high):
        if value % step:
            return told.BETWEEN_MARKS(measure=what, value=Length(value, unit), tool=tool)
    if abs(check.target - check.exact) > step / 2 and not _drawn_inside(check, step):
        return told.OTHER_TARGET(
            measure=what, found=Length(check.exact, unit), target=Length(check.target, unit)
        )
    if _on_limit(check):
        return told.ON_ITS_LIMIT(measure=what, target=Length(check.target, unit))
    return None


def set_amiss(plan: Plan, setup: Setup) -> Fact | None:
    """Why a number of a setup is not set as is told; `None` where it is. A mark is a whole step of
    the knob's scale, a block one at hand; what is set from its mate has a check that refers to
    it, or is tried by it."""
    scales, tools = plan.shop.scales, plan.shop.tools
    if scales is None or tools is None:
        return None
    knob, reading = guide_reading(setup, plan.shop)
    shown = None if reading is None else setup.reading
    between = None if setup.guide is None else setup.guide + setup.spacer
    numbers = {"height": (setup.height_shown, setup.height), knob: (shown, between)}
    through = any(c.keeps for s in plan.steps if s.setup == setup.number for c in s.cuts)
    for each in setup.set_by:
        if each.knob == SPACER:
            if each.how != "block" or setup.spacer not in tools.blocks:
                return told.SET_AMISS(knob=each.knob, how=each.how)
            continue
        shown, between = numbers.get(each.knob, (None, None))
        if shown is None:
            return told.SET_AMISS(knob=each.knob, how=each.how)
        marked = shown % scales[each.knob.replace("mitre ", "")] == 0
        refers = any(
            (c.after or c.tool == "fit") and (c.setup, c.knob) == (setup.number, each.knob)
            for c in plan.checkpoints
        )
        right = {
            "any": each.knob == "height" and through,
            "mark": marked,
            "block": not marked and between in tools.blocks,
            "mate": not marked and refers,
            "between marks": not marked and not refers and between not in tools.blocks,
        }
        if not right[each.how]:
            return told.SET_AMISS(knob=each.knob, how=each.how)
    return None


def _read(step: Fraction, *, between: bool) -> tuple[Fraction, ...]:
    """What a tool of that step is read in; at the bench also to half of it."""
    return (step, step / 2) if between else (step,)


def _drawn_inside(check: Checkpoint, step: Fraction) -> bool:
    """Whether a target at the bench, whose nearest mark is a limit or beyond, is the mark next to
    that limit."""
    if check.knob is not None:
        return False
    first, last = check.low + step, check.high - step
    return (check.target, check.exact) in ((first, min(check.exact, first)),
                                           (last, max(check.exact, last)))  # fmt: skip


def _on_limit(check: Checkpoint) -> bool:
    """Nothing is less than no difference at all; every other target is well inside."""
    if check.low == check.target == 0:
        return check.high <= 0
    return not check.low < check.target < check.high
