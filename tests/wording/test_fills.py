"""What is said of what fills a frame: each sentence once."""

from __future__ import annotations

import pytest

from sequencer.facts import Fact, fills
from sequencer.wording import Room
from tests.told import inch

SAID: list[tuple[Fact, str]] = [
    (
        fills.WORD_AND_TABLE(word="flat", table="glass"),
        "fill says flat, and [glass] stands beside it",
    ),
    (fills.TWO_AT_ONCE(first="boards", second="glass"), "boards and glass at once"),
    (
        fills.KEEP_ONE_OR_WRITE(first="boarded", second="glass"),
        'keep one, or write fill = "boarded" or fill = "glass"',
    ),
    (fills.KEY_IDLE(key="panel", fill="glass"), "panel means nothing for glass"),
    (
        fills.PANE_IN_REBATE(),
        (
            "a pane lies in a rebate, not in a groove; [groove] depth is how far the frame "
            "covers its edge"
        ),
    ),
    (
        fills.BOARDS_HAVE_GAPS(),
        "the program works out the gaps between boards; boarded.width makes the boards narrower",
    ),
    (fills.SLAB_HAS_NO_FRAME(), "a slab has no frame: its width and height come from the opening"),
    (fills.SLAB_SWELLS_TOO_MUCH(width=inch("40")), "a slab 40″ wide swells more than a gap takes"),
    (fills.FRAME_AND_PANEL(), "make a frame and a panel instead"),
    (fills.BEVEL_IN_GROOVE(bevel=inch("1/4")), "a bevel 1/4″ wide does not come out of its groove"),
    (
        fills.NO_FIELD(bevel=inch("1/4"), across=inch("10 13/16")),
        "bevels 1/4″ wide leave no field on a panel 10 13/16″ across",
    ),
    (fills.LESS_BEVEL(most=inch("4 7/8")), "at most 4 7/8 in, or a flat panel"),
    (fills.NARROW_BOARDS(width=inch("1")), "boards 1″ wide are too narrow"),
    (fills.TONGUE_LENGTH(tongue=inch("5/8")), "a tongue 5/8″ long is out of range"),
    (fills.MEASURE_PANE(), "measure the pane"),
    (
        fills.PANE_TOO_LARGE(under=inch("1/32")),
        "a pane ordered 1/32″ under its rebate may come too large",
    ),
    (fills.PANES_VARY(least=inch("5/64")), "at least 5/64 in: panes come that much over or under"),
    (
        fills.PANE_SLIPS(under=inch("1/8"), depth=inch("3/16")),
        "a pane ordered 1/8″ under a rebate 3/16″ deep may slip out at one side",
    ),
    (fills.DEEPER_REBATE(depth=inch("15/64")), "a groove depth of 15/64 in"),
    (
        fills.DEEPER_REBATE_OR_LESS_UNDER(depth=inch("15/64"), under=inch("1/32")),
        "a groove depth of 15/64 in, or 1/32 in under",
    ),
    (fills.KEY_IDLE(key="stiles.hinge", fill="a-slab"), "stiles.hinge means nothing for a slab"),
]


@pytest.mark.parametrize(("fact", "words"), SAID, ids=[fact.id for fact, _ in SAID])
def test_what_is_said(fact: Fact, words: str) -> None:
    assert Room("UK").say(fact) == words


def test_every_sentence_is_in_the_table() -> None:
    assert {fact.kind for fact, _ in SAID} == set(fills.kind_of.kinds.values())
