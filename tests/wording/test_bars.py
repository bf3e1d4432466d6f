"""What is said of mid rails and mullions: each sentence once."""

from __future__ import annotations

import pytest

from sequencer.facts import Fact, bars
from sequencer.wording import Room
from tests.told import inch

SAID: list[tuple[Fact, str]] = [
    (bars.TOO_MANY(most=12), "more than 12 bars in a door"),
    (bars.LEAVE_SOME_OUT(), "leave some out"),
    (bars.NO_KIND(), "this bar has no kind"),
    (bars.MID_RAIL_IN_ROW(), "a mid rail belongs to no row"),
    (bars.MID_RAILS_MAKE_ROWS(), "leave row out: mid rails make rows, a muntin divides one"),
    (bars.IN_SLAB(), "a slab has no bars"),
    (bars.BARS_OR_SLAB(), "leave out the bars, or what makes the door a slab"),
    (bars.NO_SUCH_ROW(row=3, rows=2), "a muntin in row 3, and there are only 2 rows"),
    (bars.ROWS(rows=2), "row 1 to 2, from the top"),
    (
        bars.PARTLY_PLACED(bar="muntin"),
        "this muntin says where it is, and one beside it does not",
    ),
    (
        bars.PLACE_ALL_OR_NONE(),
        'write at = "…" for all of them, or for none: then the lights are equal',
    ),
    (
        bars.TOO_NARROW(bar="muntin", width=inch("1/2"), keeps=inch("1/8")),
        "a muntin 1/2″ wide keeps only 1/8″ between its two grooves",
    ),
    (
        bars.WIDE_ENOUGH(least=inch("3/4"), depth=inch("1/4")),
        "at least 3/4 in, with grooves 1/4″ deep along both edges",
    ),
    (bars.OVERLAP(by=inch("1 3/16")), "bars overlap, or lie over the frame, by 1 3/16″"),
    (bars.SMALL_LIGHT(left=inch("1/2"), way="wide"), "a light beside this bar is only 1/2″ wide"),
    (
        bars.LARGER_LIGHT(least=inch("1")),
        "leave at least 1″: another place, narrower bars, or fewer",
    ),
    (bars.BRIDLES_MEET(), "T-bridles of two muntins meet in the mid rail between them"),
    (bars.STUB_OR_CLEAR(), 'write bars = "stub tenon" under [joint], or move one muntin clear'),
    (bars.NO_SUCH_ROW(row=2, rows=1), "a muntin in row 2, and there is only one row"),
    (bars.ROWS(rows=1), "leave row out"),
]


@pytest.mark.parametrize(("fact", "words"), SAID, ids=[fact.id for fact, _ in SAID])
def test_what_is_said(fact: Fact, words: str) -> None:
    assert Room("UK").say(fact) == words


def test_every_sentence_is_in_the_table() -> None:
    assert {fact.kind for fact, _ in SAID} == set(bars.kind_of.kinds.values())
