"""The order of the trade, tried on all examples: steps moved to where no plan's own edge forbids
them any more, and each found with its step and piece."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from functools import cache
from pathlib import Path

import pytest

from sequencer.errors import InternalError
from sequencer.facts import Fact, intents
from sequencer.job.load import load_job
from sequencer.job.schema import Job
from sequencer.job.shop import default_shop
from sequencer.plan import SCRAP_STEPS, Plan, Step
from sequencer.proof import prove
from sequencer.proof.intent import check_intent
from sequencer.records import replace
from tests import once
from tests.proof import change, hand

EXAMPLES = sorted((Path(__file__).resolve().parents[2] / "examples").glob("*/job.toml"))

WRONG_WAY_ROUND = [
    ("mill", "rip"),
    ("edge glue-up", "rip"),
    ("rip", "groove"),
    ("rip", "square"),
    ("groove", "square"),
    ("rebate", "square"),
    ("square", "crosscut"),
    ("crosscut", "slot"),
    ("crosscut", "shoulder"),
    ("crosscut", "bevel"),
    ("slot", "cheek"),
    ("slot", "housing"),
    ("shoulder", "cheek"),
    ("sweep", "cheek"),
    ("edge shoulder", "edge cheek"),
    ("mitre", "slot"),
    ("mitre", "shoulder"),
    ("cheek", "shape"),
    ("shape", "shaped groove"),
    ("slot", "dry fit"),
    ("cheek", "dry fit"),
    ("housing", "dry fit"),
    ("shaped groove", "dry fit"),
    ("dry fit", "crosscut"),
    ("dry fit", "rip"),
    ("dry fit", "glue-up"),
    ("trim", "glue-up"),
    ("bevel", "finish"),
    ("shape panel", "finish"),
    ("crosscut", "finish"),
    ("finish", "glue-up"),
    ("glue-up", "diagonals"),
    ("glue-up", "flush"),
    ("glue-up", "rebate meeting"),
    ("finish", "glaze"),
    ("rebate meeting", "glaze"),
    ("glue-up", "glaze"),
    ("glaze", "hang"),
    ("flush", "hang"),
    ("finish", "hang"),
]
"""Kinds of step, the one that is to come first before the one that is not. Common practice."""


@cache
def example_job(path: Path) -> Job:
    return load_job(path.read_text("utf-8"), path.parent.name)


@cache
def example(path: Path) -> Plan:
    job = example_job(path)
    return once.planned([job], default_shop(job.unit))


def without_edges(plan: Plan, steps: list[Step]) -> Plan:
    """The plan with these steps, its order to suit, and nothing to say what comes before what."""
    placed = {each.operation: each for each in plan.ordering.order}
    order = tuple(placed[o] for step in steps for o in step.operations)
    ordering = replace(plan.ordering, order=order, before=())
    return change.renumbered(replace(plan, ordering=ordering), steps)


def moved(plan: Plan, step: Step, before: Step) -> tuple[Plan, int]:
    """The plan with one step before another, and the number that it has there."""
    steps = [each for each in plan.steps if each is not step]
    at = steps.index(before)
    return without_edges(plan, [*steps[:at], step, *steps[at:]]), at + 1


def wrong_ways(plan: Plan) -> Iterator[tuple[str, Plan, int]]:
    for first, later in WRONG_WAY_ROUND:
        firsts = [step for step in plan.steps if step.kind == first]
        for step in firsts[:1]:
            after = [s for s in plan.steps if s.kind == later and s.number > step.number]
            if later == "square" or first == "edge glue-up":  # of a strip that has the former
                after = [s for s in after if set(s.marks) & set(step.marks)]
            if after:
                yield (f"{later} before {first}", *moved(plan, after[0], step))


def caught(plan: Plan) -> Fact:
    with pytest.raises(InternalError) as error:
        check_intent(plan)
    (found,) = error.value.says
    assert isinstance(found, Fact)
    return found


@pytest.mark.parametrize("path", EXAMPLES, ids=[path.parent.name for path in EXAMPLES])
def test_examples_keep_the_order_of_the_trade_and_no_other(path: Path) -> None:
    plan = example(path)
    check_intent(plan)
    tried = 0
    for what, wrong, number in wrong_ways(plan):
        found = caught(wrong)
        assert found.id in ("proof.at-step", "proof.at-bench"), what
        assert found.given["step"] == number, (what, str(found))
        assert found.given["piece"]
        why = found.given["what"]
        assert isinstance(why, Fact)
        assert why.id == "intent.too-early", (what, str(found))
        tried += 1
    assert tried > 5


def test_every_kind_of_slip_occurs() -> None:
    counts = Counter(what for path in EXAMPLES for what, _, _ in wrong_ways(example(path)))
    missing = {f"{later} before {first}" for first, later in WRONG_WAY_ROUND} - counts.keys()
    assert not missing
    assert sum(counts.values()) > 150


@pytest.mark.parametrize("path", EXAMPLES, ids=[path.parent.name for path in EXAMPLES])
def test_good_wood_is_not_cut_before_the_test(path: Path) -> None:
    plan = example(path)
    for step in plan.steps:
        if step.kind not in SCRAP_STEPS:
            continue
        behind = [s for s in plan.steps if s.setup == step.setup and s.number > step.number]
        (good, *_) = (s for s in behind if s.kind not in SCRAP_STEPS)
        if good.kind in ("groove", "rebate", "slot", "housing", "cheek"):
            found = caught(moved(plan, good, step)[0])
            assert "intent.scrap-first" in str(found)
            assert found.given["step"] == step.number


@pytest.mark.parametrize("path", EXAMPLES, ids=[path.parent.name for path in EXAMPLES])
def test_what_every_door_needs_is_not_left_out(path: Path) -> None:
    plan = example(path)
    for kind in ("dry fit", "glue-up", "glaze"):
        steps = [step for step in plan.steps if step.kind != kind]
        if len(steps) < len(plan.steps):
            found = caught(without_edges(plan, steps))
            assert found.id == "intent.no-step"
            assert found.given["door"] == plan.doors[0].mark


def test_boards_that_nothing_glues_up_are_seen() -> None:
    """Panels of two boards each, by the rack: told as that, laid out as that, or both."""
    (path,) = (path for path in EXAMPLES if path.parent.name == "wall-cabinet")
    plan = example(path)
    (strip,) = (stick for stick in plan.sticks if stick.boards is not None)
    steps = [step for step in plan.steps if step.kind != "edge glue-up"]
    never = without_edges(plan, steps)
    assert caught(never) == intents.NEVER_GLUED(strip=strip.mark)

    def told(boards: int | None, made: Plan) -> Plan:
        return replace(made, sticks=tuple(
            replace(each, boards=boards) if each == strip else each for each in made.sticks
        ))  # fmt: skip

    assert caught(told(None, never)) == intents.NEVER_GLUED(strip=strip.mark)
    assert caught(told(3, plan)) == intents.OTHER_BOARDS(strip=strip.mark, told=3, laid=2)
    bare = replace(never, boards=(), missing=())
    assert caught(bare) == intents.NEVER_GLUED(strip=strip.mark)
    check_intent(told(None, bare))


def test_nothing_tried_at_all_is_seen() -> None:
    plan = hand.make()
    steps = [step for step in plan.steps if step.kind not in SCRAP_STEPS]
    assert "intent.never-tried" in str(caught(without_edges(plan, steps)))


def test_bevels_begin_at_the_ends() -> None:
    """Within one step too: the long edges take away what tears out across the grain."""
    (path,) = (path for path in EXAMPLES if path.parent.name == "dresser")
    plan = example(path)
    bevel = change.of_kind(plan, "bevel")
    assert bevel.cuts[0].down.startswith("end")
    found = caught(change.cuts(plan, bevel.number, bevel.cuts[::-1]))
    assert "intent.ends-first" in str(found)


def test_the_proof_asks_for_it() -> None:
    """Glue before the dry fit: the numbers are all good, and the plan's own edge is missing."""
    plan = hand.make()
    glue, dry = change.of_kind(plan, "glue-up"), change.of_kind(plan, "dry fit")
    wrong, number = moved(plan, glue, dry)
    with pytest.raises(InternalError, match=rf"at-bench\(step={number}, .*fit-before-glue"):
        prove(wrong)
