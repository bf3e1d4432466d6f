"""What is said of shaped rails: each sentence once."""

from __future__ import annotations

import pytest

from sequencer.facts import Fact, shapes
from sequencer.wording import Room
from tests.told import inch

SAID: list[tuple[Fact, str]] = [
    (shapes.RISE_OR_STRAIGHT(), 'give the rise, or write kind = "straight"'),
    (shapes.NO_KIND(), "a rise without a shape"),
    (shapes.RISE_MISSING(shape="arch"), "the arch has no rise"),
    (
        shapes.WRITE_RISE(example="1-1/2"),
        'write rise = "1-1/2" beside it: how much higher the light is at its top',
    ),
    (shapes.ON_SLAB(), "a slab has no top rail to shape"),
    (shapes.LEAVE_SHAPE_OUT(), "leave the shape out"),
    (shapes.FLAT_PANEL_ALONE(), "only a flat panel's top is made to follow a shaped rail"),
    (shapes.STRAIGHT_OR_NO_FILL(), 'write kind = "straight" under [door.shape], or no fill'),
    (shapes.JOINT_UNSUITED(joint="half-lap"), "a shaped rail is not made with half-lap corners"),
    (shapes.MULLION_ON_SLOPE(), "a muntin under a shaped rail would end on its slope"),
    (shapes.MULLIONS_BELOW(), "add a mid rail, and leave the muntins to the rows below it"),
    (
        shapes.TOO_FLAT(rise=inch("1/16")),
        "a rise of 1/16″ is not seen as a shape",
    ),
    (
        shapes.LESS_FLAT(least=inch("1/8")),
        "at least 1/8 in, or leave the shape out",
    ),
    (
        shapes.TOO_STEEP(rise=inch("3"), span=inch("10 5/16")),
        "a rise of 3″ over a span of 10 5/16″ is too steep",
    ),
    (
        shapes.LESS_STEEP(most=inch("2 9/16")),
        "at most 2 9/16 in: steeper ends are short grain that breaks",
    ),
]


@pytest.mark.parametrize(("fact", "words"), SAID, ids=[fact.id for fact, _ in SAID])
def test_what_is_said(fact: Fact, words: str) -> None:
    assert Room("UK").say(fact) == words


def test_every_sentence_is_in_the_table() -> None:
    assert {fact.kind for fact, _ in SAID} == set(shapes.kind_of.kinds.values())
