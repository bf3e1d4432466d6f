"""What is said of plans: wood, hands, cutters, saved settings: each sentence once."""

from __future__ import annotations

from fractions import Fraction

import pytest

from sequencer.facts import Fact, notes
from sequencer.wording import Room
from tests.told import inch

SAID: list[tuple[Fact, str]] = [
    (
        notes.UNEVEN_TEETH(cutter="combination blade"),
        (
            "combination blade: its teeth leave a slot's bottom and a shoulder's corner "
            "uneven; pare the corners with a chisel"
        ),
    ),
    (
        notes.HAND_TAKEN(marks=("A1", "A2")),
        (
            "A1, A2: the table does not say the hand; cut with the inside edge on the left as "
            "you see the marked face with end A up (for the other hand, inside = right)"
        ),
    ),
    (
        notes.UNKNOWN_WOOD(wood="bog wood", so=(notes.PANEL_KEEPS_PLAY(), notes.GAP_AS_STATED())),
        (
            "bog wood: the tables of movement know no such wood; the panel keeps the play in "
            "the job file and the free side's gap is as in the job file"
        ),
    ),
    (notes.PANEL_KEEPS_PLAY(), "the panel keeps the play in the job file"),
    (notes.GAP_AS_STATED(), "the free side's gap is as in the job file"),
    (
        notes.MOVES_MOST(wood="ash", species=("ash, white", "ash, Oregon")),
        "ash may be any of “ash, white” or “ash, Oregon”; the one that moves most was taken",
    ),
    (
        notes.WETTER_TODAY(today=Fraction(12), wettest=Fraction(92, 10)),
        (
            "the wood is wetter today, 12 %, than its room will ever make it, 9.2 %: let it "
            "settle before it is milled"
        ),
    ),
    (
        notes.OUTSIDE_LINEAR(),
        (
            "moisture outside 6 to 14 %: movement by Eq. 13-3 of the Wood Handbook, from "
            "shrinkage, where the tables have it"
        ),
    ),
    (
        notes.SET_BY(
            number=12,
            sets=(
                notes.READS(reads=inch("17/64")),
                notes.HEIGHT(sets=notes.READS(reads=inch("1"))),
            ),
        ),
        "saved setting 12: reads 17/64″, blade height reads 1″",
    ),
    (notes.HEIGHT(sets=notes.READS(reads=inch("1"))), "blade height reads 1″"),
    (notes.READS(reads=inch("17/64")), "reads 17/64″"),
    (
        notes.BY_GAUGE(gauge=notes.BLOCK(name="B"), reads=inch("17/64")),
        "gauge block B, reads 17/64″",
    ),
    (
        notes.CORRECTED_UP(
            sets=notes.READS(reads=inch("2")), was=inch("1/8"), now=inch("5/32"), by=inch("1/64")
        ),
        "reads 2″ (kerf 0.125″ then, 0.156″ now: reading corrected by +0.016″)",
    ),
    (
        notes.CORRECTED_DOWN(
            sets=notes.READS(reads=inch("2")), was=inch("1/8"), now=inch("5/32"), by=inch("1/64")
        ),
        "reads 2″ (kerf 0.125″ then, 0.156″ now: reading corrected by -0.016″)",
    ),
    (
        notes.UNCORRECTED(sets=notes.READS(reads=inch("2")), was=inch("1/8"), now=inch("5/32")),
        "reads 2″ (kerf 0.125″ then, 0.156″ now: nothing to correct)",
    ),
    (
        notes.BY_SCALE(knob="knob.fence", n=7, spread=inch("0.003")),
        "fence: set by what its scale was read to show so far (7 readings), ± 0.003″",
    ),
    (
        notes.KNOCKED(
            knob="knob.fence", carrier="carrier.rip-fence", by=inch("0.03"), since="2025-11-25"
        ),
        (
            "since 2025-11-25 the scale of the fence reads otherwise by 0.030″ (rip fence): was it "
            "moved or knocked? What is set here goes by its latest readings"
        ),
    ),
    (notes.ONE_CHECK_CUT(), "one check cut in place of dialling in"),
    (notes.ONE_LOOK(), "a look at the first piece in place of a cut on scrap"),
    (
        notes.KNOWING_SAVES(n=7, minutes=Fraction(33, 2)),
        "what is known of this saw saves 16½ minutes at 7 numbers that are set here",
    ),
    (notes.BLOCK(name="B"), "gauge block B"),
    (notes.SPACER(name="3"), "spacer 3"),
    (notes.STORY_STICK(name="C"), "story stick mark C"),
    (notes.SETTINGS(n=1, numbers=(12,)), "saved setting 12"),
    (notes.SETTINGS(n=2, numbers=(12, 15)), "saved settings 12, 15"),
    (notes.AND_MORE(numbers=(1, 2, 3), more=2), "saved settings 1, 2, 3 and 2 more"),
    (
        notes.DOUBTED(settings=notes.SETTINGS(n=1, numbers=(12,)), cutter="combination"),
        (
            "saved setting 12 would do here, but the combination has been sharpened or changed "
            "since: saw a scrap, measure the kerf, write it in the shop file, and then run: "
            'sequencer setups note --checked "combination"'
        ),
    ),
    (
        notes.USELESS(settings=notes.SETTINGS(n=1, numbers=(12,)), most=inch("1/4")),
        (
            "saved setting 12 would do here, but by what was saved a scale is off by more than "
            "1/4″, so not used: sequencer setups show and its number says what is kept, forget "
            "takes it out"
        ),
    ),
    (
        notes.OTHER_CUTTER(settings=notes.SETTINGS(n=1, numbers=(12,)), cutter="thin blade"),
        (
            "saved setting 12 would do here, but not with this blade: dialled in with the thin "
            "blade, so not used"
        ),
    ),
]


@pytest.mark.parametrize(("fact", "words"), SAID, ids=[fact.id for fact, _ in SAID])
def test_what_is_said(fact: Fact, words: str) -> None:
    assert Room("UK").say(fact) == words


def test_every_sentence_is_in_the_table() -> None:
    assert {fact.kind for fact, _ in SAID} == set(notes.kind_of.kinds.values())
