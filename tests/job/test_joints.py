"""Joints that do not go with what else a door is are told where the job says so."""

from __future__ import annotations

import pytest

from sequencer.errors import InputError
from sequencer.job.load import load_job

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


def told(kind: str, bars: str, more: str = "", fill: str = "") -> str:
    text = DOOR.format(kind=kind, bars=bars, more=more, fill=fill)
    try:
        load_job(text, "job.toml")
    except InputError as error:
        return str(error)
    return ""


@pytest.mark.parametrize(
    ("kind", "bars", "more", "fill", "line", "why", "instead"),
    [
        ("stub tenon", "T-bridle", "", GLASS, 7, "glass stands in a rebate", 'kind = "bridle"'),
        ("bridle", "stub tenon", BAR, GLASS, 8, "glass stands in a rebate", 'bars = "T-bridle"'),
        ("half-lap", "T-bridle", BAR, "", 8, "half-laps leave none", 'bars = "stub tenon"'),
        ("mitred bridle", "T-bridle", '[rails]\ntop = "2 1/2"', "", 10,
         "the top rail, 2 1/2 in wide", "make it 2 in"),
        ("mitred bridle", "T-bridle", '[stiles]\nlock = "1 1/2"', "", 10,
         "the lock stile, 1 1/2 in wide", "make it 2 in"),
        ("mitred bridle", "T-bridle", '[rails]\ntop = "2 to 2 1/2"', "", 10, "left free",
         "state it"),
    ],
)  # fmt: skip
def test_what_does_not_go_together_is_told_in_its_place(
    kind: str, bars: str, more: str, fill: str, line: int, why: str, instead: str
) -> None:
    said = told(kind, bars, more, fill)
    assert said.startswith(f"job.toml:{line}:"), said
    assert why in said
    assert instead in said
    assert said.count("job.toml:") == 1, "told once"


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
    assert told(kind, bars, more, fill) == ""


def test_a_joint_that_there_is_not() -> None:
    assert "file.none-of(key=kind, options=('\"bridle\"', " in told("dovetail", "T-bridle")
    assert "file.none-of(key=bars, options=('\"stub tenon\"', " in told("bridle", "bridle")
