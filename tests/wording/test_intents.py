"""What is said of the order of the trade: each sentence once."""

from __future__ import annotations

import pytest

from sequencer.facts import Fact, intents
from sequencer.wording import Room

SAID: list[tuple[Fact, str]] = [
    (
        intents.TOO_EARLY(first="step.test-cut", mark="A1", step=12, why=intents.SLOT_FIRST()),
        "it comes before test cut of A1 in step 12: a slot comes before what is fitted to it",
    ),
    (intents.NEVER_TRIED(cut="step.slot"), "no slot was tried on scrap before good wood is cut"),
    (intents.NO_STEP(kind="step.slot", door="A"), "door A: the plan has no step “slot”"),
    (
        intents.NEVER_GLUED(strip="#7"),
        "strip #7 is of several boards, and no step glues it up",
    ),
    (
        intents.OTHER_BOARDS(strip="#7", told=2, laid=3),
        "strip #7 is told to be of 2 boards, and laid out as 3",
    ),
    (intents.FLAT_FIRST(), "wood is milled flat and to thickness before it rides on saw or fence"),
    (intents.GLUED_UP_FIRST(), "boards are glued up before they are cut to size together"),
    (intents.EDGE_FIRST(), "both edges are true before anything rides on them"),
    (intents.LONG_FIRST(), "what runs along a strip is cut before the strip is cut into pieces"),
    (intents.SQUARE_FIRST(), "a strip's end is squared before lengths are taken from it"),
    (
        intents.LENGTH_FIRST(),
        "a piece is cut to length before its joints, which are set from its ends",
    ),
    (intents.SCRAP_FIRST(), "a setting that a fit hangs on is tried on scrap before good wood"),
    (intents.SLOT_FIRST(), "a slot comes before what is fitted to it"),
    (intents.SHOULDER_FIRST(), "shoulders come before cheeks, so that the waste falls free"),
    (intents.MITRE_FIRST(), "a mitre is cut while the wood behind it is whole"),
    (intents.STRAIGHT_FIRST(), "an edge is shaped when no cut needs it straight any more"),
    (intents.SHAPE_FIRST(), "a groove along a shaped edge follows that edge"),
    (intents.ENDS_FIRST(), "ends come before long edges, which take away what tears out"),
    (intents.JOINTS_FIRST(), "every joint is cut before the dry fit"),
    (intents.FIT_BEFORE_SIZE(), "a panel is cut to the opening of the dry frame"),
    (intents.FIT_BEFORE_GLUE(), "a frame is tried dry before it is glued"),
    (intents.FIT_BEFORE_FINISH(), "finish goes on when a frame has been tried dry"),
    (intents.TRIM_BEFORE_GLUE(), "surplus is sawn off before glue, so that cramps bear"),
    (intents.SIZE_BEFORE_FINISH(), "finish goes on when a piece is at its size"),
    (
        intents.FINISH_BEFORE_GLUE(),
        "panels are finished before glue, or bare wood shows when they move",
    ),
    (intents.WHILE_WET(), "diagonals are measured while the glue is wet"),
    (intents.GLUED_BEFORE_FLUSH(), "a frame is trimmed flush when its glue is dry"),
    (intents.GLASS_LAST(), "glass goes in when all sawing, planing and finishing is done"),
    (intents.HUNG_LAST(), "a door is hung when it is done"),
]


@pytest.mark.parametrize(("fact", "words"), SAID, ids=[fact.id for fact, _ in SAID])
def test_what_is_said(fact: Fact, words: str) -> None:
    assert Room("UK").say(fact) == words


def test_every_sentence_is_in_the_table() -> None:
    assert {fact.kind for fact, _ in SAID} == set(intents.kind_of.kinds.values())
