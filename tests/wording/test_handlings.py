"""What is said of hands and waste: each sentence once."""

from __future__ import annotations

import pytest

from sequencer.facts import Fact
from sequencer.facts import handlings as h
from sequencer.wording import Room
from tests.told import inch

FREED = h.FREED(what="freed.cheek", side="kerf.open", lands="lands.table")

SAID: list[tuple[Fact, str]] = [
    (h.UNTOLD(), "the plan does not say how it is held and what falls"),
    (
        h.FALLS(found=FREED, told=h.CHIPS()),
        (
            "the plan says “nothing but chips falls”, "
            "the virtual saw “the cheek falls on the open side, on the table”"
        ),
    ),
    (
        h.CAPTIVE(found="captive.part", told="captive.none"),
        "captive between guide and blade is the part, not nothing as the plan says",
    ),
    (
        h.HELD(found="kerf.guide", told="kerf.open"),
        "held is on the open side; it should be on the guide’s side",
    ),
    (
        h.HELD(found="kerf.none", told="kerf.open"),
        "held is on the open side; it should be above the blade",
    ),
    (
        h.REACHES(found=inch("8"), told=inch("9")),
        "what is held reaches 8″ from the blade, not 9″ as the plan says",
    ),
    (h.NO_GRIP(by="by.hand"), "a hand does not hold it there"),
    (
        h.TOO_NEAR(by="by.push-stick", found=inch("1"), least=inch("2")),
        "held by a push stick it reaches 1″ from the blade; it must be 2″",
    ),
    (
        h.PRESSED(found="pressed.down", told="pressed.to-fence"),
        "pressed to the fence as the plan says; it should be down",
    ),
    (
        h.ENDED(found="ended.still", told="ended.past"),
        (
            "the plan ends the pass with the piece right past the blade; "
            "it should be the blade standing still"
        ),
    ),
    (h.KNIFE_ON_HEAD(), "no riving knife fits a grooving head"),
    (FREED, "the cheek falls on the open side, on the table"),
    (h.CHIPS(), "nothing but chips falls"),
    (
        h.LEAVE(what="freed.rest", way="left"),
        "The rest of the strip falls to the left; leave it until the blade stops.",
    ),
]


@pytest.mark.parametrize(("fact", "words"), SAID, ids=[fact.id for fact, _ in SAID])
def test_what_is_said(fact: Fact, words: str) -> None:
    assert Room("UK").say(fact) == words


def test_every_sentence_is_in_the_table() -> None:
    assert {fact.kind for fact, _ in SAID} == set(h.kind_of.kinds.values())
