"""What is said of how good an order is: each sentence once."""

from __future__ import annotations

from fractions import Fraction

import pytest

from sequencer.facts import Fact, claims
from sequencer.wording import Room

MORE, LESS = Fraction(9, 2), Fraction(3)

SAID: list[tuple[Fact, str]] = [
    (
        claims.PROVEN(),
        "proven: no other order of these cuts takes fewer minutes of setting up",
    ),
    (
        claims.PROVEN_OF_WAYS(ways=12),
        "proven: no other order, by any of the 12 ways compared, takes fewer minutes of setting up",
    ),
    (claims.AT_MOST(above=Fraction(1)), "at most 1 minute above the best possible"),
    (
        claims.AT_MOST_OF_WAYS(above=MORE, ways=12),
        "at most 4½ minutes above the best possible, of all 12 ways compared",
    ),
    (
        claims.EACH_BY_ITS_OWN(could_save=LESS),
        (
            "ways are compared for the batch as a whole: each door by its own, which was not "
            "looked at, could save 3 minutes at the very most"
        ),
    ),
    (
        claims.OTHER_VALUES(could_save=LESS),
        (
            "of the ranges that the job leaves free, some values alone were looked at: another "
            "could save 3 minutes at the very most"
        ),
    ),
    (
        claims.AIDS(could_save=LESS),
        (
            "making and fitting aids takes 3 minutes on top, which the search did not weigh: "
            "another order, or way, could save that at the very most"
        ),
    ),
    (
        claims.FITS_BETTER(could_save=LESS, fitting=MORE),
        (
            "another way takes 3 minutes less of setting up, but 4½ minutes more at the dry fit, "
            "for joints that do not go together at once"
        ),
    ),
    (claims.QUICKER(less=LESS), "3 minutes less, but more at the dry fit"),
    (claims.REFUSED(), "refused as unsafe"),
    (claims.MORE(more=MORE), "4½ minutes more"),
    (claims.AT_LEAST_MORE(more=MORE), "at least 4½ minutes more"),
    (claims.NO_QUICKER(), "no quicker"),
    (claims.NOT_ORDERED(less=LESS), "not ordered; 3 minutes less at the very most"),
    (
        claims.MORE_AS_ORDERED(more=MORE, less=LESS),
        "4½ minutes more as ordered, 3 minutes less at the very most",
    ),
    (
        claims.NO_QUICKER_AS_ORDERED(less=LESS),
        "no quicker as ordered, 3 minutes less at the very most",
    ),
]


@pytest.mark.parametrize(("fact", "words"), SAID, ids=[fact.id for fact, _ in SAID])
def test_what_is_said(fact: Fact, words: str) -> None:
    assert Room("UK").say(fact) == words


def test_every_sentence_is_in_the_table() -> None:
    assert {fact.kind for fact, _ in SAID} == set(claims.kind_of.kinds.values())
