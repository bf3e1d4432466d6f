"""What is said of a plan that is not what was asked for: each sentence once."""

from __future__ import annotations

import pytest

from sequencer.facts import Fact, parts, promises
from sequencer.wording import Room

SAID: list[tuple[Fact, str]] = [
    (promises.NO_LEAF(door="A"), "the job asks for leaf A, and the plan has none"),
    (promises.NOT_ASKED(door="A"), "the plan has a leaf A, and no job asks for it"),
    (promises.OTHER_HINGE(door="A", side="left"), "leaf A: its hinges are to be on the left"),
    (promises.OTHER_FACE(door="A"), "leaf A: the face with the marks is to look the other way"),
    (promises.OTHER_OPENING(door="A"), "leaf A: its opening is not the one that was measured"),
    (
        promises.OTHER_GAP(door="A", side="edge.top"),
        "leaf A: the gap at its top edge is not the one asked for",
    ),
    (promises.OTHER_PAIR(door="A"), "leaf A: it is not paired as the job has it"),
    (
        promises.OTHER_COUNT(what=parts.BOUGHT(what="knob"), found=1, wanted=2),
        "to order of knob: 1 in the list, 2 needed",
    ),
    (promises.OTHER_SEASON(door="A", piece="A5"), "leaf A: the year of A5 does not add up"),
    (promises.OTHER_GAP_SEASON(door="A"), "leaf A: the year of its free gap does not add up"),
    (
        promises.BINDS(door="A", piece="A5"),
        "leaf A: A5 binds in the wettest season or comes out in the driest",
    ),
    (
        promises.OTHER_AMOUNT(material="oak", strips=4),
        "rough list: oak, 4 strips: its amount does not add up",
    ),
    (
        promises.SAME_WOOD(board="b1", one="#1", other="#2"),
        "board b1: #1 and #2 lie on the same wood",
    ),
    (
        promises.OTHER_CAUTIONS(setup=4, rule="C09"),
        "setup 4: what is said by rule C09 is not what it says",
    ),
    (
        promises.OTHER_AT_BENCH(step=27, rule="K02"),
        "step 27: what is said by rule K02 is not what it says",
    ),
    (promises.OTHER_STANDING(rule="G02"), "what stands first by rule G02 is not what it says"),
    (
        promises.OTHER_LOOK(look="caution.check-worn"),
        "before power or before leaving, “caution.check-worn” is missing, or said otherwise",
    ),
    (
        promises.OTHER_TICK(rule="C04", setups=(1, 2)),
        "what is to be ticked by rule C04 is missing, or for other setups",
    ),
]


@pytest.mark.parametrize(("fact", "words"), SAID, ids=[fact.id for fact, _ in SAID])
def test_what_is_said(fact: Fact, words: str) -> None:
    assert Room("UK").say(fact) == words


def test_every_sentence_is_in_the_table() -> None:
    assert {fact.kind for fact, _ in SAID} == set(promises.kind_of.kinds.values())
