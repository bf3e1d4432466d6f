"""What is said of the boards of a job file."""

from __future__ import annotations

from fractions import Fraction as F  # noqa: N817  # many figures are easier read so

import pytest

from sequencer.facts import Fact, Length
from sequencer.facts import racks as r
from sequencer.wording import Room

SAID: list[tuple[Fact, str]] = [
    (r.LACKS(key="width"), "the board has no width"),
    (r.AS_MEASURED(text='width = "…"'), 'write width = "…" under [[board]], as measured'),
    (r.NO_SIZE(key="width"), "the board's width is 0"),
    (r.MEASURE_IT(), "measure it"),
    (
        r.OVER(key="width", value=Length(F("30"), "in"), most=Length(F("24"), "in")),
        "width is 30 in, over 24 in",
    ),
    (r.BARE_INCHES(), "check the unit: bare numbers in this file are inches"),
    (r.BARE_MILLIMETRES(), "check the unit: bare numbers in this file are millimetres"),
    (r.MARKED_TWICE(mark="shed"), "two boards are marked shed"),
    (
        r.FIRST_MARKED(mark="shed", number=2),
        "[[board]] number 2 is shed already: give each its own mark",
    ),
    (r.LONG_MARK(most=12), "mark is longer than 12 characters"),
    (r.CHALK_IT(), "make it short enough to chalk on the board"),
    (r.TOO_MANY(most=12), "more than 12 boards"),
    (r.ONLY_THOSE(), "give only those that may be cut"),
    (
        r.ENDS_LEAVE_NOTHING(gone=Length(F("31/4"), "in")),
        "trimming its ends takes 7 3/4 in, and leaves nothing",
    ),
    (
        r.EDGE_LEAVES_NOTHING(gone=Length(F("31/4"), "in")),
        "trimming its edge takes 7 3/4 in, and leaves nothing",
    ),
    (r.TRIM_LESS(), "leave the board out, or trim less of it"),
]


@pytest.mark.parametrize(("fact", "words"), SAID, ids=[fact.id for fact, _ in SAID])
def test_it_is_said(fact: Fact, words: str) -> None:
    assert Room("UK").say(fact) == words


def test_each_is_said_once() -> None:
    assert [fact.kind for fact, _ in SAID] == list(r.kind_of.kinds.values())
