"""What is said of a plan's bookkeeping: each sentence once."""

from __future__ import annotations

import pytest

from sequencer.facts import Fact, books
from sequencer.wording import Room
from tests.told import inch

SAID: list[tuple[Fact, str]] = [
    (
        books.AT_STEP(step=12, kind="step.slot", pieces=("A3", "A1"), what=books.FENCE_LEFT()),
        "step 12 (slot), piece A3, A1: the rip fence is not pushed away from the blade",
    ),
    (
        books.AT_STEP_ALONE(step=12, kind="step.slot", what=books.FENCE_LEFT()),
        "step 12 (slot): the rip fence is not pushed away from the blade",
    ),
    (books.PIECE_TWICE(mark="A1"), "piece A1 is there twice"),
    (books.STRIP_TWICE(mark="A1"), "strip A1 is there twice"),
    (books.LAID_OUT_TWICE(mark="A1"), "piece A1 is laid out on the strips twice"),
    (books.DOOR_TWICE(mark="A1"), "door A1 is there twice"),
    (books.OPERATION_TWICE(mark="A1"), "A1 is to be done twice"),
    (books.SETUP_OUT_OF_PLACE(found=2, wanted=1), "setup 2 stands where setup 1 should"),
    (books.STEP_OUT_OF_PLACE(found=2, wanted=1), "step 2 stands where step 1 should"),
    (books.NO_SUCH_SCRAP(step=12, scrap="S1"), "step 12: there is no test piece S1"),
    (
        books.TARGET_NOT_GOOD(
            step=12, measure="width", target=inch("1/4"), low=inch("1"), high=inch("2")
        ),
        "step 12: width 1/4″ would not be good itself, 1″ to 2″",
    ),
    (
        books.NEVER_TRIED(operation="A1/slot", knob="fence", value="1/4 tested"),
        "A1/slot relies on fence 1/4 tested, never tried",
    ),
    (books.NO_SUCH_SETUP(setup=3), "there is no setup 3"),
    (books.CUTS_WITHOUT_SETUP(), "it cuts without a setup"),
    (books.SETUP_AFTER(setup=3, after=4), "setup 3 comes after setup 4"),
    (books.SCRAP_UNCUT(), "nothing is cut on the test piece"),
    (books.DONE_BEFORE(operation="A1/slot", step=12), "A1/slot was done in step 12"),
    (books.NO_SUCH_OPERATION(operation="A1/slot"), "A1/slot is no operation of the plan"),
    (
        books.OTHER_ORDER(operation="A1/slot", solved="A2/slot"),
        "A1/slot stands where A2/slot was solved",
    ),
    (books.NOT_IN_BOTH(operation="A1/slot"), "A1/slot is not in steps and order alike"),
    (
        books.EDGE_OF_NOTHING(first="A1/shoulder", later="A1/cheek"),
        "A1/shoulder before A1/cheek: there is no such operation",
    ),
    (
        books.COMES_BEFORE(later="A1/cheek", first="A1/shoulder"),
        "A1/cheek comes before A1/shoulder",
    ),
    (books.NO_SUCH_WAY(operation="A1/slot", way=1), "A1/slot has no way number 1"),
    (books.UNLIKE_STRIP(strip="#1", piece="A1"), "strip #1 is not as wide and thick as A1"),
    (books.SHORT_STRIP(strip="#1", piece="A1"), "strip #1 is too short for A1"),
    (books.GUARD_UNSAID(guard="cover"), "no step says that the guard is “cover”"),
    (books.WRONG_GUARD(mark="A1", guard="cover"), "A1 is cut with the guard “cover”"),
    (books.FENCE_LEFT(), "the rip fence is not pushed away from the blade"),
    (books.OFFCUT_TRAPPED(knob="fence"), "its offcut is left between the blade and the fence"),
    (
        books.BENCH_IS_SET_FOR(operation="A1/slot"),
        "A1/slot is bench work, and the saw is set for it",
    ),
    (
        books.NEEDS(operation="A1/slot", knob="fence", values=("7/8", "1"), found="9"),
        "A1/slot needs fence 7/8 or 1, not 9",
    ),
    (
        books.NEEDS_UNSET(operation="A1/slot", knob="fence", values=("7/8", "1")),
        "A1/slot needs fence 7/8 or 1, and it is not set",
    ),
    (books.NOT_NEXT(setup=3), "setup 3 does not follow the one before"),
    (books.CHANGES_NOTHING(setup=3), "setup 3 changes nothing"),
    (books.CHANGES_WITHIN(knob="fence", setup=3), "fence changes within setup 3"),
    (books.FORGOTTEN(knob="fence"), "fence was set, and is forgotten"),
    (books.OTHER_CHANGES(setup=3), "setup 3 says other changes than it makes"),
    (books.HAS_VALUE(setup=3, knob="fence", found="9", wanted="8"), "setup 3 has fence 9, not 8"),
    (
        books.SHOWS_OTHER(knob="fence", found="9", guide="2"),
        "the fence shows 9 where the guide is 2",
    ),
    (books.NOT_SET(setup=3, knob="fence"), "setup 3 needs a fence, and none is set"),
    (
        books.WRONG_DEPTH(height=inch("16"), deck=inch("1/2"), depth=inch("1")),
        "height 16″ over a deck of 1/2″ cuts not 1″",
    ),
    (books.WRONG_MOVE(knob="fence", found="9", wanted="8"), "the fence moves by 9, not 8"),
    (books.NO_SUCH_KNOB(knob="fence"), "there is no knob fence"),
    (books.WRONG_COST(setup=3, minutes=7), "setup 3 does not cost 7 minutes"),
    (books.WRONG_MINUTES(found=7, told=8), "setups and cuts take 7 minutes, not 8 minutes"),
    (books.WRONG_SETUPS(found=2, told=5), "the plan has 2 setups, not 5"),
    (books.BELOW_BOUND(minutes=7, bound=6), "7 minutes are below the bound of 6 minutes"),
    (books.NOT_PROVEN(bound=6), "called proven, with a bound of 6 minutes"),
    (
        books.NO_AID(aid="aid.backing-block"),
        "the setup needs the backing block, and does not name it",
    ),
    (
        books.LOW_FENCE(high=inch("5"), need=inch("8")),
        "the tall fence is 5″ high, of 8″ that it needs",
    ),
    (books.AID_FOR_NOTHING(aid="aid.tall-fence"), "the tall fence is for no setup of the plan"),
    (
        books.AID_NEITHER(aid="aid.strip-stop"),
        "the strip stop is neither at hand nor made, or both",
    ),
    (books.AID_MINUTES(minutes=38), "the aids take 38 minutes, and the plan tells otherwise"),
]


@pytest.mark.parametrize(("fact", "words"), SAID, ids=[fact.id for fact, _ in SAID])
def test_what_is_said(fact: Fact, words: str) -> None:
    assert Room("UK").say(fact) == words


def test_every_sentence_is_in_the_table() -> None:
    assert {fact.kind for fact, _ in SAID} == set(books.kind_of.kinds.values())
