"""Every rule of jobs and shops, at its threshold and just beyond it."""

from __future__ import annotations

import pytest

from sequencer.errors import InputError
from sequencer.facts import Fact, Kind, Length, doors
from sequencer.job.load import load_job
from sequencer.job.shop import default_shop
from sequencer.job.validate import against_shop
from tests.told import inch, mm, tells, told

Lines = dict[str, str]
Case = tuple[str, str, str, Fact | Kind, Lines]

INCHES: Lines = {
    "unit": "in",
    "stock.thickness": "3/4",
    "door.opening.width": "14 1/2",
    "door.opening.height": "22",
}
MM: Lines = {
    "unit": "mm",
    "stock.thickness": "19",
    "door.opening.width": "368",
    "door.opening.height": "558",
}


def text(lines: Lines) -> str:
    top = [f'{key} = "{value}"' for key, value in lines.items() if not key.startswith("door.")]
    own = [f'{key[5:]} = "{value}"' for key, value in lines.items() if key.startswith("door.")]
    pair = ["leaves = 2"] if "door.gaps.meeting" in lines else []
    return "\n".join([*top, "[[door]]", *pair, *own, ""])


def refusal(lines: Lines) -> tuple[Fact, ...]:
    """What is told of the job by itself or in the built-in shop; empty where it is good."""
    try:
        job = load_job(text(lines), "job.toml")
    except InputError as error:
        return told(error.faults)
    return told(against_shop(job, default_shop(job.unit)))


def too_small(way: str) -> Fact:
    return doors.TOO_SMALL(size=inch("2 63/64"), way=way, least=inch("3"))


def little_sight(pieces: str, way: str) -> Fact:
    size = inch("4 63/64")
    return doors.LITTLE_SIGHT(pieces=pieces, left=inch("63/64"), size=size, way=way)


def beside_groove(piece: str) -> Fact:
    return doors.LITTLE_BESIDE_GROOVE(piece=piece, left=inch("31/64"))


def kerf_too_wide(what: str, kerf: Length, width: Length) -> Fact:
    return doors.KERF_TOO_WIDE(kerf=kerf, what=what, width=width)


def too_high(kind: Kind, piece: str) -> Fact:
    """A 64th more than the built-in saw's 3 1/8 in."""
    return kind(piece=piece, needed=inch("3 9/64"), most=inch("3 1/8"))


