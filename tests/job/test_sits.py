"""How a door sits: what the door says goes before what its file says."""

from __future__ import annotations

from fractions import Fraction

import pytest

from sequencer.errors import InputError
from sequencer.facts import Fact, Kind, doors
from sequencer.job.load import load_job
from sequencer.job.schema import Door
from tests.told import inch, refused, tells

JOB = """unit = "in"
[stock]
thickness = "3/4"
{head}
[[door]]
{own}
[door.opening]
width = "28"
height = "22"
"""
USUAL, LAP = Fraction(3, 32), -Fraction(3, 8)


def door(own: str = "", head: str = "") -> Door:
    (only,) = load_job(JOB.format(head=head, own=own), "job.toml").doors
    return only


def sides(made: Door) -> tuple[Fraction, ...]:
    gaps = made.gaps
    return (gaps.top, gaps.bottom, gaps.hinge, gaps.lock)


INSET = '[gaps]\ntop = "1/16"\nhinge = "1/16"\n'
OVERLAY = '[sits]\nhow = "overlay"\n'


@pytest.mark.parametrize(
    ("head", "own", "wanted"),
    [
        ("", "", (USUAL,) * 4),
        ("", 'sits.how = "inset"', (USUAL,) * 4),
        ("", 'sits.how = "overlay"', (LAP,) * 4),
        (OVERLAY, "", (LAP,) * 4),
        (OVERLAY, 'sits.how = "inset"', (USUAL,) * 4),
        (OVERLAY + 'top = "1/2"', "", (-Fraction(1, 2), LAP, LAP, LAP)),
        (OVERLAY + 'top = "1/2"', 'sits.top = "1"', (-Fraction(1), LAP, LAP, LAP)),
        # A file's laps mean nothing to a door that says it is inset.
        (OVERLAY + 'top = "1/2"', 'sits.how = "inset"', (USUAL,) * 4),
        # A file's gaps mean nothing to a door that says it laps over.
        (INSET, 'sits.how = "overlay"', (LAP,) * 4),
        (INSET, 'sits.how = "overlay"\nsits.top = "1"', (-Fraction(1), LAP, LAP, LAP)),
        # Top and bottom may keep a gap, such as one to put the fingers in.
        (OVERLAY, 'gaps.top = "1/4"', (Fraction(1, 4), LAP, LAP, LAP)),
        (OVERLAY + 'top = "1/2"', 'gaps.top = "1/4"', (Fraction(1, 4), LAP, LAP, LAP)),
        ("[gaps]\ntop = '1/4'\n" + OVERLAY, "", (Fraction(1, 4), LAP, LAP, LAP)),
    ],
)
def test_what_counts(head: str, own: str, wanted: tuple[Fraction, ...]) -> None:
    assert sides(door(own, head)) == wanted


@pytest.mark.parametrize(
    ("head", "own", "says"),
    [
        ("", 'sits.top = "1/2"', doors.INSET_LAPS),
        ("", 'sits.how = "inset"\nsits.top = "1/2"', doors.INSET_LAPS),
        ('[sits]\ntop = "1/2"', "", doors.INSET_LAPS),
        (
            "",
            'sits.how = "overlay"\nsits.top = "1/2"\ngaps.top = "1/8"',
            doors.LAP_AND_GAP(side="top"),
        ),
        (OVERLAY, 'gaps.hinge = "1/8"', doors.OVERLAY_GAP(side="hinge-side")),
        (INSET + OVERLAY, "", doors.OVERLAY_GAP(side="hinge-side")),
        (
            "",
            'sits.how = "overlay"\nsits.top = "2 1/64"',
            doors.LAP_TOO_FAR(lap=inch("2 1/64"), most=inch("2")),
        ),
        ("", 'sits.how = "overlay"\nsits.lock = "0"', doors.NO_LAP),
    ],
)
def test_what_contradicts_itself(head: str, own: str, says: Fact | Kind) -> None:
    assert tells(refused(lambda: door(own, head)), says)


@pytest.mark.parametrize(
    ("own", "says"),
    [
        ('leaves = 2\ngaps.meeting = "1/8"\nsits.lock = "1/2"', "file.pair-meets"),
        ('meeting.rebate = "1/2"', "file.no-meeting-stiles"),
    ],
)
def test_what_means_nothing_to_it(own: str, says: str) -> None:
    with pytest.raises(InputError, match=says):
        door(own)


# Stiles of 2 in and a groove 1/4 deep; 1/2 in of wood is to stay. The gap is 1/8, the least
# overlap 1/8: from 1/4 to 2 − 1/4 − 1/2.
@pytest.mark.parametrize(
    ("good", "bad", "says"),
    [
        ("1/4", "15/64", doors.AT_LEAST(least=inch("1/4"))),
        ("1 1/4", "1 17/64", doors.REBATE_OR_STILE(most=inch("1 1/4"), width=inch("2 1/64"))),
    ],
)
def test_a_rebate_at_its_limits(good: str, bad: str, says: Fact) -> None:
    pair = 'leaves = 2\ngaps.meeting = "1/8"\nmeeting.rebate = "{}"'
    assert door(pair.format(good)).meeting_rebate
    assert says in refused(lambda: door(pair.format(bad)))


def test_a_files_rebate_says_nothing_of_a_single() -> None:
    assert door(head='[meeting]\nrebate = "3/8"').meeting_rebate == 0


def test_laps_are_converted_like_all_lengths() -> None:
    text = JOB.format(head="", own='sits.how = "overlay"')
    (mm,) = load_job(text, "job.toml", "mm").doors
    assert mm.gaps.top == -Fraction(3, 8) * Fraction(127, 5)
