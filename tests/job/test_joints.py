"""Joints that do not go with what else a door is are told where the job says so."""

from __future__ import annotations

import pytest

from sequencer.errors import Fault, InputError
from sequencer.facts import Fact, doors, joints
from sequencer.job.load import load_job
from tests.told import inch

DOOR = """
unit = "in"
{fill}
[stock]
thickness = "3/4"
[joint]
kind = "{kind}"
bars = "{bars}"
{more}
[[door]]
[door.opening]
width = "15"
height = "20"
"""
BAR = '[[bar]]\nkind = "mid rail"\n'
GLASS = 'fill = "glass"'


def faults(kind: str, bars: str, more: str = "", fill: str = "") -> tuple[Fault, ...]:
    text = DOOR.format(kind=kind, bars=bars, more=more, fill=fill)
    try:
        load_job(text, "job.toml")
    except InputError as error:
        return error.faults
    return ()


def unequal(piece: str, width: str) -> Fact:
    return joints.UNEQUAL_IN_MITRE(piece=piece, width=inch(width), stile=inch("2"))


BRIDLE = doors.WRITE_UNDER(line='kind = "bridle"', table="door.joint")
T_BRIDLE = doors.WRITE_UNDER(line='bars = "T-bridle"', table="door.joint")
STUB_OR_BRIDLE = doors.WRITE(lines=('bars = "stub tenon"', 'kind = "bridle"'))
AS_WIDE = joints.AS_WIDE_OR_BRIDLE(stile=inch("2"))


@pytest.mark.parametrize(
    ("kind", "bars", "more", "fill", "line", "why", "instead"),
    [
        ("stub tenon", "T-bridle", "", GLASS, 7, joints.STUB_WITHOUT_GROOVE(), BRIDLE),
        ("bridle", "stub tenon", BAR, GLASS, 8, joints.BARS_WITHOUT_GROOVE(), T_BRIDLE),
        ("half-lap", "T-bridle", BAR, "", 8, joints.BRIDLE_ON_HALF_LAP(), STUB_OR_BRIDLE),
        ("mitred bridle", "T-bridle", '[rails]\ntop = "2 1/2"', "", 10,
         unequal("top-rail", "2 1/2"), AS_WIDE),
        ("mitred bridle", "T-bridle", '[stiles]\nlock = "1 1/2"', "", 10,
         unequal("lock-stile", "1 1/2"), AS_WIDE),
        ("mitred bridle", "T-bridle", '[rails]\ntop = "2 to 2 1/2"', "", 10,
         joints.FREE_IN_MITRE(), joints.STATE_WIDTH_OR_BRIDLE()),
    ],
)  # fmt: skip
def test_what_does_not_go_together_is_told_in_its_place(
    kind: str, bars: str, more: str, fill: str, line: int, why: Fact, instead: Fact
) -> None:
    told = [(fault.line, fault.message, fault.hint) for fault in faults(kind, bars, more, fill)]
    assert told == [(line, why, instead)], "told once"


@pytest.mark.parametrize(
    ("kind", "bars", "more", "fill"),
    [
        ("stub tenon", "stub tenon", BAR, ""),
        ("bridle", "stub tenon", "", GLASS),  # nothing divides it
        ("bridle", "T-bridle", BAR, GLASS),
        ("half-lap", "T-bridle", "", ""),
        ("half-lap", "stub tenon", BAR, ""),
        ("mitred bridle", "stub tenon", '[stiles]\nhinge = "2-1/2"\n[rails]\ntop = "2-1/2"', ""),
    ],
)
def test_what_does_go_together_is_let_through(kind: str, bars: str, more: str, fill: str) -> None:
    assert faults(kind, bars, more, fill) == ()


def test_a_joint_that_there_is_not() -> None:
    (corner,) = faults("dovetail", "T-bridle")
    (bar,) = faults("bridle", "bridle")
    assert (corner.line, bar.line) == (7, 8)
    assert 'file.none-of(key=kind, options=("bridle", ' in str(corner.message)
    assert 'file.none-of(key=bars, options=("stub tenon", ' in str(bar.message)
