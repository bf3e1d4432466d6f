"""Random plans before a bystander who shares nothing with planner, safety rules or proof; and the
proof before plans that try on one piece what needs two, or leave a stop standing.

2,000 plans with --large.
"""

from __future__ import annotations

import re
from pathlib import Path
from typing import Any

import pytest
from hypothesis import HealthCheck, Phase, given, settings
from hypothesis import strategies as st

from sequencer.errors import InputError, InternalError, Refusal
from sequencer.job.load import load_job
from sequencer.job.schema import Job, Shop
from sequencer.job.shop import default_shop
from sequencer.plan import SCRAP_STEPS, Plan
from sequencer.proof import prove
from sequencer.records import replace
from tests import bystander
from tests.proof import change, hand, test_handling
from tests.proof.plans import make_plan
from tests.proof.test_random import planned
from tests.strategies import jobs_and_shops
from tests.texts import job_texts

PLAN = hand.make()


def from_text(text: str) -> tuple[Job, Shop] | None:
    try:
        job = load_job(text, "job.toml")
    except (InputError, Refusal):
        return None
    return job, default_shop(job.unit)


def test_nobody_beside_the_saw_sees_anything_wrong(large: bool) -> None:
    seen = 0

    @settings(
        max_examples=2000 if large else 21,
        phases=[Phase.explicit, Phase.generate],
        suppress_health_check=list(HealthCheck),
    )
    @given(st.one_of(jobs_and_shops(), job_texts().map(from_text)))
    def go(asked: tuple[Job, Shop] | None) -> None:
        nonlocal seen
        if asked is None:
            return
        try:
            plan = planned(*asked)
        except (InputError, Refusal):
            return
        seen += 1
        assert bystander.faults(plan, asked[1]) == []

    go()
    assert seen > 6


@pytest.mark.parametrize(
    ("kind", "hold", "waste"),
    [
        ("rip", {}, {"side": "guide"}),
        ("square", {"side": "guide"}, {}),
        ("crosscut", {"captive": "rest"}, {}),
        ("crosscut", {}, {"what": "offcut"}),
        ("groove", {}, {"what": "strip", "side": "open"}),
        ("shoulder", {"side": "guide"}, {}),
        ("cheek", {}, {"what": "chips", "side": None}),
    ],
)
def test_the_bystander_sees_what_is_told_wrong(
    kind: str, hold: dict[str, Any], waste: dict[str, Any]
) -> None:
    plan = test_handling.PLAN
    assert list(bystander.otherwise_told(plan)) == []
    step = change.of_kind(plan, kind)
    cut = step.cuts[0]
    assert cut.hold is not None
    assert cut.waste is not None
    wrong = replace(cut, hold=replace(cut.hold, **hold), waste=replace(cut.waste, **waste))
    told = change.cuts(plan, step.number, (wrong, *step.cuts[1:]))
    (seen,) = bystander.otherwise_told(told)
    assert seen.startswith(f"step {step.number}, {cut.mark}: ")


EXAMPLE = Path(__file__).resolve().parents[2] / "examples" / "broom-cupboard" / "job.toml"


def on_one_piece(plan: Plan) -> Plan:
    """All test cuts of a stock on the first of its test pieces that are for it."""
    first: dict[tuple[object, ...], str] = {}
    stands_for = {}
    for scrap in plan.scrap:
        key = (scrap.size, plan.sticks[[s.mark for s in plan.sticks].index(scrap.stick)].material)
        stands_for[scrap.mark] = first.setdefault(key, scrap.mark)
    for stick in plan.sticks:
        if stick.test and not stick.pieces:
            own = (stick.size.thickness, stick.material)
            stands_for[stick.mark] = first.setdefault(own, stick.mark)
    steps = tuple(
        replace(
            step, cuts=tuple(replace(c, mark=stands_for.get(c.mark, c.mark)) for c in step.cuts)
        )
        if step.kind in SCRAP_STEPS
        else step
        for step in plan.steps
    )
    return replace(plan, steps=steps)


@pytest.fixture(scope="module")
def boarded() -> tuple[Plan, Shop]:
    job = load_job(EXAMPLE.read_text("utf-8"), "job.toml")
    shop = default_shop(job.unit)
    return make_plan([job], shop), shop


def test_a_tongue_is_not_tried_on_the_edge_of_a_groove(boarded: tuple[Plan, Shop]) -> None:
    """There would be nothing to measure, or the board would lose its base in mid-pass."""
    plan, shop = boarded
    assert bystander.faults(plan, shop) == []
    wrong = on_one_piece(plan)
    assert bystander.faults(wrong, shop)
    with pytest.raises(
        InternalError,
        match=r"kind=step.test-cut, .*(proof.nothing-to-measure|takes-side.side=side.outside-edge)",
    ):
        prove(wrong)


def test_a_second_test_in_the_same_place_measures_nothing() -> None:
    step = next(s for s in PLAN.steps if s.kind in SCRAP_STEPS)
    twice = change.cuts(PLAN, step.number, (*step.cuts, step.cuts[0]))
    what = "proof.nothing-to-measure"
    with pytest.raises(InternalError, match=re.escape(what)):
        prove(twice)


@pytest.mark.parametrize(
    ("knob", "kind", "what"),
    [
        ("stop", "square", r"book\.offcut-trapped\(knob=stop"),
        ("fence", "crosscut", r"book\.fence-left"),
    ],
)
def test_nothing_stands_where_waste_falls(knob: str, kind: str, what: str) -> None:
    """As if the stop had never been taken away: left where it is all through the plan."""
    number = change.of_kind(PLAN, kind).setup
    ordering = PLAN.ordering

    def standing(values: dict[str, str]) -> dict[str, str]:
        return {k: "2" if k == knob and v == "away" else v for k, v in values.items()}

    order = tuple(replace(p, state=standing(dict(p.state))) for p in ordering.order)
    ways = tuple(
        replace(
            o,
            alternatives=tuple(
                replace(a, needs={k: v for k, v in a.needs.items() if (k, v) != (knob, ("away",))})
                for a in o.alternatives
            ),
        )
        for o in ordering.operations
    )
    setups = tuple(
        replace(
            s,
            changes=tuple(
                replace(c, after="2") if (c.knob, c.after) == (knob, "away") else c
                for c in s.changes
            ),
        )
        for s in PLAN.setups
    )
    wrong = replace(PLAN, setups=setups, ordering=replace(ordering, order=order, operations=ways))
    assert number is not None
    assert any(f"setup {number}:" in fault for fault in bystander.left_standing(wrong))
    with pytest.raises(InternalError, match=what):
        prove(wrong)
