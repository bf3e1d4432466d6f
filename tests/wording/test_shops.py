"""What is said of a shop: what is assumed of it, and what is wrong with its file."""

from __future__ import annotations

from fractions import Fraction as F  # noqa: N817  # many figures are easier read so

import pytest

from sequencer.facts import Fact, Length
from sequencer.facts import shops as s
from sequencer.wording import Room

SAID: list[tuple[Fact, str]] = [
    (s.GRADUATION(value=Length(F("25/8"), "in")), "fence and rules are divided in 3 1/8″"),
    (
        s.MAX_HEIGHT(value=Length(F("25/8"), "in")),
        "the blade goes up to 3 1/8″ (from memory, a 10-inch saw)",
    ),
    (s.KNIFE(), "the riving knife can be set below the blade's top"),
    (s.HOLD_DOWN(value="push block"), "what holds the work down: push block"),
    (s.FENCE_SIDE(value="right"), "the rip fence is used on the right of the blade"),
    (s.TILTS(value="left"), "the blade tilts to the left"),
    (s.JIG_SIDE(value="right"), "the tenoning jig works on the right of the blade"),
    (s.CUTTER(value="rip"), "the only cutter: rip"),
    (
        s.KERF(of="rip", value=Length(F("25/8"), "in")),
        "rip: kerf 3 1/8″ (published for full-kerf blades; measure a cut in scrap)",
    ),
    (s.DIAMETER(of="rip", value=Length(F("25/8"), "in")), "rip: diameter 3 1/8″"),
    (s.GRIND(of="rip", value="alternate"), "rip: alternate teeth, so corners are pared by hand"),
    (s.SLED_DECK(value=Length(F("25/8"), "in")), "the crosscut sled's deck is 3 1/8″ thick"),
    (s.SLED_LONGEST(value=Length(F("25/8"), "in")), "the sled takes strips up to 3 1/8″ long"),
    (s.SLED_WIDEST(value=Length(F("25/8"), "in")), "the sled takes boards up to 3 1/8″ wide"),
    (s.SLED_CLAMP(), "the sled has a clamp for short pieces"),
    (s.NO_AIDS(), "no aid is at hand ([aids]): what a setup needs is made before"),
    (s.JIG_RIDES(), "the tenoning jig runs in the mitre slot"),
    (s.JIG_DECK(), "the tenoning jig has no deck: the piece stands on the table"),
    (s.JIG_OPENING(value=Length(F("25/8"), "in")), "the tenoning jig's clamp opens 3 1/8″"),
    (s.CALIPER(value=Length(F("1/1000"), "in")), "a caliper is read in steps of 0.001″"),
    (s.RULE(value=Length(F("1/64"), "in")), "a rule is divided in 1/64 in"),
    (s.TAPE(value=Length(F("1/32"), "in")), "a tape is read to 1/32″"),
    (
        s.MINUTES(
            each=(
                s.MINUTES_FOR(what="minutes.tilt", value=F(2)),
                s.MINUTES_FOR(what="minutes.nibble", value=F(1, 4)),
            )
        ),
        "minutes for tilting the blade 2, a pass of a nibbled cut 1/4",
    ),
    (s.MINUTES_FOR(what="minutes.tilt", value=F(2)), "tilting the blade 2"),
    (
        s.MINUTES_TIMED(what="minutes.tilt", value=F(2), n=5),
        "tilting the blade 2 (median of 5 times)",
    ),
    (
        s.OTHER_SCALE(value=Length(F("25/8"), "in"), own="inches"),
        "settings are shown to 3 1/8″, though the shop's scales are in inches",
    ),
    (s.SHORT_REACH(least=Length(F("1"), "in")), "it reaches at least 1 in"),
    (s.NO_SUCH_SCALE(step=Length(F("1/10"), "in")), "no scale is divided in 0.100 in"),
    (s.JIG_LACKS_THICKNESS(), "a jig on the fence needs its thickness"),
    (
        s.MEASURE_JIG(),
        (
            "measure from the fence to the face that the piece is clamped to, and write it as "
            "thickness"
        ),
    ),
    (
        s.JIG_BESIDE_FENCE(side="right"),
        "a jig on the fence works where the fence is, on the right of the blade",
    ),
    (
        s.NO_JIG_SIDE(),
        "leave side out, or say under [saw] on which side of the blade the fence is used",
    ),
    (s.JIG_ADDS_NOTHING(), "a jig in the mitre slot adds nothing to the fence reading"),
    (s.NO_JIG_THICKNESS(), 'leave thickness out, or write rides = "fence"'),
    (s.TOO_MANY_CUTTERS(n=30, most=20), "30 cutters, more than 20"),
    (s.KEEP_CUTTERS(), "keep those of this job"),
    (s.CUTTER_LACKS(key="kerf"), "this cutter has no kerf"),
    (s.NAME_CUTTER(), 'write name = "…", as the sheets are to show it'),
    (s.MEASURE_KERF(), "saw a scrap, measure the cut, and write it as kerf"),
    (s.LOOSER_LENGTH(own=Length(F("12"), "in")), "this is looser than the rule's own 12 in"),
    (s.LOOSER_NUMBER(own=F(1, 2)), "this is looser than the rule's own 1/2"),
    (s.ONLY_STRICTER(), "a shop may only be stricter: leave the line out"),
    (s.TOO_MANY_MINUTES(key="kerf", most=20), "kerf is over 20 minutes"),
    (s.CHECK_IT(), "check it"),
    (s.ODD_KERF(kerf=Length(F("0.05"), "in")), "a kerf of 0.050 in"),
    (s.ODD_DIAMETER(diameter=Length(F("20"), "in")), "a diameter of 20 in"),
    (
        s.BLADES_HAVE(low=Length(F("6"), "in"), high=Length(F("16"), "in")),
        "a blade has from 6 in to 16 in: check the unit",
    ),
    (
        s.DADO_SETS_HAVE(low=Length(F("6"), "in"), high=Length(F("16"), "in")),
        "a grooving head has from 6 in to 16 in: check the unit",
    ),
    (
        s.PLATE_BINDS(plate=Length(F("1/8"), "in"), kerf=Length(F("0.05"), "in")),
        "a plate of 1/8 in binds in a kerf of 0.050 in",
    ),
    (s.PLATE_IS_THINNER(), "a blade's plate is thinner than its kerf"),
    (s.NAMED_TWICE(name="rip"), "two cutters are named rip"),
    (s.OWN_NAME(), "give each its own name"),
    (s.NO_BLADE(), "no blade among the cutters"),
    (s.WRITE_BLADE(), 'write a [[cutter]] with kind = "blade"'),
    (
        s.KNIFE_UNSUITED(knife=Length(F("0.11"), "in"), blade="rip"),
        "a riving knife of 0.110 in does not suit the rip",
    ),
    (
        s.KNIFE_SUITS(kerf=Length(F("0.05"), "in")),
        "it must be thicker than the plate and thinner than the kerf of 0.050 in",
    ),
    (s.LOW_BLADE(height=Length(F("5"), "in")), "a blade that goes up only 5 in"),
    (s.MEASURE_HEIGHT(), "measure from the table to the top of a tooth, the blade right up"),
    (s.HIGH_BLADE(height=Length(F("5"), "in")), "a blade that goes up 5 in"),
    (
        s.HALF_DIAMETER(half=Length(F("5"), "in")),
        "less than half its diameter, 5 in, can stand out of the table",
    ),
    (s.THICK_DECK(deck=Length(F("3"), "in")), "a deck 3 in thick"),
    (s.DECK_AT_MOST(most=Length(F("2"), "in")), "at most 2 in: check the unit"),
]


@pytest.mark.parametrize(("fact", "words"), SAID, ids=[fact.id for fact, _ in SAID])
def test_it_is_said(fact: Fact, words: str) -> None:
    assert Room("UK").say(fact) == words


def test_each_is_said_once() -> None:
    assert [fact.kind for fact, _ in SAID] == list(s.kind_of.kinds.values())
