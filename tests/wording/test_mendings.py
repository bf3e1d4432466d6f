"""How a spoiled piece, strip or test piece is made again. Each sentence once."""

from __future__ import annotations

from fractions import Fraction

import pytest

from sequencer.facts import Fact, Words, cards, mendings
from sequencer.wording import Room
from tests.told import mm

SAID: list[tuple[Fact, str]] = [
    (mendings.MADE_AGAIN(mark="A1"), "A1 made again"),
    (mendings.MAKE_AGAIN(mark="A1"), "make A1 again"),
    (
        mendings.SPOILED_AT(mark="A1", at=cards.STEP(label="12")),
        "A1 was spoiled at step 12. Cut a new one now, before you go on",
    ),
    (
        mendings.STRIP(
            material="oak",
            thickness=mm("5.85"),
            width=mm("70"),
            length=mm("444.6"),
            marks=("A1", "B1"),
        ),
        "stock: oak, 5.85 mm thick, to be 70 mm wide and at least 444.6 mm long, for A1, B1",
    ),
    (
        mendings.PIECE(material="oak", thickness=mm("5.85"), length=mm("444.6")),
        (
            "stock: oak, 5.85 mm thick, at least 444.6 mm long; make it as long as a test "
            "strip if it is short"
        ),
    ),
    (
        mendings.AS_IN(verb=Words("Slot"), places=(cards.STEP(label="3"), cards.STEP(label="7"))),
        "Slot as in step 3, step 7",
    ),
    (mendings.NO_SETTING_UP(), "it costs no setting up"),
    (mendings.SETTING_UP(n=2), "about 2 minutes of setting up more"),
    (
        mendings.TRIED_AND_MOVED(setting="moved.fence"),
        (
            "the fence had been tried out for what comes next and is moved here: note where it "
            "stands, and try it on scrap again when it is back"
        ),
    ),
    (
        mendings.SET_BACK(
            blade=Words("combination blade"),
            settings=(mendings.STOOD_AT(setting=cards.HEIGHT(), at=mm("20")),),
        ),
        "then set the saw back as it stood: combination blade, blade height 20 mm",
    ),
    (mendings.STOOD_AT(setting=cards.HEIGHT(), at=mm("20")), "blade height 20 mm"),
]


@pytest.mark.parametrize(("fact", "words"), SAID, ids=[fact.id for fact, _ in SAID])
def test_what_is_said(fact: Fact, words: str) -> None:
    assert Room("UK", Fraction(1, 64)).say(fact) == words


def test_every_sentence_is_in_the_table() -> None:
    assert {fact.kind for fact, _ in SAID} == set(mendings.kind_of.kinds.values())
