"""What is kept of a setup as it was dialled in."""

from __future__ import annotations

from fractions import Fraction

import pytest

from sequencer.plan import Plan
from sequencer.saved.remember import entry_of
from tests.setups.batches import one_off_centre
from tests.stages import to_plan
from tests.test_hand_worked import FENCE_JIG


@pytest.fixture(scope="module")
def plan() -> Plan:
    """Grooves from one face, 1/4 in wide: the first door's 3/16 in from the face, the other's in
    the middle, so that one's wall is cut where the other is cleared between its walls."""
    text = one_off_centre(2).replace("[stiles]", '[joint]\nslot = "1/4"\n[stiles]')
    return to_plan(text, FENCE_JIG)


def test_a_setting_answers_to_the_kerf_as_the_cut_that_it_was_tried_for(plan: Plan) -> None:
    """The near side of the kerf makes a channel's first wall, the far side its second; what merely
    shares the setting says nothing of it."""
    shares = {"first": Fraction(0), "widen": Fraction(1)}
    mixed = 0  # settings of a wall that a pass between the walls shares
    for setup in plan.setups:
        own = [step for step in plan.steps if step.setup == setup.number and step.kind == "groove"]
        made_by = {name.rpartition("/")[2] for step in own for name in step.operations}
        tried = {c.at_step for c in plan.checkpoints if c.setup == setup.number and c.scrap}
        if own and tried:
            entry = entry_of(plan, setup.number, "today", {}, {})
            assert entry is not None
            (fence,) = (knob for knob in entry.knobs if knob.knob == "fence")
            (wall,) = made_by - {"middle"}
            assert fence.share == shares[wall]
            mixed += "middle" in made_by
    assert mixed
