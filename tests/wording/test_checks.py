"""What is said of checks that are wrong: each sentence once."""

from __future__ import annotations

from fractions import Fraction

import pytest

from sequencer.facts import Fact, Length, checks, measures
from sequencer.wording import Room

SLOT = measures.MEASURED(form="channel-width/slot")
LOW, MIDDLE, HIGH = (Length(Fraction(n), "mm") for n in (6, 7, 8))

SAID: list[tuple[Fact, str]] = [
    (
        checks.SET_AMISS(knob="jig", how="mark"),
        "“jig” is said to be set so: mark, and it is not",
    ),
    (
        checks.MADE_FOR_A_BAR(measure=measures.MEASURED(form="housing-width")),
        "housing width is told by a number, though nobody measures the bar that it is for",
    ),
    (
        checks.REFERS_AMISS(measure=SLOT),
        "slot width refers to a check of something that it does not go into",
    ),
    (
        checks.COULD_BE_READ(measure=SLOT, tool="tool.caliper"),
        "slot width is tried by its fit, though a caliper could tell",
    ),
    (
        checks.NO_SUCH_TOOL(measure=SLOT, tool="tool.tape"),
        "slot width is read by a tape as the shop has none",
    ),
    (
        checks.OUT_OF_REACH(measure=SLOT, tool="tool.rule", reach=LOW),
        "slot width is read by a rule that reaches 6 mm",
    ),
    (
        checks.BETWEEN_MARKS(measure=SLOT, value=LOW, tool="tool.rule"),
        "slot width is told as 6 mm, between the marks of the rule",
    ),
    (
        checks.ON_ITS_LIMIT(measure=SLOT, target=LOW),
        "slot width is aimed at 6 mm, which is the limit of what is good",
    ),
    (
        checks.NO_SUCH_STEP(step=12, measure=SLOT),
        "slot width is measured in step 12, and there is no such step",
    ),
    (
        checks.NOT_CUT(measure=SLOT),
        "slot width is measured on a test piece that nothing is cut on in this step",
    ),
    (checks.NOT_ON_WORK(measure=SLOT), "slot width is not what is measured on it in this step"),
    (
        checks.OTHER_SETUP(measure=SLOT),
        "slot width is measured in a setup that is not this step's",
    ),
    (
        checks.OTHER_KNOB(measure=SLOT, knob="height"),
        "slot width is corrected by “height”, which does not set it here",
    ),
    (checks.UNREADABLE(measure=SLOT), "slot width cannot be measured on the wood as it then is"),
    (
        checks.OTHER_TARGET(measure=SLOT, found=LOW, target=MIDDLE),
        "slot width is to be 7 mm, and is 6 mm where all is as planned",
    ),
    (
        checks.OTHER_SHARE(measure=SLOT, knob="jig", found=Fraction(-2), told=Fraction(2)),
        "slot width is said to change by 2 while “jig” changes by 1, and changes by -2",
    ),
    (
        checks.WIDE_WINDOW(measure=SLOT, low=LOW, high=HIGH, least=MIDDLE, most=HIGH),
        "slot width is called good from 6 mm to 8 mm; it is good from 7 mm to 8 mm",
    ),
    (
        checks.LOPSIDED(measure=SLOT, target=MIDDLE, low=LOW, high=HIGH),
        "slot width is called good from 6 mm to 8 mm, not as far on both sides of 7 mm",
    ),
    (checks.SHUT_WINDOW(measure=SLOT), "no slot width is called good"),
    (
        checks.RELIED_ON_LATER(measure=SLOT, step=9),
        "slot width is to be good by step 9, not by the step after this",
    ),
    (
        checks.SHORT_TEST_PIECE(found=LOW, least=HIGH),
        "the test piece is 6 mm long, and none is shorter than 8 mm",
    ),
    (
        checks.NEVER_CHECKED(cut="step.slot", knob="jig"),
        "the slot hangs on “jig”, which was not tried on scrap since it was last set",
    ),
    (
        checks.NOT_MEASURED(measure=SLOT),
        "nothing has its slot width measured before the work goes on",
    ),
    (checks.NO_FIRST_SHOULDER(), "it is nibbled up to a shoulder that was not cut before"),
    (checks.NOTHING_LIKE_IT(measure=SLOT), "slot width is measured on it, and it has none"),
]


@pytest.mark.parametrize(("fact", "words"), SAID, ids=[fact.id for fact, _ in SAID])
def test_what_is_said(fact: Fact, words: str) -> None:
    assert Room("UK").say(fact) == words


def test_every_sentence_is_in_the_table() -> None:
    assert {fact.kind for fact, _ in SAID} == set(checks.kind_of.kinds.values())
