"""What a plan records beside its setups and steps."""

from __future__ import annotations

from sequencer.facts import notes
from tests.stages import to_plan
from tests.test_hand_worked import FENCE_JIG, PAIR

SPARE = """
[[cutter]]
name = "spare"
kind = "blade"
kerf = "1/8"
diameter = "10"
grind = "alternate"
"""


def test_only_of_blades_that_are_used_their_uneven_teeth_are_told() -> None:
    """Joinery is cut by the flat-topped blade where there is one."""
    flat = to_plan(PAIR, FENCE_JIG + SPARE)
    assert {setup.cutter for setup in flat.setups} == {"joinery"}
    assert flat.notes == to_plan(PAIR, FENCE_JIG).notes
    assert notes.UNEVEN_TEETH(cutter="spare") not in flat.notes
    pointed = to_plan(PAIR, FENCE_JIG.replace("flat-top", "alternate"))
    assert notes.UNEVEN_TEETH(cutter="joinery") in pointed.notes
