"""What is said of cuts and orders that cannot be made: each sentence once."""

from __future__ import annotations

import pytest

from sequencer.facts import Fact, methods, reasons, sequences
from sequencer.wording import Room
from tests.told import inch

ONE = sequences.COMES_FIRST(first="A1/rip", later="A1/crosscut", because=reasons.LENGTH())
OTHER = sequences.COMES_FIRST(first="A1/crosscut", later="A1/rip", because=reasons.BENCH())

SAID: list[tuple[Fact, str]] = [
    (
        sequences.HOUSINGS_MEET(mark="A1", bars=("A5", "A6")),
        "A1: A5 and A6 go right through it in the same place",
    ),
    (
        sequences.TENON_TOO_SHORT(mark="A3", length=inch("1/8"), kerf=inch("1/8")),
        (
            "A3: a tenon of 1/8″ is no longer than the kerf of 1/8″, and leaves nothing to set "
            "the stop by"
        ),
    ),
    (
        sequences.TOO_LONG_FOR_SLED(mark="A1", length=inch("60"), longest=inch("48")),
        (
            "A1 is 60″ long, and its strip, with what squaring and holding take, is longer "
            "than the 48″ that the sled takes: write a longer [sled] longest in the shop file "
            "if the sled has an outrigger, or cut it by hand"
        ),
    ),
    (
        sequences.TEST_TOO_LONG(length=inch("60"), longest=inch("48")),
        (
            "a test piece is 60″ long, and its strip, with what squaring and holding take, is "
            "longer than the 48″ that the sled takes: write a longer [sled] longest in the "
            "shop file if the sled has an outrigger"
        ),
    ),
    (
        sequences.NO_LOW_GUARD(),
        (
            "grooves, shoulders and cheeks take the guard off, and the shop file names neither "
            "a riving knife that can be set low ([saw] knife) nor what covers the blade "
            "instead ([saw] cover): fit one and name it"
        ),
    ),
    (
        sequences.NOT_AS_IT_WAS(answers=(methods.ANSWERED(question="slot", answer="turned"),)),
        "this can no longer be cut as it was (slots with both faces to the jig)",
    ),
    (
        sequences.CUT_ELSEWHERE(
            operation="A1/slot-A/outer", knob="knob.jig", was=inch("1/4"), wanted=inch("17/64")
        ),
        (
            "A1/slot-A/outer was cut with the jig at 1/4″, and by what was measured it should "
            "have been 17/64″: measure what was cut, enter that reading at its own step, then "
            "this one again"
        ),
    ),
    (
        sequences.WAIT_FOR_EACH_OTHER(chain=(ONE, OTHER)),
        (
            "these operations wait for each other: A1/rip comes before A1/crosscut (true edge and "
            "length first, then joints) and A1/crosscut comes before A1/rip (the order at the "
            "bench)"
        ),
    ),
    (ONE, "A1/rip comes before A1/crosscut (true edge and length first, then joints)"),
    (sequences.NO_TEST_PIECE(mark="S1"), "there is no test piece S1"),
    (sequences.LEFT_OVER(), "an order could not be rewritten: something was left over"),
    (
        sequences.WAITS_FOR_LATER(),
        "an order could not be rewritten: a cut waits for a later one",
    ),
    (
        sequences.NO_PLACE(operation="A1/rip"),
        "what was measured leaves no place for A1/rip, which is done already",
    ),
    (
        sequences.HAS_BECOME(operation="A1/rip", knob="knob.guard", was="fitted", now="knife"),
        "A1/rip: guard fitted has become knife",
    ),
]


@pytest.mark.parametrize(("fact", "words"), SAID, ids=[fact.id for fact, _ in SAID])
def test_what_is_said(fact: Fact, words: str) -> None:
    assert Room("UK").say(fact) == words


def test_every_sentence_is_in_the_table() -> None:
    assert {fact.kind for fact, _ in SAID} == set(sequences.kind_of.kinds.values())
