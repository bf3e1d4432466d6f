"""What is said of two plans that differ."""

from __future__ import annotations

from fractions import Fraction as F  # noqa: N817

import pytest

from sequencer.facts import Fact, Length
from sequencer.facts import differences as d
from sequencer.wording import Room

KNOB = d.KNOB(knob="knob.height", now=Length(F(3, 4), "in"), planned=Length(F(1, 2), "in"))
SAID: list[tuple[Fact, str]] = [
    (d.NONE(), "nothing to be cut differs"),
    (d.SINCE(), "other than on the sheets that were here:"),
    (d.OTHER_UNIT(), "the plans are in different units"),
    (
        d.DOOR(was="A", now="B", write='mark = "A"'),
        'the door that was A is B now: mark = "A" under its [[door]] keeps its mark',
    ),
    (d.PIECES_NEW(marks=("A1", "A2")), "new: A1 and A2"),
    (d.PIECES_GONE(marks=("A1",)), "no longer there: A1"),
    (d.PIECE(mark="A1", how=(d.ORDER(),)), "A1: setups come in another order"),
    (d.STRIPS(marks=("#1",)), "strips of another size: #1"),
    (d.SETUPS_NEW(n=2, numbers=(2, 3)), "new: setups 2 and 3"),
    (d.SETUPS_GONE(n=1, numbers=(2,)), "no longer needed: what was setup 2"),
    (d.SETUP(number=3, was=2, how=(KNOB,)), "setup 3 (was 2): blade height 3/4″, not 1/2″"),
    (KNOB, "blade height 3/4″, not 1/2″"),
    (d.OTHER_TOOLS(), "another cutter, tilt or carrier"),
    (d.ORDER(), "setups come in another order"),
    (
        d.TOTALS(setups=8, minutes=F(50), were=9, took=F(55)),
        "8 setups and 50 minutes, not 9 and 55 minutes",
    ),
    (d.AND_MORE(n=2), "2 differences more"),
]


@pytest.mark.parametrize(("fact", "words"), SAID, ids=[fact.id for fact, _ in SAID])
def test_said(fact: Fact, words: str) -> None:
    assert Room("US").say(fact) == words


def test_each_is_said_once() -> None:
    assert [fact.kind for fact, _ in SAID] == list(d.kind_of.kinds.values())
