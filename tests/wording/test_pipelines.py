"""What is said of plans that cannot be made: each sentence once."""

from __future__ import annotations

import pytest

from sequencer.facts import Fact, pipelines
from sequencer.wording import Room

SAID: list[tuple[Fact, str]] = [
    (pipelines.NO_FREE_VALUE(), "no value within the ranges that the job leaves free can be made"),
    (
        pipelines.JOINT_OFF_CENTRE(),
        (
            "with what was measured the joint is no longer in the middle of the stock, "
            "and cannot be cut by turning the pieces round: measure again, or plan the job anew"
        ),
    ),
    (
        pipelines.NOTHING_HELD(what=pipelines.NOTHING_PLANNED()),
        (
            "cut by none of the ways compared does every piece stand and bear: no combination of "
            "methods was planned"
        ),
    ),
    (pipelines.NOTHING_PLANNED(), "no combination of methods was planned"),
    (pipelines.SETUPS_DIFFER(laid_out=9, ordered=8), "9 setups laid out, 8 in the order"),
    (
        pipelines.CALM_DIFFERS(before=7, after=8),
        "rewriting the order changed it: 7 minutes to 8 minutes",
    ),
]


@pytest.mark.parametrize(("fact", "words"), SAID, ids=[fact.id for fact, _ in SAID])
def test_what_is_said(fact: Fact, words: str) -> None:
    assert Room("UK").say(fact) == words


def test_every_sentence_is_in_the_table() -> None:
    assert {fact.kind for fact, _ in SAID} == set(pipelines.kind_of.kinds.values())
