"""Taps: what each was, and why one does not count. Each sentence once."""

from __future__ import annotations

from fractions import Fraction

import pytest

from sequencer.facts import Fact, cards, measures, reasons, spellings, taps
from sequencer.wording import Room

SAID: list[tuple[Fact, str]] = [
    (taps.TICKED(piece=cards.PIECE(mark="A1")), "A1 ticked"),
    (taps.CARD_TICKED(card="ticked.power"), "checks before power on ticked"),
    (taps.SKIPPED(piece=cards.PIECE(mark="A1")), "A1 skipped"),
    (taps.MEASURING_SKIPPED(), "measuring skipped"),
    (taps.ENTERED(measure=measures.MEASURED(form="channel-width/slot")), "slot width entered"),
    (taps.MEASURED(what="measured.kerf"), "kerf entered"),
    (taps.SPOILT(mark="A1"), "A1 spoiled"),
    (taps.NOT_UNDERSTOOD(), "that was not understood"),
    (taps.WITHOUT(key="unit"), "that was not understood: it names no unit"),
    (taps.NO_SUCH_TAP(), "that was not understood: there is no such tap"),
    (taps.TOO_LONG(), "that was not understood: it is too long"),
    (taps.NO_PLAN_YET(), "there is no plan yet"),
    (taps.STEP_CHANGED(), "this step has changed since; look at it again"),
    (taps.FILES_LEFT(), "changed file left aside"),
    (taps.FILES_OTHERWISE(), "the file was changed once more: look at what it changes now"),
    (taps.UNDO_THE_OTHER_FIRST(), "something else was ticked since; undo that first"),
    (taps.MEASURED_NOT_TICKED(), "this is measured, not ticked"),
    (taps.TICKED_ALREADY(), "that is ticked already"),
    (
        taps.IS_SPOILED(piece=cards.PIECE(mark="A1")),
        "A1 is spoiled: leave it out, it is made again later",
    ),
    (
        taps.WAITS(piece=cards.PIECE(mark="A1"), first="A2", reason=reasons.SLOT_FIRST()),
        "A1 waits for A2: slots before the tenons that are fitted to them",
    ),
    (taps.STEP_OPEN(), "an earlier step is still open: finish it first, or skip it"),
    (
        taps.COMES_FIRST(mark="A1", reason=reasons.SLOT_FIRST()),
        "A1 comes first: slots before the tenons that are fitted to them",
    ),
    (taps.FIRST_PIECE_FIRST(), "measure the first piece before the next is cut"),
    (taps.RELIED_ON(), "this cannot be skipped: the steps after it rely on it"),
    (taps.ONLY_NOW(), "only what is to be done now can be skipped"),
    (
        taps.NEEDED(piece=cards.PIECE(mark="A1"), mark="A1", reason=reasons.SLOT_FIRST()),
        (
            "A1 cannot be skipped: A1 waits for it (slots before the tenons that are fitted to "
            "them); if its piece is no good, mark it as spoiled"
        ),
    ),
    (taps.TICKED_NOT_MEASURED(), "this is ticked, not measured"),
    (taps.CUT_FIRST(), "cut it first, then measure"),
    (
        taps.CUTS_SINCE(),
        (
            "cuts have been made with this setting since: if they are off too, mark their "
            "pieces as spoiled"
        ),
    ),
    (
        taps.NO_FEEL(measure=measures.MEASURED(form="channel-width/slot")),
        "slot width cannot be told by feel",
    ),
    (taps.NO_NUMBER(), "enter a number"),
    (
        taps.NO_LENGTH(message=spellings.COMMA(), hint=spellings.WRITE(text="22 1/2")),
        "a comma is not read: it could mark thousands or decimals: write 22 1/2",
    ),
    (taps.NOTHING_TO_MEASURE(), "there is nothing of that name to measure"),
    (taps.AGAIN_ALREADY(mark="A1"), "A1 is to be made again already"),
    (
        taps.NOT_CUT_YET(mark="A1", strip="#4"),
        "A1 has not been cut yet: if its strip is no good, mark #4 as spoiled",
    ),
    (taps.NO_PART(mark="A1"), "A1 is no part of the doors"),
    (
        taps.GLUED_UP(door="A", mark="A1"),
        (
            "door A is glued up, so that A1 alone cannot be made again here: `sequencer recut "
            "JOB A1` plans a piece by itself"
        ),
    ),
    (
        taps.NOT_NEEDED(mark="A1"),
        (
            "nothing is cut from A1 or tried on it any more, so that it need not be made "
            "again; a tenon can be tried in the slot of a stile, too"
        ),
    ),
]


@pytest.mark.parametrize(("fact", "words"), SAID, ids=[fact.id for fact, _ in SAID])
def test_what_is_said(fact: Fact, words: str) -> None:
    assert Room("UK", Fraction(1, 64)).say(fact) == words


def test_every_sentence_is_in_the_table() -> None:
    assert {fact.kind for fact, _ in SAID} == set(taps.kind_of.kinds.values())
