"""What is said to a tap that counts. Each sentence once."""

from __future__ import annotations

from fractions import Fraction

import pytest

from sequencer.facts import Fact, answers, cards, reasons, taps
from sequencer.wording import Room
from tests.told import inch, mm

SAID: list[tuple[Fact, str]] = [
    (answers.LEFT_AS_CUT(measured=inch("0.262")), "0.262″ stays as it is"),
    (
        answers.NOTED_ALIKE(measured=inch("0.126"), before=inch("1/8")),
        (
            "measured 0.126″, so far taken as 0.125″: so near that test cuts take it up; "
            "nothing changes"
        ),
    ),
    (answers.A_TERM(term="lock-stile"), "closing stile"),
    (
        answers.GOOD(measured=inch("0.262"), target=inch("1/4")),
        "measured 0.262″, target 0.250″: good",
    ),
    (
        answers.TOO_MUCH(measured=inch("0.262"), target=inch("1/4"), by=inch("0.006")),
        "measured 0.262″, target 0.250″: 0.006″ too much",
    ),
    (
        answers.TOO_LITTLE(measured=inch("0.262"), target=inch("1/4"), by=inch("0.006")),
        "measured 0.262″, target 0.250″: 0.006″ too little",
    ),
    (
        answers.ADJUST(
            measured=inch("0.262"),
            target=inch("1/4"),
            move=answers.MOVE(setting="moved.jig", by=inch("0.006"), way="way.away"),
        ),
        "measured 0.262″, target 0.250″: move the jig 0.006″ away from the blade",
    ),
    (
        answers.OTHER_UNIT(
            measured=inch("0.262"), target=inch("1/4"), unit="millimetres", sign="mm"
        ),
        (
            "measured 0.262″, target 0.250″: that looks like millimetres; enter it again with "
            "mm behind it"
        ),
    ),
    (
        answers.TOO_FAR(measured=inch("0.262"), target=inch("1/4"), by=inch("0.006")),
        "measured 0.262″, target 0.250″: off by 0.006″, more than a setting is ever off",
    ),
    (answers.NOTHING_CHANGED(), "nothing has been changed"),
    (answers.FITS(), "it fits: taken as planned, since no number was entered"),
    (
        answers.TIGHT(move=answers.MOVE(setting="moved.jig", by=inch("0.006"), way="way.away")),
        (
            "too tight, by the thickness of a sheet of paper to begin with: move the jig "
            "0.006″ away from the blade"
        ),
    ),
    (
        answers.LOOSE(move=answers.MOVE(setting="moved.jig", by=inch("0.006"), way="way.away")),
        (
            "too loose, by the thickness of a sheet of paper to begin with: move the jig "
            "0.006″ away from the blade"
        ),
    ),
    (
        answers.MOVE(setting="moved.fence", by=inch("0.006"), way="way.toward"),
        "move the fence 0.006″ toward the blade",
    ),
    (
        answers.THICKER(by=inch("0.006"), thin=answers.PAPER(n=1, size=inch("0.006"))),
        ("put 0.006″ more between jig and piece: 1 sheet of paper, or a feeler of 0.006″"),
    ),
    (
        answers.THINNER(by=inch("0.006")),
        "put 0.006″ less between jig and piece: a thinner block, and paper beside it",
    ),
    (
        answers.TWICE(),
        "this is half of what is wrong: the cut is made from both sides, so a move counts twice",
    ),
    (answers.GRADUATIONS(n=2, step=inch("1/64")), "that is 2 graduations of 1/64″"),
    (answers.ABOUT_GRADUATIONS(n=2, step=inch("1/64")), "that is about 2 graduations of 1/64″"),
    (
        answers.ABOUT_GRADUATIONS(n=Fraction(3, 2), step=inch("1/64")),
        "that is about 1½ graduations of 1/64″",
    ),
    (
        answers.CUTS_GONE(marks=("#2", "A3")),
        (
            "what was cut there does not count any more, look at #2, A3; changing the file back "
            "brings it back"
        ),
    ),
    (answers.ABOUT_GRADUATIONS(n=1, step=inch("1/64")), "that is about one graduation of 1/64″"),
    (
        answers.TOO_SHORT(mark="A5", measured=inch("25.7"), by=inch("0.05")),
        (
            "A5 measures 25.700″, 0.050″ too short: if so, it is spoiled. Say so under More, then "
            "measure the next piece"
        ),
    ),
    (
        answers.TOO_DEEP(mark="A5", measured=inch("1.8"), by=inch("0.05")),
        (
            "A5 measures 1.800″, 0.050″ too deep: if so, it is spoiled. Say so under More, and "
            "dial in on the test piece before the next piece is cut"
        ),
    ),
    (answers.CUT_DEEPER(mark="A5"), "then cut A5 again and measure it again"),
    (
        answers.A_TOUCH(step=inch("1/64")),
        "that is less than one graduation of 1/64″: turn the wheel a touch, then try",
    ),
    (
        answers.LESS(step=inch("1/64"), thin=answers.PAPER(n=1, size=mm("0.1"))),
        "that is less than one graduation of 1/64″: 1 sheet of paper, or a feeler of 0.1 mm",
    ),
    (answers.NO_FEELER(size=mm("0.05")), "thinner than any feeler of 0.05 mm; tap it, then try"),
    (answers.FEELER(size=mm("0.05")), "a feeler of 0.05 mm"),
    (answers.PAPER(n=2, size=mm("0.05")), "2 sheets of paper, or a feeler of 0.05 mm"),
    (answers.TRY(n=2), "that was try 2"),
    (answers.CUT_AGAIN(), "then cut the test piece again in the same place"),
    (
        answers.END_SPENT(off=mm("55"), n=4),
        (
            "that end is spent, too much is gone: cut its other end. Once both are spent, saw "
            "55 mm off, square, by hand or on another saw: 4 times, all told"
        ),
    ),
    (
        answers.BOTH_SPENT(off=mm("60"), n=1),
        (
            "both ends are spent, too much is gone: saw 60 mm off each, square, by hand or on "
            "another saw, once; add what was sawn off to what is measured between them"
        ),
    ),
    (
        answers.LAST_SPENT(),
        (
            "that end is spent, too much is gone: cut its other end; after that, another piece as "
            "thick"
        ),
    ),
    (
        answers.EDGE_SPENT(),
        "that edge is spent, too much is gone: take another strip or offcut as thick",
    ),
    (answers.STOCK_NOTED(at="thinnest", value=mm("19.7")), "thinnest: 19.70 mm"),
    (answers.STOCK_EVEN(at="thinnest", value=mm("19.7")), "thinnest: 19.70 mm, even enough"),
    (
        answers.STOCK_UNEVEN(spread=mm("0.16"), most=mm("0.08")),
        (
            "0.16 mm between thinnest and thickest, 0.08 mm at the most: plane all of it once "
            "more, then enter both again"
        ),
    ),
    (
        answers.NOTED(measured=inch("0.262"), before=inch("1/4")),
        "measured 0.262″, so far taken as 0.250″: noted",
    ),
    (
        answers.NEVER_SO_FAR(
            measured=inch("0.262"), before=inch("1/4"), what="measured.kerf", unit="millimetres"
        ),
        (
            "measured 0.262″, so far taken as 0.250″: more than a kerf is ever off; is it in "
            "millimetres?"
        ),
    ),
    (
        answers.REST_FOLLOWS(what=("measured.slot", "measured.panel")),
        "the rest now follows the slot and panel as measured, and is proven again",
    ),
    (answers.CHANGES_NOTHING(), "it changes nothing of what is still to be done"),
    (
        answers.NO_LONGER_HOLD(
            places=(cards.STEPS(n=2, labels=("13", "14")), cards.SETUPS(n=1, labels=("8",)))
        ),
        "on the printed sheet these no longer hold: steps 13, 14 and setup 8",
    ),
    (
        answers.CANNOT_FOLLOW(what=("measured.slot", "measured.panel"), why=answers.CONTRADICTS()),
        (
            "with the slot and panel as measured, what is cut already would not be what was "
            "accepted there: measure it once more, and look at the pieces"
        ),
    ),
    (
        answers.REST_CANNOT(says=(reasons.SLOT_FIRST(),)),
        "the rest cannot be made as planned: slots before the tenons that are fitted to them",
    ),
    (
        answers.CONTRADICTS(),
        (
            "what is cut already would not be what was accepted there: measure it once more, "
            "and look at the pieces"
        ),
    ),
    (
        answers.CONTRADICTS_AT(cut=answers.A_TERM(term="slot"), mark="A1"),
        (
            "what is cut already would not be what was accepted there (the slot of A1): "
            "measure it once more, and look at the pieces"
        ),
    ),
    (
        answers.LEFT_AS_IT_WAS(),
        "the plan has been left as it was; undo this reading if it was a slip",
    ),
    (answers.AGAIN_NOW(mark="A1"), "A1 is spoiled: make it again now, the next step needs it"),
    (
        answers.AGAIN_BEFORE(mark="A1", before=cards.SETUP(label="8")),
        "A1 is spoiled: it is made again before setup 8; go on without it",
    ),
    (answers.AGAIN_LATER(mark="A1"), "A1 is spoiled: it is made again later; go on without it"),
    (
        answers.FILES_CHANGED(holds=answers.TICKS_HOLD(n=12), gone=answers.TICKS_GONE(n=1)),
        (
            "the job or the shop file has been changed: 12 ticks hold, 1 belongs to a step "
            "that is not the same any more"
        ),
    ),
    (answers.TICKS_HOLD(n=2), "2 ticks hold"),
    (answers.TICKS_GONE(n=2), "2 belong to steps that are not the same any more"),
    (answers.STRIPS_AGAIN(n=2, marks=("A1", "B1")), "these strips have to be made again: A1, B1"),
    (
        answers.MEASURE_AGAIN(what=("measured.slot", "measured.panel")),
        "measure again and enter: slot, panel",
    ),
    (answers.LOST(pieces=(cards.PIECE(mark="A1"), cards.PIECE(mark="#2"))), "A1, #2"),
    (answers.NOT_AGAIN(mark="A1", why=(taps.NO_NUMBER(),)), "A1 was spoiled: enter a number"),
    (answers.KEPT(number=7), "kept as saved setting 7"),
    (
        answers.NOT_KEPT(why=(taps.NO_NUMBER(),)),
        "this is not kept for later jobs yet, and tried again with every tap: enter a number",
    ),
    (answers.UNDONE(tap=taps.TICKED(piece=cards.PIECE(mark="A1"))), "undone: A1 ticked"),
]


@pytest.mark.parametrize(("fact", "words"), SAID, ids=[fact.id for fact, _ in SAID])
def test_what_is_said(fact: Fact, words: str) -> None:
    assert Room("UK", Fraction(1, 64)).say(fact) == words


def test_every_sentence_is_in_the_table() -> None:
    assert {fact.kind for fact, _ in SAID} == set(answers.kind_of.kinds.values())
