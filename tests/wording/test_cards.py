"""What stands on the cards of the page. Each sentence once."""

from __future__ import annotations

from fractions import Fraction

import pytest

from sequencer.facts import Fact, Words, cards, measures
from sequencer.wording import Room
from tests.told import inch, mm

SAID: list[tuple[Fact, str]] = [
    (cards.SET_HOW(how="set-by.between marks"), "exactly"),
    (
        cards.BOTH(first=cards.SET_HOW(how="set-by.block"), second=cards.THE_START()),
        "by the block; the start",
    ),
    (cards.READ(by="read-by.rule"), "by rule"),
    (
        cards.AS_ITS_MATE_IS(),
        "Moved as its mate was measured.",
    ),
    (cards.STEP(label="12"), "step 12"),
    (cards.SETUP(label="12"), "setup 12"),
    (cards.STEPS(n=2, labels=("13", "14")), "steps 13, 14"),
    (cards.SETUPS(n=2, labels=("13", "14")), "setups 13, 14"),
    (cards.THE_START(), "the start"),
    (cards.THE_END(), "the end"),
    (cards.HEADING(at=cards.STEP(label="12"), title=Words("groove")), "step 12: Groove"),
    (
        cards.NOW(before=cards.SETUP(label="9"), after=cards.SETUP(label="8a")),
        "setup 9, now setup 8a",
    ),
    (cards.PIECE(mark="A1"), "A1"),
    (cards.STOCK(number="1"), "strip thickness 1"),
    (cards.STOCK_AT(number="1", at="thinnest"), "strip thickness 1 where it is thinnest"),
    (
        cards.MEASURE_OF(measure=measures.MEASURED(form="channel-width/slot"), mark="A1"),
        "slot width, A1",
    ),
    (cards.STRIP_FOR(marks=("A1", "B1")), "strip for A1, B1"),
    (cards.TEST_PIECE(), "test piece"),
    (cards.KERF_OF(blade=Words("combination blade")), "kerf of the combination blade"),
    (cards.PANEL_OF(thickness=mm("5.85")), "panel of 5.85 mm"),
    (cards.BY_FEEL(), "by feel"),
    (
        cards.SPOILED(mark="A1", at=cards.STEP(label="12")),
        "A1 was spoiled at step 12 and is made again",
    ),
    (cards.ALWAYS(), "what always holds"),
    (cards.GUARD_OFF(), "take the guard off"),
    (cards.GUARD_ON(), "put guard and riving knife back on"),
    (cards.UNPLUG(), "unplug the saw first"),
    (cards.SET_THE_SAW(), "set the saw"),
    (
        cards.BLADE_AND_KERF(blade=Words("combination blade"), kerf=inch("1/8")),
        "combination blade, kerf 1/8″",
    ),
    (cards.HEIGHT(), "blade height"),
    (cards.JIG_RIDES(setting=inch("2 3/4"), jig=inch("1/2")), "2 3/4″ and 1/2″ for the jig"),
    (cards.LEANS(how=Words("end A at the stop")), "blade leans end A at the stop"),
    (cards.BEFORE_POWER(), "before power on"),
    (cards.BEFORE_LEAVING(), "before you leave this setup"),
    (cards.COUNTED(n=2, marks=("A1", "B1")), "pieces counted: 2 (A1, B1)"),
    (cards.TESTED(), "test cut measured and entered"),
    (cards.AT_END(verb=Words("Slot"), end="A"), "Slot, end A"),
    (cards.IN_ONE_LINE(parts=(cards.TEST_PIECE(), cards.PASSES(n=2))), "test piece, 2 passes"),
    (cards.OTHER_END(), "then the other end the same way"),
    (cards.FROM_STRIP(strip="#4", how=Words("end A at the stop")), "from #4, end A at the stop"),
    (cards.PASSES(n=2), "2 passes"),
    (cards.TEST_CUT(marks=("A1", "B1")), "test cut on A1, B1"),
    (cards.CHECK_CUT(marks=("A1",)), "check cut on A1"),
    (
        cards.MEASURE_ITS_KERF(blade="dado set"),
        (
            "measure how wide the dado set cuts, too: enter it as its kerf (List, Measure kerf "
            "or panel), and the tenons follow it"
        ),
    ),
    (cards.LAID_OUT(what=Words("outer edge")), "outer edge, marks to lay out"),
    (cards.MILLED(thickness=mm("5.85"), marks=("A1", "B1")), "5.85 mm: A1, B1"),
]


@pytest.mark.parametrize(("fact", "words"), SAID, ids=[fact.id for fact, _ in SAID])
def test_what_is_said(fact: Fact, words: str) -> None:
    assert Room("UK", Fraction(1, 64)).say(fact) == words


def test_every_sentence_is_in_the_table() -> None:
    assert {fact.kind for fact, _ in SAID} == set(cards.kind_of.kinds.values())
