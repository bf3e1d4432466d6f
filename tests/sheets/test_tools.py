"""What is laid out the night before is all that the cautions ask for, with their steps."""

from __future__ import annotations

import re
from collections.abc import Iterator
from contextlib import suppress

import pytest

from sequencer.errors import Refusal
from sequencer.plan import Caution, Plan
from sequencer.sheets.tools import tools
from sequencer.wording import Room, for_plan
from sequencer.wording.cautions import parts
from sequencer.wording.hazards import HAZARDS
from tests import once
from tests.reader.jobs import EXAMPLES, Asked, planned, random_asked
from tests.stages import to_plan

NAMED = ("push stick", "push block", "zero-clearance insert", "insert for tilted cuts", "gloves")
OVERLAY = """
unit = "in"
[stock]
thickness = "3/4"
[slab]
boards = 4
[[door]]
[door.opening]
width = "13"
height = "10-1/4"
"""


def listed(plan: Plan) -> dict[str, set[int]]:
    """The lines of the sheet, read back: each tool in small letters with its steps."""
    found: dict[str, set[int]] = {}
    for line in tools(plan, for_plan(plan)):
        read = re.fullmatch(r"(.+) \(steps? ([\d, –]+)\)", line)
        assert read, line
        for run in read[2].split(", "):
            low, _, high = run.partition("–")
            found.setdefault(read[1].lower(), set()).update(range(int(low), int(high or low) + 1))
    return found


def cautions(plan: Plan) -> Iterator[tuple[int, Caution]]:
    """Each with every step that it stands at: of a setup, its cuts."""
    for step in plan.steps:
        own = step.cautions
        for setup in plan.setups:
            if setup.number == step.setup and step.cuts:
                own = setup.cautions
        yield from ((step.number, caution) for caution in own)


def all_is_listed(plan: Plan) -> int:
    """How many times a caution names a tool; each is laid out for its step."""
    room, found, named = for_plan(plan), listed(plan), 0
    for number, caution in cautions(plan):
        said = parts(room, caution)
        words = f"{said.avoidance} {said.brief}".lower()
        for tool in NAMED:
            if tool in words:
                assert number in found[tool], (tool, caution.rule)
                named += 1
        hold_down = caution.says.given.get("hold_down")
        if hold_down:
            assert number in found[str(hold_down).lower()]
            named += 1
    return named


@pytest.mark.parametrize("name", EXAMPLES)
def test_what_cautions_ask_for_is_laid_out(name: str) -> None:
    assert all_is_listed(planned(name)[0])


def test_what_cautions_ask_for_is_laid_out_for_random_jobs(large: bool, seed: int) -> None:
    named = 0
    for each in random_asked(80 if large else 8, seed):
        if isinstance(each, Asked):
            with suppress(Refusal):
                named += all_is_listed(once.planned(each.jobs, each.shop, seconds=0.3))
    assert named


def test_a_wide_rip_that_a_hand_holds_needs_the_push_stick_at_its_end() -> None:
    """A stick for the last of it, though nothing else is held by one; not for a step at which the
    guard is fitted."""
    plan = to_plan(OVERLAY)
    rips = [step for step in plan.steps if step.kind == "rip"]
    by_hand = [
        step.number for step in rips for cut in step.cuts if cut.hold and cut.hold.by == "hand"
    ]
    assert by_hand
    assert listed(plan)["push stick"] == set(by_hand)


def test_hazards_ask_for_what_their_words_name() -> None:
    room = Room("UK")
    for kind, told in HAZARDS.items():
        words = f"{told.avoidance} {told.brief}".lower() if told.brief else ""
        for tool in NAMED:
            names = [room.text(text) for text in told.asks]
            assert (tool in words) <= (tool in names), (kind, tool)
            assert set(names) <= set(NAMED)
