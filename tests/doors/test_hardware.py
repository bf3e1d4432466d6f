"""Hinges, pulls and catches to order: counts by height are common practice."""

from __future__ import annotations

import pytest

from sequencer.errors import InputError
from sequencer.facts import files
from tests.stages import to_job, to_plan

JOB = """
unit = "in"
[stock]
thickness = "3/4"
[[door]]
opening = {{ width = "16", height = "{height}" }}
{more}
"""


def orders(height: str, more: str = "") -> dict[str, int]:
    plan = to_plan(JOB.format(height=height, more=more))
    return {str(order.what.given["what"]): order.count for order in plan.orders}


@pytest.mark.parametrize(("height", "hinges"), [("20", 2), ("40", 2), ("41", 3), ("58", 3)])
def test_a_taller_leaf_takes_more_hinges(height: str, hinges: int) -> None:
    assert orders(height) == {"hinge": hinges, "knob": 1}


def test_the_job_names_and_counts_its_own() -> None:
    more = 'leaves = 2\n[door.gaps]\nmeeting = "1/8"\n[door.hardware]\nhinge = "butt hinge, 2 in"\n'
    more += 'hinges = 3\npull = "turned knob"\ncatch = "ball catch"\n'
    assert orders("24", more) == {"butt hinge, 2 in": 6, "turned knob": 2, "ball catch": 1}


def test_what_is_no_count_is_told_with_its_place() -> None:
    with pytest.raises(InputError) as error:
        to_job(JOB.format(height="24", more='[door.hardware]\nhinges = "two"'))
    (fault,) = error.value.faults
    assert fault.line == 8
    assert fault.message == files.NOT_WANTED(key="hinges", wanted=files.A_COUNT(most=8))
