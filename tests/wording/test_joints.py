"""What is said of joints: each sentence once."""

from __future__ import annotations

import pytest

from sequencer.facts import Fact, joints
from sequencer.wording import Room
from tests.told import inch

SAID: list[tuple[Fact, str]] = [
    (joints.STUB_WITHOUT_GROOVE(), "a stub tenon needs a groove, but glass stands in a rebate"),
    (joints.BARS_WITHOUT_GROOVE(), "stub-tenoned bars need a groove, but glass stands in a rebate"),
    (
        joints.BRIDLE_ON_HALF_LAP(),
        "a T-bridle needs wood on both sides of its slot; half-laps leave none at the back",
    ),
    (joints.FREE_IN_MITRE(), "this width is left free, but mitred pieces are all equally wide"),
    (joints.STATE_WIDTH_OR_BRIDLE(), 'state its width, or write kind = "bridle"'),
    (
        joints.UNEQUAL_IN_MITRE(piece="top-rail", width=inch("2 1/2"), stile=inch("2")),
        "the top rail, 2 1/2″ wide, is mitred with a stile of 2″",
    ),
    (joints.AS_WIDE_OR_BRIDLE(stile=inch("2")), 'make it 2 in, or write kind = "bridle"'),
]


@pytest.mark.parametrize(("fact", "words"), SAID, ids=[fact.id for fact, _ in SAID])
def test_what_is_said(fact: Fact, words: str) -> None:
    assert Room("UK").say(fact) == words


def test_every_sentence_is_in_the_table() -> None:
    assert {fact.kind for fact, _ in SAID} == set(joints.kind_of.kinds.values())
