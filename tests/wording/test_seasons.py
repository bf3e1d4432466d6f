"""What is said of a door's year: each sentence once."""

from __future__ import annotations

from fractions import Fraction

import pytest

from sequencer.facts import Fact, seasons
from sequencer.wording import Room
from tests.told import inch, mm

SAID: list[tuple[Fact, str]] = [
    (
        seasons.SWELLS_TOO_MUCH(wood="four-stiles", most=inch("1/2")),
        "the four stiles swell more than a gap of 1/2″ takes",
    ),
    (
        seasons.NARROWER_STILES(),
        "narrower stiles, a wood that moves less, or wood that has settled in its room",
    ),
    (
        seasons.NO_SLAB(),
        "a frame and a panel, a wood that moves less, or wood that has settled in its room",
    ),
    (
        seasons.LEAST_GAP_TODAY(least=inch("1/8")),
        "at least 1/8 in today, for wood this wide in this room",
    ),
    (
        seasons.PLAY_SHRINKS(play=inch("1/16"), left=inch("0.012")),
        "a play of 1/16″ a side today leaves only 0.012″ in the wettest season",
    ),
    (
        seasons.PLAY_GOES(play=inch("1/16")),
        "a play of 1/16″ a side today is gone in the wettest season",
    ),
    (
        seasons.WITH_PLAY(play=inch("1/16"), then=seasons.PANEL_COMES_OUT()),
        (
            "with a play of 1/16″ a side today, the panel comes out of its groove in the "
            "driest season"
        ),
    ),
    (
        seasons.PANEL_HARDLY_IN(reach=inch("0.099"), least=inch("1/8")),
        "the panel reaches only 0.099″ into its groove in the driest season, under 1/8″",
    ),
    (seasons.PANEL_COMES_OUT(), "the panel comes out of its groove in the driest season"),
    (
        seasons.PLAY_AT_LEAST(least=inch("1/8")),
        "play_side at least 1/8 in; leave it out, and the program works it out",
    ),
    (
        seasons.PLAY_AT_MOST(most=inch("1/2")),
        "play_side at most 1/2 in; leave it out, and the program works it out",
    ),
    (
        seasons.BOARDS_HARDLY_IN(reach=inch("0.099"), least=inch("1/8")),
        (
            "the outer boards reach only 0.099″ into the stiles' grooves in the driest "
            "season, under 1/8″"
        ),
    ),
    (
        seasons.TONGUES_TOO_LONG(tongue=inch("17/32")),
        "tongues would have to be 17/32″ long, to stay in their grooves",
    ),
    (
        seasons.TONGUE_HARDLY_IN(tongue=inch("3/32"), hold=inch("0.029"), least=inch("1/8")),
        "a tongue 3/32″ long is only 0.029″ in its groove in the driest season, under 1/8″",
    ),
    (seasons.BOARDS_HARDLY_SHOW(show=inch("1/4")), "boards would show only 1/4″"),
    (seasons.WIDER_BOARDS(least=inch("1/8")), "at least 1/8″: wider boards, or a flat panel"),
    (
        seasons.WOULD_DO(
            remedies=(seasons.DEEPER_GROOVE(depth=inch("9/32")), seasons.QUARTER_SAWN())
        ),
        "a groove 9/32 in deep or quarter-sawn wood would do",
    ),
    (
        seasons.WOULD_DO_WITHOUT_PLAY(
            remedies=(seasons.DEEPER_GROOVE(depth=inch("9/32")), seasons.QUARTER_SAWN())
        ),
        "a groove 9/32 in deep or quarter-sawn wood would do with play_side left out",
    ),
    (seasons.NARROWER_DOORS(), "narrower doors, or a wood that moves less"),
    (seasons.DEEPER_GROOVE(depth=inch("9/32")), "a groove 9/32 in deep"),
    (
        seasons.SIDE_BY_SIDE(count=2, between=inch("2")),
        "2 panels side by side with 2″ between them",
    ),
    (seasons.QUARTER_SAWN(), "quarter-sawn wood"),
    (seasons.NARROWER_BOARDS(width=inch("2 1/4")), "boards at most 2 1/4 in wide"),
    (seasons.LONGER_TONGUE(tongue=inch("3/32")), "a tongue 3/32 in long"),
    (seasons.NO_MOISTURE(), "the moisture of the wood today is missing"),
    (
        seasons.WRITE_MOISTURE(),
        'write moisture = "8" under [wood], the percentage that a meter shows',
    ),
    (seasons.NO_ROOM(), "the room that the door will hang in is missing"),
    (
        seasons.WRITE_ROOM(),
        'write [room] and under it region = "most of the US", or driest and wettest',
    ),
    (seasons.TWO_ROOMS(), "the room is described in two ways"),
    (seasons.ONE_WAY(), "write region, or humidity, or driest and wettest"),
    (seasons.TEMPERATURE_ALONE(), "a temperature says little alone"),
    (seasons.ONE_SEASON(key="driest"), "the room's driest is missing"),
    (seasons.OTHER_SEASON_TOO(key="driest"), "write driest too"),
    (
        seasons.DRIEST_IS_WETTER(driest=Fraction("9.2"), wettest=Fraction(8)),
        "the driest, 9.2 %, is wetter than the wettest, 8 %",
    ),
    (seasons.CHANGE_ROUND(), "change them round"),
    (
        seasons.MOISTURE_UNREAD(key="driest", most=Fraction(30)),
        "driest is no percentage over 0 and under 30",
    ),
    (
        seasons.OF_REGION(region="Europe, heated", source="EN 942"),
        "Europe, heated: EN 942",
    ),
    (
        seasons.IN_AIR(low=40, high=65, warmth=Fraction(39, 2), source="Eq. 4-5"),
        "air of 40 to 65 % humidity at 19.5 °C; Eq. 4-5",
    ),
    (seasons.AS_JOB_SAYS(), "as the job says"),
    (seasons.REGION_UNKNOWN(), "no figures are known for that region"),
    (
        seasons.REGIONS_KNOWN(regions=('"Europe, heated"', '"dry southwest US"')),
        (
            'known here: "Europe, heated", "dry southwest US"; or give driest and wettest, '
            "or humidity"
        ),
    ),
    (
        seasons.HUMIDITY_UNREAD(least=Fraction(5), most=Fraction(95)),
        "humidity goes from a smaller percentage to a larger one, between 5 and 95",
    ),
    (seasons.TEMPERATURE_UNREAD(), "temperature is not that of a room"),
    (
        seasons.WOULD_DO(remedies=(seasons.SIDE_BY_SIDE(count=2, between=mm("50")),)),
        "2 panels side by side with 50 mm between them would do",
    ),
]


@pytest.mark.parametrize(("fact", "words"), SAID, ids=[fact.id for fact, _ in SAID])
def test_what_is_said(fact: Fact, words: str) -> None:
    assert Room("UK").say(fact) == words


def test_every_sentence_is_in_the_table() -> None:
    assert {fact.kind for fact, _ in SAID} == set(seasons.kind_of.kinds.values())
