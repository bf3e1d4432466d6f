"""What is said of a text that is no length."""

from __future__ import annotations

import pytest

from sequencer.facts import Fact
from sequencer.facts import spellings as s
from sequencer.wording import Room

SAID: list[tuple[Fact, str]] = [
    (s.NO_LENGTH(), "no length is given"),
    (s.TOO_LONG(most=40), "longer than 40 characters"),
    (s.STRANGE_SPACE(), "a tab or a special space: use the space bar"),
    (s.NEGATIVE(), "a length cannot be negative"),
    (s.PLUS_SIGN(), "a length has no plus sign"),
    (s.COMMA(), "a comma is not read: it could mark thousands or decimals"),
    (s.POWER_OF_TEN(), "powers of ten are not read"),
    (s.SPACE_AT_BAR(), "no space goes beside the fraction bar"),
    (s.TWO_JOINS(), "one hyphen or one space joins a whole number and its fraction"),
    (s.POINT_FIRST(), "a decimal needs a digit before its point"),
    (s.SECOND_POINT(), "a second decimal point"),
    (s.POINT_LAST(), "a decimal needs a digit after its point"),
    (s.DECIMAL_AND_FRACTION(), "a decimal and a fraction in one number"),
    (s.SECOND_BAR(), "a second fraction bar"),
    (s.OVER_NOTHING(), "the number under the fraction bar cannot be 0"),
    (s.OF_NOTHING(), "the number over the fraction bar cannot be 0"),
    (s.LEADING_NOUGHT(), "a number does not begin with 0"),
    (s.UNIT_NAME(), "a unit is written in, \", ', mm or cm"),
    (s.PART_OF_A_FOOT(), "feet are whole, with inches after them"),
    (s.TWO_UNITS(), "two units for one number"),
    (s.NO_NUMBER(), "a length begins with a number"),
    (s.TWO_NUMBERS(), "two numbers where one length belongs"),
    (s.AFTER_LENGTH(rest="x 18"), "'x 18' after the length cannot be read"),
    (s.MM_FRACTION(), "millimetres take no fraction"),
    (s.NOT_ON_RULES(parts=46), "no rule is divided in parts of 1/46"),
    (s.NOT_BELOW_ONE(fraction="4/4"), "the fraction 4/4 is not smaller than 1"),
    (s.FEET_AND_MM(), "feet go with inches"),
    (s.INCHES_UNMARKED(), "the inches after the feet need their mark"),
    (s.TWELVE_INCHES(), "12 inches or more after the feet"),
    (s.LIKE(example="22 1/2"), "write it like 22 1/2"),
    (s.WRITE(text="22.5 mm"), "write 22.5 mm"),
    (s.WRITE_EITHER(text="1250", other="1.250"), "write 1250 or 1.250"),
    (s.WRITE_ROUGH(text="1"), "write 1 (rough stock goes by that name: measure it)"),
    (
        s.WRITE_NEAREST(text="22.0652 in", nearest="22 1/16 in"),
        "write 22.0652 in, or the nearest 64th, 22 1/16 in",
    ),
    (s.WRITE_DECIMAL(), "write a decimal"),
    (
        s.WRITE_OR_INCHES(text="22.5 mm", inches="22 1/2 in"),
        "write 22.5 mm, or 22 1/2 in if you mean inches",
    ),
    (
        s.WRITE_DECIMAL_OR_INCHES(inches="1/64 in"),
        "write a decimal, or 1/64 in if you mean inches",
    ),
    (
        s.TYPED(text="3/2", message=s.NOT_BELOW_ONE(fraction="3/2"), hint=s.WRITE(text="1 1/2")),
        "3/2: the fraction 3/2 is not smaller than 1: write 1 1/2",
    ),
]


@pytest.mark.parametrize(("fact", "words"), SAID, ids=[fact.id for fact, _ in SAID])
def test_it_is_said(fact: Fact, words: str) -> None:
    assert Room("UK").say(fact) == words


def test_each_is_said_once() -> None:
    assert [fact.kind for fact, _ in SAID] == list(s.kind_of.kinds.values())