# The rule's key; the last value that passes and the first, a 64th or a tenth on, that does not;
# what is said; other lines that it needs. Worked out by hand, as far as the limits of
# defaults.toml and the built-in shop do not give the value itself.
IN_INCHES: list[Case] = [
    ("joint.proud", "1/4", "17/64", doors.AT_MOST(most=inch("1/4")), {}),
    ("joint.clearance", "0.010", "0.011", doors.AT_MOST(most=inch("0.010")), {}),
    ("gaps.top", "1/2", "33/64", doors.GAP_TOO_LARGE(gap=inch("33/64"), most=inch("1/2")), {}),
    ("gaps.bottom", "1/2", "33/64", doors.GAP_TOO_LARGE(gap=inch("33/64"), most=inch("1/2")), {}),
    ("gaps.hinge", "1/2", "33/64", doors.GAP_TOO_LARGE(gap=inch("33/64"), most=inch("1/2")), {}),
    ("gaps.lock", "1/2", "33/64", doors.GAP_TOO_LARGE(gap=inch("33/64"), most=inch("1/2")), {}),
    (
        "door.gaps.meeting",
        "1/2",
        "33/64",
        doors.GAP_TOO_LARGE(gap=inch("33/64"), most=inch("1/2")),
        {"door.opening.width": "28"},
    ),
    ("stock.edge_allowance", "1/4", "17/64", doors.AT_MOST(most=inch("1/4")), {}),
    ("stock.thickness", "3/8", "23/64", doors.FROM_TO(least=inch("3/8"), most=inch("2")), {}),
    ("stock.thickness", "2", "2 1/64", doors.FROM_TO(least=inch("3/8"), most=inch("2")), {}),
    # 120 in is the most; the built-in sled takes less, so the shop's word is asked for below.
    ("door.opening.width", "120", "120 1/64", doors.OPENING_TOO_LARGE, {}),
    # Leaf = opening - 2 gaps of 3/32; with stiles of 1 in its sight is the least, 1 in.
    ("door.opening.width", "3 3/16", "3 11/64", too_small("wide"), {"stiles.hinge": "1"}),
    ("door.opening.height", "3 3/16", "3 11/64", too_small("high"), {"rails.top": "1"}),
    # Sight = opening - 3/16 - 2 stiles or rails of 2 in, at least 1 in.
    ("door.opening.width", "5 3/16", "5 11/64", little_sight("stiles", "wide"), {}),
    ("door.opening.height", "5 3/16", "5 11/64", little_sight("rails", "high"), {}),
    # A groove 1/4 in deep leaves 1/2 in of 3/4 in.
    ("stiles.hinge", "3/4", "47/64", beside_groove("hinge-stile"), {}),
    ("stiles.lock", "3/4", "47/64", beside_groove("lock-stile"), {}),
    ("rails.top", "3/4", "47/64", beside_groove("top-rail"), {}),
    ("rails.bottom", "3/4", "47/64", beside_groove("bottom-rail"), {}),
    # 3/4 - 2 cheeks of 1/8 in.
    (
        "joint.slot",
        "1/2",
        "33/64",
        doors.THIN_CHEEKS(what="slot", cheek=inch("15/128"), least=inch("1/8")),
        {},
    ),
    # A slot of 1/4 in begins from 1/8 to 3/4 - 1/8 - 1/4 = 3/8 in.
    (
        "joint.offset",
        "1/8",
        "7/64",
        doors.THIN_CHEEK(what="slot", cheek=inch("7/64")),
        {"joint.slot": "1/4"},
    ),
    (
        "joint.offset",
        "3/8",
        "25/64",
        doors.THIN_CHEEK(what="slot", cheek=inch("7/64")),
        {"joint.slot": "1/4"},
    ),
    ("groove.width", "1/4", "17/64", doors.OUTSIDE_SLOT, {"joint.slot": "1/4"}),
    (
        "groove.offset",
        "1/4",
        "17/64",
        doors.OUTSIDE_SLOT,
        {"joint.slot": "1/4", "groove.width": "1/4"},
    ),
    (
        "groove.offset",
        "1/4",
        "15/64",
        doors.OUTSIDE_SLOT,
        {"joint.slot": "1/4", "groove.width": "1/4"},
    ),
    # Half of 3/4 in. With a panel of 23/64 in the groove has 0.369, with one of 3/8 in 0.385 in.
    ("groove.width", "3/8", "25/64", doors.AT_MOST_HALF(most=inch("3/8")), {}),
    ("panel.thickness", "23/64", "3/8", doors.AT_MOST_HALF(most=inch("3/8")), {}),
    (
        "panel.thickness",
        "15/64",
        "1/4",
        doors.PANEL_TOO_THICK(panel=inch("1/4"), groove=inch("1/4")),
        {"groove.width": "1/4"},
    ),
    # 1/4 in of depth less 1/16 in of hold.
    ("panel.play_side", "3/16", "13/64", doors.PANEL_HARDLY_IN(reach=inch("3/64")), {}),
    ("panel.play_end", "3/16", "13/64", doors.PANEL_HARDLY_IN(reach=inch("3/64")), {}),
    ("groove.depth", "9/64", "1/8", doors.PANEL_HARDLY_IN(reach=inch("3/64")), {}),
    # 1/16 + (2 + 2 + 1 3/4 + 1 3/4)/200 = 0.1 in, so on a 64th 7/64 in.
    (
        "door.gaps.meeting",
        "7/64",
        "3/32",
        doors.LEAST_GAP(least=inch("7/64")),
        {"door.opening.width": "28", "door.stiles.meeting": "1 3/4"},
    ),
]
IN_THE_SHOP: list[Case] = [
    ("joint.slot", "1/8", "7/64", kerf_too_wide("slot", inch("1/8"), inch("7/64")), {}),
    ("groove.width", "1/8", "7/64", kerf_too_wide("groove", inch("1/8"), inch("7/64")), {}),
    # Height 3 1/8 in: tenon = stile + 5/64 proud; slot = rail - 1/4 groove + 5/64 proud.
    ("stiles.hinge", "3 3/64", "3 1/16", too_high(doors.TENONS_TOO_HIGH, "hinge-stile"), {}),
    ("stiles.lock", "3 3/64", "3 1/16", too_high(doors.TENONS_TOO_HIGH, "lock-stile"), {}),
    ("rails.top", "3 19/64", "3 5/16", too_high(doors.SLOTS_TOO_HIGH, "top-rail"), {}),
    ("rails.bottom", "3 19/64", "3 5/16", too_high(doors.SLOTS_TOO_HIGH, "bottom-rail"), {}),
    # Stile = opening - 3/16 + 10/64, on a sled of 60 in.
    (
        "door.opening.height",
        "60 1/32",
        "60 3/64",
        doors.TOO_LONG_FOR_SLED(what="stiles", size=inch("60 1/64"), most=inch("60")),
        {},
    ),
    # Panel = opening - 3/16 - 4 + 2 (1/4 - 1/16), on a sled of 24 in.
    (
        "door.opening.width",
        "27 13/16",
        "27 53/64",
        doors.TOO_WIDE_FOR_SLED(what="panel", size=inch("24 1/64"), most=inch("24")),
        {},
    ),
]
IN_MM: list[Case] = [
    ("joint.proud", "6", "6.1", doors.AT_MOST(most=mm("6")), {}),
    ("joint.clearance", "0.25", "0.26", doors.AT_MOST(most=mm("0.25")), {}),
    (
        "stiles.hinge",
        "18",
        "17.9",
        doors.LITTLE_BESIDE_GROOVE(piece="hinge-stile", left=mm("11.9")),
        {},
    ),
    (
        "joint.slot",
        "13",
        "13.1",
        doors.THIN_CHEEKS(what="slot", cheek=mm("2.95"), least=mm("3")),
        {},
    ),
    ("panel.play_side", "4.5", "4.6", doors.PANEL_HARDLY_IN(reach=mm("1.4")), {}),
    # 1.6 + (50 + 50 + 40 + 40)/200 = 2.5 mm.
    (
        "door.gaps.meeting",
        "2.5",
        "2.4",
        doors.LEAST_GAP(least=mm("2.5")),
        {"door.opening.width": "700", "door.stiles.meeting": "40"},
    ),
    # Kerf 3.2 mm; height 79 mm less 2 mm proud.
    ("joint.slot", "3.2", "3.1", kerf_too_wide("slot", mm("3.2"), mm("3.1")), {}),
    (
        "stiles.hinge",
        "77",
        "77.1",
        doors.TENONS_TOO_HIGH(piece="hinge-stile", needed=mm("79.1"), most=mm("79")),
        {},
    ),
]
CASES = [(INCHES, *case) for case in (*IN_INCHES, *IN_THE_SHOP)] + [(MM, *case) for case in IN_MM]


@pytest.mark.parametrize(("job", "key", "good", "bad", "says", "more"), CASES)
def test_a_rule_at_its_threshold(
    job: Lines, key: str, good: str, bad: str, says: Fact | Kind, more: Lines
) -> None:
    assert not tells(refusal({**job, **more, key: good}), says)
    assert tells(refusal({**job, **more, key: bad}), says)


@pytest.mark.parametrize(("key", "good", "bad", "says", "more"), IN_INCHES)
def test_a_value_at_its_limit_passes_all_rules_of_a_job(
    key: str, good: str, bad: str, says: Fact | Kind, more: Lines
) -> None:
    del bad, says
    assert load_job(text({**INCHES, **more, key: good}), "job.toml").doors


@pytest.mark.parametrize("job", [INCHES, MM])
def test_the_plain_jobs_pass(job: Lines) -> None:
    assert refusal(job) == ()
