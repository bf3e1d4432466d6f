"""What is said of a `plan.json` that cannot be read, and of the file of an ordering problem."""

from __future__ import annotations

from fractions import Fraction

import pytest

from sequencer.facts import Fact
from sequencer.facts import contracts as c
from sequencer.facts import problems as p
from sequencer.wording import Room

AT = {"place": "shop.kerf", "value": "3"}
SAID: list[tuple[Fact, str]] = [
    (c.NOT_JSON(), "no JSON from here on"),
    (c.UNREADABLE(why=c.KEY_TWICE(key="a")), 'not JSON that can be read: key "a" stands twice'),
    (c.KEY_TWICE(key="a"), 'key "a" stands twice'),
    (c.NOT_A_NUMBER(text="NaN"), "NaN is no number"),
    (c.TOO_DEEP(), "a number too long, or brackets too deep"),
    (c.NO_PLAN(), "a plan is one JSON object"),
    (c.OTHER_SCHEMA(schema="null", wanted="plan/1"), 'schema is null, not "plan/1"'),
    (c.PLAN_AGAIN(), "plan the job again to write it anew"),
    (c.NO_STRING(**AT), 'shop.kerf: a number is written as a string, as "23/4", not 3'),
    (c.NO_RATIONAL(**AT), 'shop.kerf: 3 is no rational in lowest terms, as "23/4" or "19"'),
    (c.NO_FACT(**AT), "shop.kerf: 3 is no fact that is known here"),
    (c.NO_MEASURE(**AT), "shop.kerf: 3 is nothing that is measured"),
    (c.NONE_OF(**AT, choices=("in", "mm")), "shop.kerf: 3 is none of in, mm"),
    (c.MISSING(place="shop", key="kerf"), 'shop: key "kerf" is missing'),
    (c.WANTED(**AT, wanted=c.A_STRING()), "shop.kerf: a string is wanted, not 3"),
    (c.A_STRING(), "a string"),
    (c.TRUE_OR_FALSE(), "true or false"),
    (c.WHOLE_NUMBER(), "a whole number"),
    (c.A_LIST(), "a list"),
    (c.A_LIST_OF(n=3), "a list of 3"),
    (c.AN_OBJECT(), "an object"),
    (c.AN_OBJECT_WITH(keys=("width", "height")), "an object with width and height"),
    #
    (p.UNREADABLE(reason="Gone"), "cannot be read: Gone"),
    (p.NO_AMOUNT(option="--seconds"), "--seconds is a number from 0 up"),
    (p.TOO_LARGE(most=5), "is larger than 5 bytes"),
    (p.NO_UTF_8(byte=0), "is not UTF-8 at byte 0"),
    (p.NOT_JSON(), "no JSON from here on"),
    (p.TOO_DEEP(), "not JSON that can be read: a number too long or brackets too deep"),
    (p.KEY_TWICE(key="a"), '"a" stands twice in one object'),
    (p.MISSING(key="knobs"), '"knobs" is missing'),
    (p.MISSING_AT(place='knob "a"', key="minutes"), 'knob "a": "minutes" is missing'),
    (
        p.UNKNOWN_KEY(place='knob "a"', key="minute", near="minutes"),
        'knob "a": unknown key "minute"; did you mean "minutes"?',
    ),
    (p.UNKNOWN_ON_TOP(key="knob", near="knobs"), 'unknown key "knob"; did you mean "knobs"?'),
    (
        p.NO_OPERATION(place="done", name='"rop"', near=p.DID_YOU_MEAN(name="rip")),
        'done: there is no operation "rop"; did you mean "rip"?',
    ),
    (p.DID_YOU_MEAN(name="rip"), '; did you mean "rip"?'),
    (p.NOT_WANTED(**AT, wanted=p.A_TEXT()), "shop.kerf: a text in quotes, not 3"),
    (p.THE_PROBLEM(wanted=p.AN_OBJECT(), value="[]"), "the problem: an object, not []"),
    (p.AN_OBJECT(), "an object"),
    (p.A_LIST(), "a list"),
    (p.VALUES(), "a list of values"),
    (p.A_TEXT(), "a text in quotes"),
    (p.A_NUMBER(), 'an exact number like "3" or "5/2"'),
    (p.WHOLE_NUMBER(), "a whole number"),
    (p.A_PAIR(), "two operations and perhaps a reason"),
    (p.FIRST_SETTING(value="3"), 'first_setting is "free" or "paid", not 3'),
    (p.LIMIT_ENDED(limit="limit.states"), "the limit of states ended the search"),
    (
        p.LIMIT_ENDED_ABOVE(limit="limit.seconds", minutes=Fraction(5)),
        "the limit of seconds ended the search; at most 5 minutes above the best",
    ),
]


@pytest.mark.parametrize(("fact", "words"), SAID, ids=[fact.id for fact, _ in SAID])
def test_it_is_said(fact: Fact, words: str) -> None:
    assert Room("UK").say(fact) == words


def test_each_is_said_once() -> None:
    kinds = [*c.kind_of.kinds.values(), *p.kind_of.kinds.values()]
    assert [fact.kind for fact, _ in SAID] == kinds
