"""What is said of why operations and setups stand where they do: each sentence once."""

from __future__ import annotations

import pytest

from sequencer.facts import Fact, reasons
from sequencer.wording import Room

SAID: list[tuple[Fact, str]] = [
    (reasons.MILLED(), "all stock of one thickness is milled together"),
    (reasons.LONG(), "worked on the long strip, then crosscut"),
    (reasons.PLANED(), "the sawn edge is planed before the strip is worked on"),
    (reasons.CHAIN(), "each crosscut squares the next piece's end"),
    (reasons.LENGTH(), "true edge and length first, then joints"),
    (reasons.TEST_READY(), "its test piece is cut first"),
    (reasons.GROOVED(), "the slot is set from the groove"),
    (reasons.SLOT_FIRST(), "slots before the tenons that are fitted to them"),
    (
        reasons.SHOULDER_FIRST(),
        "all shoulders before any cheek, so no loose offcut is trapped at the stop",
    ),
    (reasons.TONGUE_LAST(), "the tongue is fitted to the test strip's groove"),
    (
        reasons.ENDS_FIRST(),
        "ends before long edges, which clean up the tear-out across the grain",
    ),
    (reasons.FREED_LAST(), "the pass with the edge down comes last: its offcut falls free"),
    (reasons.OUTER_FIRST(), "from the open face inward, so that it never stands on a sliver"),
    (reasons.FACE_FIRST(), "face cheeks before edge cheeks"),
    (reasons.SHAPED(), "joints first, while the rail's edges are still straight"),
    (reasons.FOLLOWS(), "the groove follows the shaped edge"),
    (reasons.WHOLE_JOINT(), "every joint cut before the dry fit"),
    (reasons.GLUED_UP(), "boards are glued up first, then ripped and crosscut to size"),
    (
        reasons.MEASURED(),
        "the dry frame's opening is measured before its panel is cut to size",
    ),
    (reasons.TRIMMED(), "horns are sawn off before glue, so that the cramps bear"),
    (reasons.SIZED(), "the panel is at its final size before finish"),
    (reasons.FINISHED(), "panels are finished before glue"),
    (reasons.BENCH(), "the order at the bench"),
    (reasons.BACKED(), "the mitre is cut while the wood behind it is whole"),
    (reasons.NEAR_FIRST(), "the waste is nibbled away up to a shoulder that is already cut"),
    (
        reasons.WALL_FIRST(),
        "the width is measured from a wall that is already cut",
    ),
    (reasons.TONGUE_FITTED(), "slots before the tongues that are fitted to them"),
    (
        reasons.AFTER_SETUPS(n=1, setups=(3,), because=reasons.SLOT_FIRST()),
        "after setup 3: slots before the tenons that are fitted to them",
    ),
    (
        reasons.AFTER_SETUPS(n=2, setups=(3, 5), because=reasons.SLOT_FIRST()),
        "after setups 3 and 5: slots before the tenons that are fitted to them",
    ),
    (
        reasons.AFTER_WORK(work="kind.dry fit", because=reasons.MEASURED()),
        "after the dry fit: the dry frame's opening is measured before its panel is cut to size",
    ),
    (reasons.AFTER_MILLING(), "after milling"),
    (reasons.STAY(n=1, knobs=("knob.height",)), "blade height stays as set"),
    (
        reasons.STAY(n=2, knobs=("carrier.tenoning-jig", "knob.height")),
        "tenoning jig, blade height stay as set",
    ),
    (reasons.SERVES(doors=3), "serves 3 doors at once"),
]


@pytest.mark.parametrize(("fact", "words"), SAID, ids=[fact.id for fact, _ in SAID])
def test_what_is_said(fact: Fact, words: str) -> None:
    assert Room("UK").say(fact) == words


def test_every_sentence_is_in_the_table() -> None:
    assert {fact.kind for fact, _ in SAID} == set(reasons.kind_of.kinds.values())
