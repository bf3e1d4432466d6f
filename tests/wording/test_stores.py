"""How a kept setting is told, and what is wrong with the file of them."""

from __future__ import annotations

from fractions import Fraction

import pytest

from sequencer.facts import Fact, measures
from sequencer.facts import stores as s
from sequencer.wording import Room
from tests.told import inch

QUARTER = inch("1/4")
MEASURED = inch("0.252")
SAID: list[tuple[Fact, str]] = [
    (
        s.MAKES(
            what=(s.MEASURES(what="slot width", target=QUARTER), s.CUT(kind="kind.rip")),
            at=s.GUIDE_AT(guide=QUARTER),
            stock=(inch("3/4"), inch("1")),
        ),
        "slot width 1/4″, rip to width; at 1/4″, in stock 3/4″ and 1″ thick",
    ),
    (s.MEASURES(what="slot width", target=QUARTER), "slot width 1/4″"),
    (s.CUT(kind="kind.rip"), "rip to width"),
    (s.GUIDE_AT(guide=QUARTER), "at 1/4″, "),
    (s.TITLE(number=3, makes="slot"), "saved setting 3: slot"),
    (s.CUTTER(cutter="thin", kerf=inch("0.093")), "thin, kerf 0.093″"),
    (s.IN_DOUBT(), "kerf to be checked: the cutter was sharpened or changed since"),
    (
        s.NUMBER(
            computed=QUARTER,
            read=s.READ(read=inch("17/64")),
            test=s.TEST(
                what=measures.MEASURED(form="channel-width/slot"), target=QUARTER, measured=MEASURED
            ),
            gauge=None,
        ),
        "1/4″ as computed, 17/64″ as read; slot width: target 1/4″, measured 0.252″",
    ),
    (s.READ(read=QUARTER), ", 1/4″ as read"),
    (
        s.TEST(
            what=measures.MEASURED(form="channel-width/slot"), target=QUARTER, measured=MEASURED
        ),
        "; slot width: target 1/4″, measured 0.252″",
    ),
    (s.TEST_UNNAMED(target=QUARTER, measured=MEASURED), "; target 1/4″, measured 0.252″"),
    (s.GAUGED(gauge=s.KERF()), "; the kerf is not above 0"),
    (s.NONE_YET(), "no saved settings yet: follow a plan, or write sequencer setups add"),
    (s.NO_READINGS_YET(), "no readings yet: they are kept where a plan is followed"),
    (
        s.SET_AND_CAME(knob="knob.fence", wanted=QUARTER, shown=MEASURED),
        "fence 0.250″, scale at 0.252″",
    ),
    (
        s.CAME_OUT(
            what=measures.MEASURED(form="channel-width/slot"), planned=QUARTER, measured=MEASURED
        ),
        "slot width 0.252″ for 0.250″",
    ),
    (s.FOUND(what="measured.kerf", planned=QUARTER, value=MEASURED), "kerf 0.252″ for 0.250″"),
    (s.TOOK(what="minutes.fence", minutes=Fraction(3, 2)), "the fence: 1½ minutes"),
    (
        s.ON_THE_WALL(n=2),
        ("one check cut before good wood, whatever the wall says; 2 in doubt are left off"),
    ),
    (s.SCALE_OFF(by=MEASURED, more="much"), "shows 0.252″ too much"),
    (s.SCALE_SLOPE(by=MEASURED), "and 0.252″ in 100 more, farther out"),
    (s.SPREAD(spread=MEASURED), "± 0.252″"),
    (s.KNOCKED_ON(date="2025-11-25", by=MEASURED), "moved or knocked on 2025-11-25, by 0.252″"),
    (
        s.KERF_BY_CUTS(cutter="thin", saw="shed", kerf=MEASURED, spread=MEASURED, n=7),
        "shed, thin: kerf 0.252″ ± 0.252″ by 7 cuts",
    ),
    (s.KERF_SHARPENED(what=s.KERF(), times=2), "the kerf is not above 0, sharpened 2 ×"),
    (s.DRIFTS(by=MEASURED), "drifts by 0.252″ in 100 readings"),
    (s.UNIT(unit="cm"), "unit is cm, not in or mm"),
    (
        s.CARRIER(carrier="bench", known=("rip-fence", "tenoning-jig")),
        "carrier is bench, not rip-fence or tenoning-jig",
    ),
    (s.KERF(), "the kerf is not above 0"),
    (s.NAMES(), "saw and cutter need their names"),
    (s.KNOBS(known=("fence", "stop")), "what is set is one of fence, stop, each at most once"),
    (s.GAUGE(known=("block", "spacer")), "a gauge is block or spacer"),
    (s.SHARE(), "a share of the kerf lies from 0 to 1"),
    (
        s.ODD_KERF(kerf=inch("3.2"), low=inch("1/16"), high=inch("13/16")),
        "a kerf of 3.200 in: cutters have 1/16 in to 13/16 in",
    ),
    (
        s.NOT_ITS_KNOB(carrier="carrier.rip-fence", knob="jig", known=("height", "fence")),
        "rip fence has no jig: write height or fence",
    ),
    (
        s.FAR_OFF(knob="fence", value=inch("17/64"), read=inch("7"), most=inch("1/4")),
        (
            "fence: 7 in as read is too far from 17/64 in as computed, for no scale is off by more "
            "than 1/4 in"
        ),
    ),
    (s.NO_DATE(text="25.11.2025"), "25.11.2025 is no date; write it as 2025-11-25"),
    (s.NO_SUCH(number=7), "no saved setting 7: sequencer setups list shows them all"),
    (s.NO_SUCH_EVIDENCE(number="r7"), "no r7: sequencer setups readings shows them all"),
    (
        s.NO_KNOB(number=7, knob="stop", has=("height", "jig")),
        "saved setting 7 has no stop, only height, jig",
    ),
    (s.NO_SETUP(number=9, n=8), "no setup 9 in this plan: its last is 8"),
    (s.NOT_SET(setup=2, knob="jig"), "setup 2 does not set jig"),
    (s.NOT_JSON(), "no JSON from here on"),
    (s.NO_EXPORT(schema="saved/1"), "no export of saved settings (saved/1)"),
    (s.EXPORT_WRITES(), "sequencer setups export writes one"),
    (s.NO_LIST(), "no list of settings in it"),
    (s.IN_SETTING(place=2, what=s.NO_UID()), "setting 2: its uid is empty or given twice"),
    (s.MISSING(key="kerf"), "kerf is missing"),
    (s.NO_SETTING(), "this is no saved setting"),
    (s.NO_TEXT(value="3"), "3 is no text"),
    (s.NO_RATIONAL(value="0.125"), '0.125 is no exact number in quotes, as "1/8"'),
    (s.NO_READING(place=2), "reading 2: this is no reading"),
    (s.NO_UID(), "its uid is empty or given twice"),
    (s.DAMAGED(path="f", what=s.EMPTY()), "f: the saved settings are damaged: the file is empty"),
    (
        s.DAMAGED_REST(lines=(s.COULD_READ(n=1), s.MOVE_AWAY())),
        (
            "    1 setting could be read; the file was left as it is\n"
            "    move the damaged file away to begin a new one"
        ),
    ),
    (s.COULD_READ(n=3), "3 settings could be read; the file was left as it is"),
    (
        s.COULD_READ_BUT(n=3, lost=1),
        "3 settings could be read, 1 could not; the file was left as it is",
    ),
    (s.EXPORT_SAVES(), "sequencer setups export FILE writes down what could be read"),
    (s.OLDER_COPY(path="f"), "an older copy: f"),
    (s.MOVE_AWAY(), "move the damaged file away to begin a new one"),
    (s.EMPTY(), "the file is empty"),
    (s.OTHER_BEGINNING(), "it does not begin as such a file does"),
    (s.SYSTEM_SAYS(text="disk full"), "disk full"),
    (s.HELD(), "another program holds the file"),
    (
        s.UNUSABLE(path="f", why=s.HELD()),
        "f: the saved settings cannot be used: another program holds the file",
    ),
    (s.FOLDER(path="f"), "f: this is a folder; name the file of saved settings in it"),
    (s.FOREIGN(path="f"), "f: another program's file, not saved settings"),
    (
        s.LATER(path="f", version=4, known=3),
        (
            "f: saved by a later version of this program (its tables are version 4, known here "
            "up to 3): bring this program up to date"
        ),
    ),
]


@pytest.mark.parametrize(("fact", "words"), SAID, ids=[fact.id for fact, _ in SAID])
def test_it_is_said(fact: Fact, words: str) -> None:
    assert Room("UK").say(fact) == words


def test_each_is_said_once() -> None:
    assert [fact.kind for fact, _ in SAID] == list(s.kind_of.kinds.values())
