"""What is said of a door's numbers: each sentence once."""

from __future__ import annotations

import pytest

from sequencer.facts import Fact, doors
from sequencer.wording import Room
from tests.told import inch, mm

SAID: list[tuple[Fact, str]] = [
    (doors.OWN_NAME(name="left"), "left"),
    (doors.NUMBERED(n=2), "door 2"),
    (doors.AT_MOST(most=inch("1/2")), "at most 1/2 in"),
    (doors.AT_LEAST(least=inch("3/8")), "at least 3/8 in"),
    (doors.MORE_THAN(bound=inch("1/4")), "more than 1/4 in"),
    (doors.FROM_TO(least=inch("3/8"), most=inch("1/2")), "from 3/8 in to 1/2 in"),
    (doors.GIVE_SIZE(), "give its size, or leave the line out"),
    (doors.LEAVE_OUT(), "leave it out"),
    (doors.LEAVE_LINE_OUT(), "leave the line out"),
    (doors.LEAVE_ONE_OUT(), "leave one of them out"),
    (doors.WRITE(lines=('kind = "arch"', 'kind = "peak"')), 'write kind = "arch" or kind = "peak"'),
    (
        doors.WRITE_BESIDE(lines=('kind = "arch"', 'kind = "peak"')),
        'write kind = "arch" or kind = "peak" beside it',
    ),
    (
        doors.WRITE_UNDER(line='kind = "bridle"', table="door.joint"),
        'write kind = "bridle" under [door.joint]',
    ),
    (doors.NOTHING(key="groove.depth"), "groove.depth is 0"),
    (
        doors.OPENING_TOO_LARGE(opening=inch("368"), way="wide", most=inch("120")),
        "an opening 368″ wide, over 120″",
    ),
    (
        doors.CHECK_UNIT(unit="inches"),
        "check the unit: in this file a number without one means inches",
    ),
    (
        doors.NOTHING_LEFT(opening=inch("368"), way="wide"),
        "the gaps leave nothing of the door in an opening 368″ wide",
    ),
    (
        doors.TOO_SMALL(size=inch("2 5/16"), way="wide", least=inch("3")),
        "a door only 2 5/16″ wide, under 3″",
    ),
    (doors.CHECK_OPENING(), "check the opening and the gaps"),
    (doors.CHECK_OPENING_AND_UNIT(), "check the opening, the gaps and the unit"),
    (doors.GAP_TOO_LARGE(gap=inch("2 1/2"), most=inch("1/2")), "a gap of 2 1/2″, over 1/2″"),
    (doors.GAP_NOT_OPENING(), "write how much is left open, not the opening"),
    (
        doors.GAP_CLOSES(gap=inch("1/32"), wood="two-stiles"),
        "a gap of 1/32″ closes when the two stiles swell",
    ),
    (doors.LEAST_GAP(least=inch("3/8")), "at least 3/8 in, for wood this wide"),
    (doors.NO_LAP(), "a lap of 0 covers nothing"),
    (doors.GIVE_LAP(side="top"), "give its lap, or top under [gaps]"),
    (doors.INSET_LAPS(), "an inset door laps over nothing"),
    (doors.OVERLAY_OR_NOT(), 'write how = "overlay" beside it, or leave it out'),
    (doors.LAP_AND_GAP(side="top"), "top is given both a lap over the case and a gap"),
    (
        doors.OVERLAY_GAP(side="hinge-side"),
        "an overlay door covers its case on the hinge side, and has no gap there",
    ),
    (doors.LAP_TOO_FAR(lap=inch("2 1/4"), most=inch("2")), "a lap of 2 1/4″, over 2″"),
    (doors.LAP_IS(), "write how far the door covers the case's edge"),
    (doors.SLAB_REBATED(), "a slab has no meeting stiles"),
    (
        doors.REBATE_TOO_SMALL(by=inch("3/16")),
        "meeting stiles rebated by 3/16″ hardly reach over their gap",
    ),
    (
        doors.REBATE_TOO_LARGE(by=inch("3/16"), left=inch("1/4")),
        "a rebate of 3/16″ leaves only 1/4″ of the meeting stile",
    ),
    (doors.MEETING_STILE(width=inch("2 1/4")), "a meeting stile 2 1/4 in wide"),
    (
        doors.REBATE_OR_STILE(most=inch("1/2"), width=inch("2 1/4")),
        "at most 1/2 in, or a meeting stile 2 1/4 in wide",
    ),
    (doors.STOCK_UNSUITED(thickness=inch("19")), "stock 19″ thick does not suit these joints"),
    (
        doors.MUCH_PLANED(allowance=inch("1")),
        "an edge allowance of 1″ is more than is planed off an edge",
    ),
    (
        doors.WITHIN_GROOVE(piece="hinge-stile", width=inch("1/4")),
        "the hinge stile, 1/4″ wide, is narrower than its groove is deep",
    ),
    (
        doors.LITTLE_BESIDE_GROOVE(piece="hinge-stile", left=inch("1/4")),
        "the hinge stile keeps only 1/4″ beside its groove",
    ),
    (
        doors.WIDE_ENOUGH(least=inch("3/8"), depth=inch("1/4")),
        "at least 3/8 in, for a groove 1/4″ deep",
    ),
    (
        doors.LITTLE_SIGHT(pieces="stiles", left=inch("13/16"), size=inch("7 13/16"), way="wide"),
        "the stiles leave only 13/16″ for the panel of a door 7 13/16″ wide",
    ),
    (
        doors.NO_SIGHT(pieces="rails", size=inch("4 13/16"), way="high"),
        "the rails leave nothing for the panel of a door 4 13/16″ high",
    ),
    (
        doors.MORE_SIGHT(least=inch("1"), pieces="stiles"),
        "leave at least 1″: narrower stiles, or check the opening",
    ),
    (doors.PROUD(proud=inch("3/8")), "the ends would stand 3/8″ proud, which is too far"),
    (doors.LOOSE(clearance=inch("1/32")), "a clearance of 1/32″ is too loose"),
    (doors.SLOT_WITHIN_CLEARANCE(), "the slot is no wider than its clearance"),
    (doors.ABOUT_A_THIRD(), "a slot is about a third of the thickness"),
    (
        doors.CHANNEL_TOO_WIDE(what="slot", width=inch("7/8"), thickness=inch("3/4")),
        "a slot 7/8″ wide is too wide for stock 3/4″ thick",
    ),
    (
        doors.AT_MOST_HALF(most=inch("1/2")),
        "at most 1/2 in, half of it: the slot is no wider than that",
    ),
    (
        doors.AT_MOST_A_THIRD(most=inch("1/2")),
        "at most 1/2 in; about a third of the thickness is usual",
    ),
    (
        doors.OUTSIDE_SLOT(width=inch("3/8"), slot=inch("1/4")),
        (
            "a groove 3/8″ wide reaches outside the slot, 1/4″ wide, so that a gap would "
            "show at the door's edge"
        ),
    ),
    (
        doors.IN_LINE_WITH_SLOT(),
        "make the groove no wider than the slot and in line with it, or leave slot out",
    ),
    (
        doors.NEAR_A_FACE(what="slot", offset=inch("1/16")),
        "the slot begins 1/16″ from the face side, too near one of the faces",
    ),
    (
        doors.OFFSET_FROM_TO(least=inch("1/8"), most=inch("5/8")),
        "from 1/8 in to 5/8 in from the face side",
    ),
    (
        doors.THIN_CHEEKS(what="slot", cheek=inch("0.117"), least=inch("1/8")),
        "the slot leaves cheeks of 0.117″, under 1/8″",
    ),
    (doors.THIN_CHEEK(what="slot", cheek=inch("0.117")), "the slot leaves a cheek of only 0.117″"),
    (
        doors.OFFSET_LEAVES(first=inch("1/8"), last=inch("3/8"), least=inch("1/8")),
        "an offset from 1/8 in to 3/8 in leaves 1/8″ on both sides",
    ),
    (
        doors.WIDTH_LEAVES(what="slot", most=inch("1/2"), least=inch("1/8")),
        "a slot of at most 1/2 in leaves 1/8″ on both sides",
    ),
    (
        doors.PANEL_TOO_THICK(panel=inch("5/16"), groove=inch("1/4")),
        "a panel 5/16″ thick does not go into a groove 1/4″ wide",
    ),
    (doors.GROOVE_TO_SUIT(), "leave out the groove's width, and it is made to suit the panel"),
    (doors.PANEL_HARDLY_IN(reach=inch("1/32")), "the panel reaches only 1/32″ into its groove"),
    (
        doors.LESS_PLAY(key="play_side", most=inch("1/2"), least=inch("3/8")),
        "play_side at most 1/2 in, so that 3/8″ stays in the groove",
    ),
    (doors.DEEPER_GROOVE(least=inch("3/8")), "a deeper groove, so that 3/8″ stays in it"),
    (
        doors.KERF_TOO_WIDE(kerf=inch("1/8"), what="slot", width=inch("3/32")),
        "the kerf of 1/8″ is wider than the slot of 3/32″",
    ),
    (doors.THINNER_BLADE(), "fit a thinner blade, or leave the width out"),
    (
        doors.STOCK_TOO_THIN(thickness=inch("3/4"), kerf=inch("1/8")),
        "stock 3/4″ thick is too thin for a kerf of 1/8″",
    ),
    (doors.THINNER_BLADE_OR_STOCK(), "fit a thinner blade, or take thicker stock"),
    (
        doors.TOO_LONG_FOR_SLED(what="stiles", size=inch("63 7/8"), most=inch("60")),
        "the stiles would be 63 7/8″ long; the sled takes 60″",
    ),
    (
        doors.TOO_WIDE_FOR_SLED(what="panel", size=inch("29"), most=inch("24")),
        "the panel would be 29″ wide; the sled takes 24″",
    ),
    (
        doors.TOO_THICK_FOR_JIG(size=inch("1 1/2"), most=inch("1")),
        "the stock is 1 1/2″ thick; the jig opens 1″",
    ),
    (doors.CORRECT_SHOP(), "correct the shop file if it takes more"),
    (
        doors.CROSSCUTS_TOO_HIGH(needed=inch("3 17/32"), most=inch("3")),
        "crosscuts on the sled need the blade 3 17/32″ high; it rises 3″",
    ),
    (
        doors.TENONS_TOO_HIGH(piece="lock-stile", needed=inch("3 17/32"), most=inch("3")),
        "tenons for the closing stile need the blade 3 17/32″ high; it rises 3″",
    ),
    (
        doors.SLOTS_TOO_HIGH(piece="top-rail", needed=inch("3 17/32"), most=inch("3")),
        "slots for the top rail need the blade 3 17/32″ high; it rises 3″",
    ),
    (doors.THINNER_BY(by=inch("3/16")), "make it 3/16″ thinner, or use a larger saw"),
    (doors.NARROWER_BY(by=inch("3/16")), "make it 3/16″ narrower, or use a larger saw"),
    (
        doors.GAP_CLOSES(gap=mm("0.8"), wood="one-slab"),
        "a gap of 0.8 mm closes when the slab's boards swell",
    ),
    (doors.AT_MOST(most=mm("0.25")), "at most 0.25 mm"),
    (
        doors.OVERLAY_GAP(side="lock-side"),
        "an overlay door covers its case on the closing side, and has no gap there",
    ),
]


@pytest.mark.parametrize(("fact", "words"), SAID, ids=[fact.id for fact, _ in SAID])
def test_what_is_said(fact: Fact, words: str) -> None:
    assert Room("UK").say(fact) == words


def test_every_sentence_is_in_the_table() -> None:
    assert {fact.kind for fact, _ in SAID} == set(doors.kind_of.kinds.values())
