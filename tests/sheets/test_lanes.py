"""The order in one look: which setups stand under one bracket."""

from __future__ import annotations

import networkx as nx
import pytest

from sequencer.plan import Plan
from sequencer.records import replace
from sequencer.sheets.lanes import bracketed, lanes
from sequencer.sheets.render import html
from sequencer.wording import Room, pictures
from tests.setups.batches import batch
from tests.stages import to_plan
from tests.test_hand_worked import FENCE_JIG, PAIR

PLANS = {"pair": (PAIR, FENCE_JIG), **{f"batch {n}": (batch(n, 2, 4), "") for n in (5, 13)}}


@pytest.fixture(scope="module", params=PLANS)
def plan(request: pytest.FixtureRequest) -> Plan:
    return to_plan(*PLANS[request.param])


def test_setups_under_a_bracket_do_not_wait_for_each_other(plan: Plan) -> None:
    """By networkx's closure of the plan's own edges, operation by operation."""
    of = {name: step.setup for step in plan.steps for name in step.operations}
    whole = nx.DiGraph([(before, after) for before, after, _ in plan.ordering.before])
    waiting = {(of[a], of[b]) for a, b in nx.transitive_closure(whole).edges}
    joined = bracketed(plan.setups)
    # A pair of doors, or several, has pieces of two widths, and their rips wait for milling alone.
    assert joined[0][0] == 0
    for first, last in joined:
        own = [setup.number for setup in plan.setups[first : last + 1]]
        assert len(own) > 1
        assert not any((a, b) in waiting for a in own for b in own if a != b)


def test_brackets_are_drawn_above_the_numbers_and_explained(plan: Plan) -> None:
    room = Room("UK")
    alone = tuple(replace(setup, layer=0) for setup in plan.setups)
    without = lanes(replace(plan, setups=alone), room)
    drawn = lanes(plan, room)
    assert drawn.count("<path") - without.count("<path") == len(bracketed(plan.setups))
    assert not bracketed(alone)


def test_the_legend_stands_where_there_is_a_bracket(plan: Plan) -> None:
    legend = pictures.BRACKETS.split(";")[0]
    assert legend in html(plan)
    alone = tuple(replace(setup, layer=0) for setup in plan.setups)
    assert legend not in html(replace(plan, setups=alone))
