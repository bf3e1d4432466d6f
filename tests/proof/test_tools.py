"""Whether each check can be read as it is printed, and that the proof sees where none could."""

from __future__ import annotations

from fractions import Fraction

import pytest

from sequencer.errors import InternalError
from sequencer.plan import Plan
from sequencer.proof import prove
from sequencer.records import replace
from tests.stages import to_plan
from tests.test_hand_worked import FENCE_JIG, PAIR

WITHOUT = FENCE_JIG + "\n[tools]\ncaliper = false\n"


@pytest.fixture(scope="module")
def plan() -> Plan:
    return to_plan(PAIR, FENCE_JIG)


def _slot(plan: Plan, **values: object) -> Plan:
    n = next(n for n, c in enumerate(plan.checkpoints) if str(c.measure) == "channel-width/slot")
    made = replace(plan.checkpoints[n], **values)  # type: ignore[arg-type]
    return replace(plan, checkpoints=(*plan.checkpoints[:n], made, *plan.checkpoints[n + 1 :]))


def _fails(plan: Plan, message: str) -> None:
    with pytest.raises(InternalError, match=message):
        prove(plan)


def test_what_nobody_can_read_is_found(plan: Plan) -> None:
    (slot,) = [c for c in plan.checkpoints if str(c.measure) == "channel-width/slot"]
    half = Fraction(1, 2000)
    _fails(_slot(plan, low=slot.target), r"check.on-its-limit")
    _fails(_slot(plan, low=slot.low + half), r"check.between-marks\(.*tool=tool.caliper")
    _fails(_slot(plan, tool="tape"), r"check.no-such-tool")
    _fails(_slot(plan, resolution=half), r"check.no-such-tool")
    _fails(_slot(plan, tool="fit"), r"check.could-be-read\(.*tool=tool.caliper")
    _fails(_slot(plan, target=slot.target + 2 * half), r"check.other-target")


def test_without_a_caliper_a_fit_is_tried() -> None:
    """No rule tells four thousandths of an inch; a length is read as before."""
    made = to_plan(PAIR, WITHOUT)
    tools = {str(c.measure): c.tool for c in made.checkpoints}
    assert tools["channel-width/slot"] == tools["tenon"] == "fit"
    assert tools["length"] == "rule"
    assert made.proven


def test_a_tool_that_does_not_reach_is_not_asked_for() -> None:
    made = to_plan(PAIR, FENCE_JIG + '\n[tools]\nrule_reach = "12"\n')
    # Between shoulders a tape does not tell finely enough: they are tried by their fit.
    assert {c.tool for c in made.checkpoints if c.target > 12} == {"tape", "fit"}
    far = next(n for n, c in enumerate(made.checkpoints) if c.target > 12)
    wrong = replace(made.checkpoints[far], tool="rule", resolution=Fraction(1, 64))
    checks = (*made.checkpoints[:far], wrong, *made.checkpoints[far + 1 :])
    _fails(replace(made, checkpoints=checks), r"check.out-of-reach\(.*tool=tool.rule, reach=12 in")
