"""What is said beside a plan."""

from __future__ import annotations

from fractions import Fraction as F  # noqa: N817  many figures are easier read so

import pytest

from sequencer.facts import Fact
from sequencer.facts import advices as a
from sequencer.wording import Room
from tests.told import inch

TWO, QUARTER = inch("2"), inch("1/4")
SEVEN = a.NUMBERS(numbers=(7,))
LONG = a.NUMBERS_AND_MORE(numbers=(1, 2, 3), more=4)
COSTS = a.COSTS_AT(minutes=F(67), value=inch("7/32"))
CHANGE_TO = a.CHANGE_TO(
    where=a.AT_LINE(file="job.toml", line=14), name="rails.top", value=inch("2"), now=inch("2 1/16")
)
SAVES = a.SETUPS_AND_MINUTES(n=1, minutes=F(4))
SAID: list[tuple[Fact, str]] = [
    (
        a.CHOSEN(
            name="groove.width", value=inch("15/64"), low=inch("7/32"), high=inch("9/32"),
            minutes=F(64), others=a.OTHERS(each=(COSTS, COSTS)),
        ),
        ("groove width: 15/64″ chosen from 7/32″ to 9/32″; 64 minutes of setting up, 67 minutes at "
        "7/32″, 67 minutes at 7/32″"),
    ),
    (a.OTHERS(each=(COSTS,)), ", 67 minutes at 7/32″"),
    (COSTS, "67 minutes at 7/32″"),
    (
        a.SPACER(
            thickness=inch("1/8"), kerf=a.ONE_KERF(), leads=a.LEADS(n=1, numbers=SEVEN),
            saved=a.SAVED_TOO(n=7, numbers=LONG), minutes=F(1),
        ),
        ("worth making once: a spacer 1/8″ thick, one kerf: it sets setup 7 without reading the "
        "scale, and goes with saved settings 1, 2, 3 and 4 more; it saves 1 minute here"),
    ),
    (a.ONE_KERF(), ", one kerf"),
    (a.LEADS(n=7, numbers=LONG), "it sets setups 1, 2, 3 and 4 more without reading the scale"),
    (a.SAVED_TOO(n=1, numbers=SEVEN), ", and goes with saved setting 7"),
    (a.NUMBERS(numbers=(1, 2, 3)), "1, 2 and 3"),
    (LONG, "1, 2, 3 and 4 more"),
    (
        a.CHANGES(each=(CHANGE_TO,), n=2, marks=("A", "B"), saves=SAVES),
        ("job.toml:14: top rail width 2″ instead of 2 1/16″ (doors A, B): saves 1 setup and "
        "4 minutes"),
    ),
    (CHANGE_TO, "job.toml:14: top rail width 2″ instead of 2 1/16″"),
    (a.AT_LINE(file="job.toml", line=14), "job.toml:14"),
    (a.BY_DEFAULT(file="job.toml"), "job.toml, by default"),
    (SAVES, "1 setup and 4 minutes"),
    (a.SETUPS(n=2), "2 setups"),
    (a.JUST_MINUTES(minutes=F(1, 2)), "½ minute"),
    (
        a.NO_CHANGE(n=12, within=inch("1/4"), fine=inch("1/32")),
        ("12 changes were looked at: none within 1/4″ of what the file says (slot and groove "
        "1/32″) would save a minute"),
    ),
    (
        a.PASSED_OVER(looked_at=40, others=12),
        ("40 changes were looked at, the likeliest; in a job as large as this some 12 others were "
        "not"),
    ),
    (
        a.SPARE_WORTH(mark="A1", least=F(12)),
        ("cut one spare A1 now: it needs no extra setup; made again by itself it takes at least "
        "12 minutes of setting up"),
    ),
    (
        a.SPARE_SAVES(marks=("A1", "A3"), along=a.NO_SETTING_MORE(), again=F(31)),
        ("a spare of A1 and A3 cut along with the job would have taken no extra setup; making it "
        "again takes 31 minutes"),
    ),
    (
        a.SPARE_SAVES_NOTHING(marks=("A1",), along=a.MORE_SETTING_UP(minutes=F(2))),
        ("a spare of A1 would have saved nothing: cut along with the job it takes 2 minutes more "
        "of setting up"),
    ),
    (a.NO_SETTING_MORE(), "no extra setup"),
    (a.MORE_SETTING_UP(minutes=F(2)), "2 minutes more of setting up"),
    (
        a.NO_SLOT(slot=inch("3/8"), known=(inch("1/4"),)),
        "no piece of this plan has a slot 3/8″ wide, only 1/4″",
    ),
    (
        a.SLOT_TOO_FAR(slot=inch("1/4"), cut=inch("1/2")),
        "a slot planned 1/4″ wide never comes out 1/2″: measure again, and mind the unit",
    ),
    (a.NO_PIECE(mark="B7", known=("A1", "A2")), "no piece B7 in this plan: it has A1 and A2"),
    (
        a.OTHER_JOB(marks=("B1",)),
        "B1: of another job of this plan; name all its job files, the others with --also",
    ),
    (
        a.COMES_OUT_OTHERWISE(
            mark="A3", how=(a.SIZE_DIFFERS(what="size.length", now=TWO, planned=QUARTER),)
        ),
        ("A3 would not come out as it was planned: its length 2″, not 1/4″; take the job file and "
        "the shop file that the plan was made from"),
    ),
    (a.SIZE_DIFFERS(what="size.width", now=TWO, planned=QUARTER), "its width 2″, not 1/4″"),
    (a.JOINTS_DIFFER(), "its joints lie otherwise"),
]  # fmt: skip


@pytest.mark.parametrize(("fact", "words"), SAID, ids=[fact.id for fact, _ in SAID])
def test_it_is_said(fact: Fact, words: str) -> None:
    assert Room("UK").say(fact) == words


def test_each_is_said_once() -> None:
    assert [fact.kind for fact, _ in SAID] == list(a.kind_of.kinds.values())
