"""Which places on a test piece may be cut again: asked of the wood, sawn wrong and then right."""

from __future__ import annotations

from collections import Counter
from fractions import Fraction
from pathlib import Path

import pytest

from sequencer.instructions.spent import ends_of, spends
from sequencer.plan import Checkpoint, Plan
from sequencer.proof.checks import Sawing, _Checks, _read, _turned, seen_by
from sequencer.proof.compare import saw_and_compare
from sequencer.proof.grain import Grain, grain_of
from sequencer.proof.handling import Watch
from sequencer.proof.saw import saw
from sequencer.trade import fits
from tests.proof.test_intent import EXAMPLES, example
from tests.stages import to_plan


def goes_again(checks: _Checks, check: Checkpoint, events: list[Sawing], by: int) -> bool:
    """Whether the same place comes out as planned when it is cut once more, after its knob stood
    `by` grains elsewhere."""
    wood = events[0].before
    for event in events:
        wood = saw(wood, _turned(event, check.knob, by)).kept
    passes = [_turned(event, check.knob, 0) for event in events]
    marked = passes[0].marks.at(checks.marked.get(events[0].mark, "face"))
    found = _read(check.measure, marked, wood, passes, checks.grain)
    return found is not None and Fraction(found) == check.exact * checks.grain.parts


def tried(plan: Plan) -> tuple[_Checks, Grain]:
    grain, sawings = grain_of(plan), list[Sawing]()
    saw_and_compare(plan, grain, seen_by(sawings, Watch(plan, grain).look))
    return _Checks(plan, sawings, grain), grain


@pytest.mark.parametrize("path", EXAMPLES, ids=lambda path: path.parent.name)
def test_where_too_much_is_gone_the_place_is_spent_and_elsewhere_not(path: Path) -> None:
    plan = example(path)
    checks, grain = tried(plan)
    seen: Counter[bool] = Counter()
    for check in plan.checkpoints:
        if not check.scrap:
            continue
        events = checks.cut_for(check, checks.steps[check.at_step])
        for by in (-40, 40):
            value = checks.read(check, events, by)
            if value is None or value == check.exact * grain.parts:
                continue  # an earlier pass has been as far already
            off = Fraction(value) / grain.parts - check.exact
            spent = spends(check, check.target + off)
            assert goes_again(checks, check, events, by) != spent, (check.measure, by)
            seen[spent] += 1
    assert (seen[True] > 0 and seen[False] > 0) or not plan.scrap


@pytest.mark.parametrize("path", EXAMPLES, ids=lambda path: path.parent.name)
def test_what_is_left_can_still_be_held_and_every_end_is_tried_twice(path: Path) -> None:
    tried_twice(example(path))


def test_between_the_shoulders_of_long_stub_tenons_too() -> None:
    """A groove as deep as 35 mm takes tenons as long."""
    text = """
    unit = "mm"
    sure = ["groove.depth"]
    [stock]
    thickness = "22"
    [stiles]
    hinge = "90"
    [rails]
    top = "90"
    bottom = "100"
    [groove]
    depth = "35"
    [joint]
    kind = "stub tenon"
    [[door]]
    opening = { width = "370", height = "700" }
    """
    tried_twice(to_plan(text))


def tried_twice(plan: Plan) -> None:
    """Whoever saws off what the sheet says, as often as it says, holds at least 6 in or 150 mm
    beside the deepest cut, and there is another place for every first one."""
    held = fits.JIG_HOLD.of(plan.unit)
    for scrap in plan.scrap:
        ends = ends_of(plan, scrap.mark)
        if ends is None:
            continue
        kinds = {c.measure.what.value for c in plan.checkpoints if c.scrap == scrap.mark}
        both = 2 if "shoulders" in kinds else 1
        kerf = max(setup.kerf for setup in plan.setups)
        left = scrap.size.length - ends.times * both * (ends.off + kerf)
        assert ends.times == 0 or left - ends.off >= held - fits.BLANK_STEP.of(plan.unit)
        assert ends.times or both == 1
