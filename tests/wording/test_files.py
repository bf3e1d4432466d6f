"""What is said of a job or shop file as a file."""

from __future__ import annotations

from fractions import Fraction as F  # noqa: N817

import pytest

from sequencer.facts import Fact, Length
from sequencer.facts import files as f
from sequencer.wording import Room

SAID: list[tuple[Fact, str]] = [
    (f.MISSING(), "no such file"),
    (f.FOLDER(), "this is a folder"),
    (
        f.UNREADABLE(file="job.toml", reason="permission denied"),
        "job.toml: cannot be read: permission denied",
    ),
    (f.TOO_LARGE(), "larger than a million bytes"),
    (f.UTF_16(), "this is UTF-16 text"),
    (f.NO_TEXT(), "this is no text file"),
    (f.NO_UTF_8(byte="e9", line=2), "the byte e9 in line 2 is no UTF-8"),
    (f.EMPTY(), "the file is empty"),
    (f.NEW_WRITES_ONE(), "sequencer new writes one to begin with"),
    (f.NEW_SHOP(), "sequencer new --shop writes one to begin with"),
    (f.NO_FOLDER(folder="a"), "there is no folder a"),
    (f.PLAN_WRITES_ONE(), "sequencer plan writes one into its folder"),
    (f.NOT_OF_THE_SET(), "not the plan that the manifest beside it tells of"),
    (f.PLAN_AGAIN(), "plan the job again, and print its sheets"),
    (f.NAME_A_FILE(), "name the file in it"),
    (f.USUAL_SIZE(), "a job of a hundred doors has about 20 000"),
    (f.SAVE_AS_UTF_8(), "save the file as UTF-8"),
    (f.PLAIN_TEXT(), "job and shop files are plain text"),
    (f.NOT_TOML(found="expected ="), "not TOML: expected ="),
    (f.TOO_DEEP(), "too many brackets inside one another"),
    (f.TWICE(), "given twice"),
    (f.KEEP_ONE(), "keep one of them"),
    (f.MORE_MAY_FOLLOW(n=3), "3 faults; there may be more"),
    (f.UNKNOWN_KEY(key="width"), "unknown key width"),
    (f.DID_YOU_MEAN(name="thickness"), "did you mean thickness?"),
    (
        f.KNOWN_HERE(
            names=(
                "unit",
                "name",
            )
        ),
        "known here: unit, name",
    ),
    (f.NO_TABLE(key="width"), "width is not a table"),
    (f.OWN_LINE(header="[stock]"), "write [stock] on a line of its own"),
    (f.NO_TABLES(key="width"), "width is not a list of tables"),
    (f.LINE_BEFORE_EACH(header="[stock]"), "write [stock] on a line of its own before each"),
    (f.WRITE(text="leaves = 2"), "write leaves = 2"),
    (
        f.WRITE_ONE(
            texts=(
                "a = 1",
                "a = 2",
            )
        ),
        "write a = 1 or a = 2",
    ),
    (f.WRITE_UNDER(text="leaves = 2", table="[[door]]"), "write leaves = 2 under [[door]]"),
    (
        f.WRITE_WITH(
            header="[stock]",
            lines=(
                'width = "14 1/2"',
                'height = "22"',
            ),
        ),
        'write [stock], and under it width = "14 1/2" and height = "22"',
    ),
    (f.NO_QUOTES(), "put quotes round the number"),
    (f.QUOTES_WITHIN(), "a quotation mark within quotes ends the text there"),
    (f.CURLY_QUOTES(), "curly quotation marks are not read"),
    (
        f.NOT_WANTED(key="width", wanted=f.A_COUNT(most=8)),
        "width is not a whole number from 1 to 8",
    ),
    (f.A_LENGTH(), "a length in quotes"),
    (f.LENGTHS(), "a list of lengths in quotes"),
    (f.TOO_MANY(key="blocks", n=61, most=60), "blocks has 61 entries, more than 60"),
    (f.A_NUMBER(), "a number"),
    (f.A_TEXT(), "text in quotes"),
    (f.A_COUNT(most=8), "a whole number from 1 to 8"),
    (f.MINUTES(), "a number of minutes"),
    (f.PERCENT(most=8), "a whole number of percent up to 8"),
    (f.TRUE_OR_FALSE(), "true or false"),
    (
        f.NONE_OF(
            key="width",
            options=(
                '"in"',
                '"mm"',
                '"cm"',
            ),
        ),
        'width is not "in", "mm" or "cm"',
    ),
    (
        f.UNUSUAL(
            key="a.b", value=Length(F(40), "in"), low=Length(F(1, 4), "in"), high=Length(F(8), "in")
        ),
        "a.b of 40 in: usual is 1/4 in to 8 in",
    ),
    (
        f.MEASURE_OR_SURE(sure='sure = ["a.b"]'),
        'correct it; or, if it is right, write sure = ["a.b"] above the first table',
    ),
    (
        f.OTHER_UNIT_OR_SURE(text='b = "40 mm"', sure='sure = ["a.b"]'),
        (
            'write b = "40 mm" if you mean that; or, if it is right, write sure = ["a.b"] above '
            "the first table"
        ),
    ),
    (
        f.UNKNOWN_WOOD(wood="chery"),
        "no wood is known as chery, so its movement would not be worked out",
    ),
    (
        f.MEANT_OR_SURE(text='species = "cherry"', sure='sure = ["species"]'),
        (
            'did you mean species = "cherry"? or, if it is right, write sure = ["species"] above '
            "the first table"
        ),
    ),
    (f.NOT_SURE_OF(key="gaps"), "gaps is no measure that is asked about"),
    (f.A_LIST(), "a list of keys in quotes"),
    (f.NO_RANGE(), "a range goes from a smaller length to a larger one"),
    (f.CONTROL(code="U+001B"), "the name holds the control character U+001B"),
    (f.LEAVE_IT_OUT(), "leave it out"),
    (f.EMPTY_NAME(key="width"), "width is empty"),
    (f.LEAVE_OUT_OR_NAME(), "leave the line out or give a name"),
    (f.TOO_LONG(key="width", most=8), "width is longer than 8 characters"),
    (f.SHORTEN(now=68), "shorten it: it has 68 characters"),
    (f.NO_UNIT(), "no unit is given"),
    (f.WRITE_UNIT(), 'write unit = "in" or unit = "mm" above the first table'),
    (f.NO_DOOR(), "no door in the file"),
    (f.WRITE_DOOR(), "write [[door]], then [door.opening] with its width and height"),
    (f.TOO_MANY_DOORS(most=8), "more than 8 doors in one file, a pair counted as two"),
    (f.SPLIT_FILE(), "split the file: one batch may take several"),
    (f.NO_THICKNESS(), "no stock thickness is given"),
    (f.NO_OPENING(), "this door has no opening"),
    (f.TWO_LENGTHS(), "an opening has a width and a height, each with its key"),
    (f.OPENING_LACKS(key="width"), "the opening has no width"),
    (f.NEGATIVE_GAP(), "a gap below 0 makes the door larger than its opening"),
    (
        f.WRITE_AIR(),
        (
            "write how much air you want; for a door that laps over its opening write "
            'how = "overlay" under [sits]'
        ),
    ),
    (f.NO_MEETING_STILES(), "only a pair has meeting stiles"),
    (f.NO_PANELS_TO_MATCH(), "only a pair has two panels to match"),
    (f.PAIR_MEETS(), "the doors of a pair meet each other"),
    (f.INSTEAD(key="width"), "write width instead"),
    (f.KEY_FOR_LAP(key="width"), "write width under [door.meeting] if they lap over each other"),
    (f.PAIR_HANGS(), "a pair hangs on both sides"),
    (f.NO_HINGE_KEY(), "leave out hinge, or leaves = 2"),
    (f.NO_MARK(), "a mark is one to three capital letters"),
    (f.WRITE_MARK(), 'write mark = "K", or for a pair mark = ["K", "L"]'),
    (f.MARKS_OF_A_SINGLE(n=3), "3 marks for a single door"),
    (f.MARKS_OF_A_PAIR(n=3), "3 marks for a pair"),
    (f.ONE_MARK_EACH(), "give each door one mark, from left to right"),
    (f.MARK_OF_THE_BATCH(mark="K"), "mark K is taken by an earlier job of the batch"),
    (f.MARK_TAKEN(mark="K", line=2), "mark K is already given in line 2"),
    (f.NEXT_FREE(mark="K"), "the next free one is K"),
]


@pytest.mark.parametrize(("fact", "words"), SAID, ids=[fact.id for fact, _ in SAID])
def test_it_is_said(fact: Fact, words: str) -> None:
    assert Room("UK").say(fact) == words


def test_each_is_said_once() -> None:
    assert [fact.kind for fact, _ in SAID] == list(f.kind_of.kinds.values())
