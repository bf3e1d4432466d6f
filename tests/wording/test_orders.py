"""What is said of orders and their problems: each sentence once."""

from __future__ import annotations

import pytest

from sequencer.facts import Fact, orders
from sequencer.wording import Room

SAID: list[tuple[Fact, str]] = [
    (orders.NAMED_AGAIN(what=orders.KNOB(name="fence"), n=3), 'knob "fence" is named 3 times'),
    (orders.KNOB(name="fence"), 'knob "fence"'),
    (orders.KNOB_AT(name="fence", value="1/4 tested"), 'knob "fence" at "1/4 tested"'),
    (orders.OPERATION(name="fence"), 'operation "fence"'),
    (orders.WAY(operation="A1/slot", way=1), 'operation "A1/slot", alternative 1'),
    (
        orders.COSTS_LESS_THAN_NOTHING(what=orders.WAY(operation="rip", way=0), minutes=-2),
        'operation "rip", alternative 0 costs less than nothing: -2',
    ),
    (orders.TIE_BELOW_NOTHING(knob="fence"), 'knob "fence" has a tie cost below nothing'),
    (orders.NO_WAY(operation="A1/slot"), 'operation "A1/slot" has no alternative'),
    (
        orders.NEEDS_UNKNOWN(what=orders.WAY(operation="rip", way=0), knob="fence"),
        'operation "rip", alternative 0, needs an unknown knob "fence"',
    ),
    (
        orders.ACCEPTS_NOTHING(what=orders.WAY(operation="rip", way=0), knob="fence"),
        'operation "rip", alternative 0, accepts no value of "fence"',
    ),
    (orders.STARTS_UNKNOWN(knob="fence"), 'start sets an unknown knob "fence"'),
    (orders.EDGE_OF_NOTHING(first=0, later=7), "before names an operation that is not there: 0, 7"),
    (orders.DONE_IS_NOTHING(index=7), "done names an operation that is not there: 7"),
    (
        orders.BEFORE_ITSELF(chain=("rip", "crosscut", "rip")),
        "each of these would have to come before the next, in a ring: rip, crosscut, rip",
    ),
    (
        orders.AT_STEP(step=12, operation="A1/slot", what=orders.DONE_BEFORE()),
        'step 12, "A1/slot": was done before',
    ),
    (orders.NO_SUCH_OPERATION(step=12, index=7), "step 12: there is no operation 7"),
    (orders.DONE_BEFORE(), "was done before"),
    (orders.COMES_BEFORE(first="A1/shoulder"), 'comes before "A1/shoulder"'),
    (orders.NO_SUCH_WAY(way=1), "there is no alternative 1"),
    (orders.FORGOTTEN(knob="fence"), '"fence" is not set any more'),
    (orders.CHANGES_UNNEEDED(knob="fence"), 'changes "fence", which it does not need'),
    (
        orders.NEEDS(knob="fence", values=("7/8", "1"), found="9"),
        'needs "fence" at 7/8 or 1, not at 9',
    ),
    (
        orders.NEEDS_UNSET(knob="fence", values=("7/8", "1")),
        'needs "fence" at 7/8 or 1, and it is not set',
    ),
    (orders.NEVER_DONE(operation="A1/slot"), 'after the last step: "A1/slot" was never done'),
    (
        orders.MISCOUNTED(counted=8, bound=6, found=7),
        "the search counted 8 minutes and a bound of 6 minutes, its steps take 7 minutes",
    ),
    (orders.STUCK(), "the search knows of no next setting, though work is left"),
]


@pytest.mark.parametrize(("fact", "words"), SAID, ids=[fact.id for fact, _ in SAID])
def test_what_is_said(fact: Fact, words: str) -> None:
    assert Room("UK").say(fact) == words


def test_every_sentence_is_in_the_table() -> None:
    assert {fact.kind for fact, _ in SAID} == set(orders.kind_of.kinds.values())
