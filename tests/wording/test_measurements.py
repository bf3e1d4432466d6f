"""Why the rest cannot follow what was measured. Each sentence once."""

from __future__ import annotations

from fractions import Fraction

import pytest

from sequencer.facts import Fact, measurements
from sequencer.wording import Room
from tests.told import mm

SAID: list[tuple[Fact, str]] = [
    (
        measurements.PANEL_TOO_THICK(panel=mm("6.2"), groove=mm("6.1"), most=mm("6.05")),
        (
            "a panel of 6.20 mm does not slide into the groove of 6.10 mm: plane its edges to "
            "6.05 mm or less, then measure again"
        ),
    ),
    (
        measurements.PANEL_TOO_SMALL(door="A", what="measured.opening-width", opening=mm("400")),
        (
            "door A: the opening between the stiles measures 400 mm, so that the panel would "
            "not stay in its groove all round; take the frame apart and look which shoulder "
            "stands open"
        ),
    ),
]


@pytest.mark.parametrize(("fact", "words"), SAID, ids=[fact.id for fact, _ in SAID])
def test_what_is_said(fact: Fact, words: str) -> None:
    assert Room("UK", Fraction(1, 64)).say(fact) == words


def test_every_sentence_is_in_the_table() -> None:
    assert {fact.kind for fact, _ in SAID} == set(measurements.kind_of.kinds.values())
