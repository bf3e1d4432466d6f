"""What is said of a table of pieces."""

from __future__ import annotations

from fractions import Fraction as F  # noqa: N817  # many figures are easier read so

import pytest

from sequencer.facts import Fact, Length
from sequencer.facts import tables as t
from sequencer.wording import Room

SAID: list[tuple[Fact, str]] = [
    (
        t.NO_COLUMN(
            names=(
                "mark",
                "unit",
            )
        ),
        "no column mark, unit",
    ),
    (
        t.FIRST_ROW(
            names=(
                "mark",
                "unit",
            )
        ),
        "the first row names the columns: mark, unit",
    ),
    (t.COLUMN_TWICE(name="mark"), "two columns are named mark"),
    (t.NO_TABLE(found="bad quote"), "not a table: bad quote"),
    (t.SAVE_AS_CSV(), "save it as CSV, UTF-8"),
    (t.NO_SPREADSHEET(), "this is no OpenDocument spreadsheet"),
    (t.SAVE_AS_ODS(), "save it as .ods, or as .csv"),
    (t.NEAR_COLUMN(name="lenght"), "unknown column lenght"),
    (t.NO_PIECES(), "no pieces in the table"),
    (t.ROW_EACH(), "write a row for each piece, below the columns' names"),
    (t.TOO_MANY(most=60), "more than 60 pieces in one table"),
    (t.SPLIT_TABLE(), "split it"),
    (t.MORE_CELLS(cells=9, columns=8), "9 cells in a row of 8 columns"),
    (
        t.DECIMAL_COMMA(),
        "a comma within a number parts it in two: write 6.5, or save the table with semicolons",
    ),
    (t.NOT_CARRIED(joints="rebate"), "this piece also has what these columns cannot say: rebate"),
    (
        t.PLAN_ITS_JOB(columns=("joints", "not_in_columns")),
        (
            "plan its job file instead; or empty the cells under joints, not_in_columns, to have "
            "it cut without"
        ),
    ),
    (t.MADE_A_DATE(column="slot"), "a spreadsheet has made a date of the slot"),
    (
        t.AS_TEXT(),
        "make the cell text before you write the fraction, or write it with a nought: 0 3/4",
    ),
    (t.SEVERAL(column="qty"), "qty says that there are several of this piece"),
    (t.ROW_FOR_EACH(), "write a row for each, with its own mark"),
    (t.NO_UNIT(), "unit is not in or mm"),
    (t.UNIT_IN_EVERY_ROW(), "write in or mm, the same in every row"),
    (t.OTHER_UNIT(), "another unit than in the first row"),
    (t.NO_MARK(), "a mark is a letter and up to five more letters and figures"),
    (t.MARK_LIKE(), "write one like A1"),
    (t.MARK_TAKEN(mark="A1", line=2), "A1 is already the mark in line 2"),
    (t.OWN_MARK(), "give each piece its own mark"),
    (t.NO_END(column="end_a"), "end_a is not slot, tenon or empty"),
    (t.WRITE_END(), "write slot or tenon, or leave it empty"),
    (t.NO_SIDE(), "inside is not left, right or empty"),
    (
        t.WRITE_SIDE(),
        "write left or right: where the inside edge lies, seen on the show face with end A up",
    ),
    (t.NOT_PRINTABLE(column="end_a"), "end_a cannot be printed"),
    (t.ONE_LINE(most=60), "write one line of at most 60 plain characters"),
    (t.LACKS(column="end_a"), "the piece has no end_a"),
    (t.AS_SAWN(), "write it as the piece leaves the saw"),
    (t.NO_DEPTH(joint="slot", end="A"), "the slot at end A has no depth"),
    (t.HOW_DEEP(), "write how deep the slot is, or how long the tenon"),
    (t.DEPTH_ALONE(end="A"), "a depth without a joint at end A"),
    (t.JOINT_OR_NONE(column="end_a"), "write slot or tenon under end_a, or leave the depth out"),
    (t.NO_SLOT_WIDTH(), "a joint without a slot width"),
    (t.A_THIRD(), "write it under slot: about a third of the thickness"),
    (t.NOTHING_BETWEEN(), "the joints leave nothing between them"),
    (t.CHECK_DEPTHS(), "check the depths"),
    (
        t.SLOT_TOO_WIDE(width=Length(F("5/8"), "in")),
        "a slot 5/8 in wide leaves too little wood beside it",
    ),
    (
        t.GROOVE_TOO_WIDE(width=Length(F("5/8"), "in")),
        "a groove 5/8 in wide leaves too little wood beside it",
    ),
    (t.AT_MOST_HERE(most=Length(F("1/2"), "in")), "this thickness allows at most 1/2 in"),
    (t.NO_GROOVE_WIDTH(), "a groove without a width"),
    (t.NO_GROOVE_DEPTH(), "a groove without a depth"),
    (t.GIVE_BOTH(), "write both groove_width and groove_depth"),
    (t.GROOVE_TOO_DEEP(), "the groove is as deep as the piece is wide"),
    (t.MAKE_IT_LESS(), "make it shallower"),
    (t.TENON_TOO_WIDE(), "the piece has no room for a tenon of that width"),
    (t.TENON_AT_MOST(most=Length(F("1/2"), "in")), "write at most 1/2 in, what the groove leaves"),
    (
        t.NO_SLOT_TO_TRY(),
        "no piece of this wood, thickness, slot and groove has a slot for the tenon",
    ),
    (t.ADD_A_SLOT(), "add the piece that it goes into, or a test piece to try it in"),
]


@pytest.mark.parametrize(("fact", "words"), SAID, ids=[fact.id for fact, _ in SAID])
def test_it_is_said(fact: Fact, words: str) -> None:
    assert Room("UK").say(fact) == words


def test_each_is_said_once() -> None:
    assert [fact.kind for fact, _ in SAID] == list(t.kind_of.kinds.values())
