"""What `explain` says."""

from __future__ import annotations

import pytest

from sequencer.facts import Fact, Words
from sequencer.facts import explanations as e
from sequencer.wording import Room

SAID: list[tuple[Fact, str]] = [
    (e.OF_JOB(key="rails.top", means=Words("x")), "rails.top, in a job file: x"),
    (e.OF_SHOP(key="jig.deck", means=Words("x")), "jig.deck, in a shop file: x"),
    (e.OF_TABLE(key="slot", means=Words("x")), "slot, in a table of pieces: x"),
    (e.DEFAULT(inches="2", mm="50"), "left out, it is: 2 (inches), 50 (millimetres)"),
    (
        e.USUAL(inches="1 to 2", mm="25 to 50"),
        "usual: 1 to 2 in, 25 to 50 mm; anything else is asked about",
    ),
    (e.RULE(rule="A04", when="x"), "rule A04: x"),
    (
        e.FIGURE(name="a", inches="1", mm="25"),
        "a: 1 in, 25 mm; [limits] in a shop file makes it stricter",
    ),
    (e.SOURCE(source="x"), "from: x"),
    (e.UNKNOWN(name="x"), "x is no key, no rule and no exit code"),
    (
        e.MEANT(name="top", close=("rails.top", "gaps.top")),
        "top is no key, no rule and no exit code; did you mean rails.top or gaps.top?",
    ),
]


@pytest.mark.parametrize(("fact", "words"), SAID, ids=[fact.id for fact, _ in SAID])
def test_said(fact: Fact, words: str) -> None:
    assert Room("UK").say(fact) == words
