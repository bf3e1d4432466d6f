"""A blank stands for each gap between boards that is measured, and for nothing else."""

from __future__ import annotations

import re

from sequencer.saw.measures import What
from sequencer.sheets import html
from sequencer.sheets.checks import by_gap
from tests.reader.jobs import planned
from tests.stages import to_plan

SHED = """
unit = "mm"
[stock]
thickness = "21.3"
[stiles]
hinge = "60"
lock = "55"
[boarded]
width = "70"
[[door]]
[door.opening]
width = "396"
height = "712"
[[door.bar]]
kind = "mid rail"
"""


def test_eight_boards_in_two_lights_have_six_gaps() -> None:
    plan = to_plan(SHED)
    (check,) = (each for each in plan.checkpoints if each.measure.what is What.BOARD_GAP)
    assert check.marks == tuple(f"A{n}" for n in range(6, 14))
    between = by_gap(check, plan).marks
    assert between == ("A6–A7", "A7–A8", "A8–A9", "A10–A11", "A11–A12", "A12–A13")
    text = re.sub(r"<[^>]+>", " ", html(plan, "a4")).replace("\u00a0", " ").replace("&nbsp;", " ")
    blanks = re.findall(r"([\w–]+)\s+_{4,}", text[text.index("gap between boards, today") :])
    assert tuple(blanks[:6]) == between
    assert "–" not in blanks[6]


def test_every_gap_of_an_example_has_neighbours() -> None:
    """One gap fewer than boards in each light; measured where the plan has it."""
    plan, _ = planned("broom-cupboard")
    found = [by_gap(each, plan) for each in plan.checkpoints if each.measure.what is What.BOARD_GAP]
    between = [mark for each in found for mark in each.marks]
    assert len(between) == len(set(between))
    boards = {place.mark: place for door in plan.doors for place in door.places}
    lights = {
        (part.door, boards[part.mark].origin[1]) for part in plan.parts if part.role == "board"
    }
    count = sum(part.role == "board" for part in plan.parts)
    assert len(between) == count - len(lights)


def test_other_checks_keep_their_marks() -> None:
    plan = to_plan(SHED)
    for check in plan.checkpoints:
        if check.measure.what is not What.BOARD_GAP:
            assert by_gap(check, plan) == check
