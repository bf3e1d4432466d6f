"""How a piece lies for a cut, as it is said."""

from __future__ import annotations

import pytest

from sequencer.facts import Fact, instructions
from sequencer.wording import Room

AGAINST = instructions.BEARS(side="side.marked-face", carrier="tenoning-jig")
AT = instructions.BEARS(side="side.end-B", carrier="crosscut-sled")

SAID: dict[Fact, str] = {
    AGAINST: "marked face against the jig",
    AT: "end B at the stop",
    instructions.BEARS_ON_BLOCK(side="side.back"): "back against the block",
    instructions.LIES(down="side.end-A", bearing=AGAINST): (
        "end A down, marked face against the jig"
    ),
    instructions.LIES_SLANTED(down="side.show-face", bearing=AT): (
        "show face down, outside edge along the 45° fence, end B at the stop"
    ),
    instructions.OFF_STRIP(down="side.back"): (
        "back down, inside edge away from you, squared end at the stop"
    ),
    instructions.TRIMMED(down="side.back"): (
        "back down, inside edge away from you; just clean the end on the stop's side"
    ),
    instructions.BACK_TO_FIRST(): "then slide away from it pass by pass, back to the first kerf",
    instructions.SWEPT(): "then slide away from it pass by pass until all the waste is gone",
    instructions.FAR_PART(): "the part is the strip on the open side",
    instructions.FIT_STRIP(): "when all are cut so, blade still, fit the bearing strip",
    instructions.TURN_ROUND(bearing=AGAINST): "turn round, marked face against the jig",
    instructions.TURN_OVER(down="side.inside-edge"): "turn over, inside edge down",
    instructions.OTHER_END(): "then the other end the same way",
    instructions.OTHER_FENCE(): "then the other end on the other fence",
    instructions.SAME_AS_STEP(step=15): "same way as step 15",
    instructions.ONE_END_AS_STEP(step=15): "one end, same way as step 15",
    instructions.SAW_OFF_TRIED(): "saw off first the end that was tried in the jig",
    instructions.FRESH_EDGE(): "along an edge that was not tried yet",
    instructions.AT_STOP(end="side.end-A"): "end A at the stop",
}


@pytest.mark.parametrize(("fact", "text"), SAID.items(), ids=[str(fact) for fact in SAID])
def test_each_instruction_is_said(fact: Fact, text: str) -> None:
    assert Room("UK").say(fact) == text


def test_all_are_said() -> None:
    assert {fact.kind for fact in SAID} == set(instructions.kind_of.kinds.values())
