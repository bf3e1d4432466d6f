"""What is said of a shop and its leaves: each sentence once."""

from __future__ import annotations

import pytest

from sequencer.facts import Fact, limits
from sequencer.wording import Room
from tests.told import inch

SAID: list[tuple[Fact, str]] = [
    (limits.NO_CUTTER(setup=3, cutter="blade"), "setup 3: the shop has no “blade”"),
    (
        limits.OTHER_KERF(setup=3, cutter="blade", kerf=inch("3/16"), stated=inch("1/8")),
        "setup 3: the kerf of “blade” is 3/16″, the shop says 1/8″",
    ),
    (
        limits.TOO_HIGH(setup=3, height=inch("16"), most=inch("3")),
        "setup 3: the blade stands 16″ high, and the saw goes to 3″",
    ),
    (
        limits.TOO_WIDE_FOR_JIG(found=inch("1/16"), most=inch("3")),
        "it is 1/16″ across, and the jig takes 3″",
    ),
    (
        limits.TOO_LONG_FOR_SLED(found=inch("1/16"), most=inch("3")),
        "it is 1/16″ long, and the sled takes 3″",
    ),
    (
        limits.TOO_WIDE_FOR_SLED(found=inch("1/16"), most=inch("3")),
        "it is 1/16″ wide, and the sled takes 3″",
    ),
    (limits.NO_LEAF(door="A", leaf="B"), "door A: its other leaf B is missing"),
    (limits.HANGS_WRONG(door="A", side="left"), "door A: this leaf of a pair hangs on the left"),
    (limits.PANE_NOT_ORDERED(pane="A7"), "pane A7 is not ordered"),
    (limits.PANE_ORDERED_TWICE(pane="A7"), "pane A7 is to be ordered once"),
    (
        limits.PANE_OF_OTHER_SIZE(pane="A7"),
        "pane A7 is ordered in another size than it has in its door",
    ),
    (limits.NO_SUCH_PANE(pane="A7"), "pane A7 is ordered, and stands in no door"),
    (limits.STRIP_NOT_BOUGHT(strip="#1"), "strip #1 is in no line of the rough list"),
    (limits.STRIP_BOUGHT_TWICE(strip="#1"), "strip #1 is in the rough list twice"),
    (limits.OTHER_STOCK(strip="#1"), "strip #1 is listed with other wood or thickness than it has"),
    (
        limits.OTHER_SUM(material="cherry", thickness=inch("3/4")),
        "the rough list's sizes of cherry, 3/4″ thick, are not those of its strips",
    ),
]


@pytest.mark.parametrize(("fact", "words"), SAID, ids=[fact.id for fact, _ in SAID])
def test_what_is_said(fact: Fact, words: str) -> None:
    assert Room("UK").say(fact) == words


def test_every_sentence_is_in_the_table() -> None:
    assert {fact.kind for fact, _ in SAID} == set(limits.kind_of.kinds.values())
