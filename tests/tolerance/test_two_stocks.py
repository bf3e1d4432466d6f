"""Which tenons are told by a slot as measured: those whose own slot is as wide as that one."""

from __future__ import annotations

from fractions import Fraction

import pytest

from sequencer import pipeline
from sequencer.job.load import load_job
from sequencer.job.shop import default_shop
from sequencer.plan import Plan

JOB = """
unit = "{unit}"
name = "two stocks"
species = "beech"
[stock]
thickness = "{thin}"
[[door]]
opening = {{ width = "{wide}", height = "{high}" }}
hinge = "left"
[[door]]
opening = {{ width = "{wide}", height = "{high}" }}
hinge = "left"
stock = {{ thickness = "{thick}" }}
"""


def planned(unit: str, thin: str, thick: str, wide: str, high: str) -> Plan:
    text = JOB.format(unit=unit, thin=thin, thick=thick, wide=wide, high=high)
    job = load_job(text, "job.toml")
    return pipeline.plan([job], default_shop(job.unit))


@pytest.mark.parametrize(
    ("unit", "thin", "thick", "wide", "high"),
    [
        pytest.param("mm", "16.2", "16.5", "400", "600", id="a hair thicker"),
        pytest.param("mm", "18", "22", "400", "600", id="other boards"),
        pytest.param("in", "0.735", "0.75", "15", "24", id="inches"),
        pytest.param("mm", "18", "18", "400", "600", id="alike"),
    ],
)
def test_a_tenon_is_told_by_a_slot_of_the_width_that_was_measured(
    unit: str, thin: str, thick: str, wide: str, high: str
) -> None:
    # A slot that is turned between its passes is wider by what its stock is thicker.
    plan = planned(unit, thin, thick, wide, high)
    assert plan.proven
    slots = {
        feature.mate: feature.box[2][1] - feature.box[2][0]
        for part in plan.parts
        for feature in part.features
        if feature.kind == "slot"
    }
    told = 0
    for check in plan.checkpoints:
        if str(check.measure) != "tenon":
            continue
        cuts = [cut for step in plan.steps if step.setup == check.setup for cut in step.cuts]
        into: set[Fraction] = {
            slots[f"{cut.mark}/{cut.down.removeprefix('end-')}"]
            for cut in cuts
            if f"{cut.mark}/{cut.down.removeprefix('end-')}" in slots
        }
        for n in check.after:
            told += 1
            assert into == {plan.checkpoints[n].exact}
    assert told
