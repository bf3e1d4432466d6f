"""Which setups wait for which: nothing told twice, nothing lost, layers free of waiting.

The reference is networkx's `transitive_closure`, on graphs made here from the finished plan alone.
"""

from __future__ import annotations

import json
import os
import subprocess
import sys
from collections.abc import Iterator
from itertools import combinations, groupby

import networkx as nx
import pytest
from hypothesis import example, given, settings
from hypothesis import strategies as st

from sequencer.cuts.model import Edge
from sequencer.facts import reasons
from sequencer.plan import Plan, Step
from sequencer.setups.waits import Waits, waits
from tests.setups.batches import batch
from tests.stages import to_plan
from tests.test_hand_worked import FENCE_JIG, PAIR, SINGLE, SLOT_JIG

WHY = (reasons.LENGTH(), reasons.CHAIN(), reasons.BENCH())


@st.composite
def orders(draw: st.DrawFn) -> tuple[tuple[Step, ...], tuple[Edge, ...]]:
    """Some steps, setups numbered as they come, bench steps between and within them, and edges
    that lead on."""
    steps: list[Step] = []
    setup = 1
    for number in range(1, draw(st.integers(2, 14)) + 1):
        setup += draw(st.integers(0, 1)) if steps else 0
        bench = draw(st.integers(0, 4)) == 0
        own = (f"{number}",)
        steps.append(
            Step(number, None, "dry fit", own) if bench else Step(number, setup, "rip", own)
        )
    pairs = list(combinations([step.operations[0] for step in steps], 2))
    chosen = draw(st.lists(st.sampled_from(pairs), max_size=40))
    return tuple(steps), tuple(Edge(a, b, draw(st.sampled_from(WHY))) for a, b in chosen)


@given(orders())
def test_the_reduction_reaches_what_the_whole_reaches_and_has_no_edge_to_spare(
    made: tuple[tuple[Step, ...], tuple[Edge, ...]],
) -> None:
    found = waits(*made)
    reduced = nx.DiGraph(found.reduced())
    reduced.add_nodes_from(found.graph)
    assert _closed(reduced) == _closed(found.graph)
    for edge in found.reduced():
        fewer = reduced.copy()
        fewer.remove_edge(*edge)
        assert not nx.has_path(fewer, *edge)


@given(orders())
def test_every_edge_between_two_stretches_keeps_its_reason(
    made: tuple[tuple[Step, ...], tuple[Edge, ...]],
) -> None:
    steps, edges = made
    found = waits(steps, edges)
    at = _places(steps)
    told = {(*pair, why) for pair, whys in found.reasons.items() for why in whys}
    assert told == {
        (at[e.before], at[e.after], e.reason) for e in edges if at[e.before] != at[e.after]
    }


@given(orders())
def test_no_setup_waits_for_another_of_its_layer(
    made: tuple[tuple[Step, ...], tuple[Edge, ...]],
) -> None:
    steps, edges = made
    layers = waits(steps, edges).layers()
    assert layers.keys() == {step.setup for step in steps if step.setup is not None}
    assert set(layers.values()) == set(range(1, max(layers.values(), default=0) + 1))
    whole = nx.DiGraph([(e.before, e.after) for e in edges])
    whole.add_nodes_from(step.operations[0] for step in steps)
    of = {step.operations[0]: step.setup for step in steps}
    for before, after in nx.transitive_closure(whole).edges:
        first, later = of[before], of[after]
        if first is not None and later is not None and first != later:
            assert layers[first] < layers[later]


PLANS = {
    "pair": (PAIR, FENCE_JIG),
    "single": (SINGLE, SLOT_JIG),
    **{f"batch {seed}": (batch(seed, 2, 4), "") for seed in (3, 8, 21)},
}


@pytest.fixture(scope="module", params=PLANS)
def plan(request: pytest.FixtureRequest) -> Plan:
    return to_plan(*PLANS[request.param])


def test_what_is_printed_implies_every_wait_and_nothing_printed_another(plan: Plan) -> None:
    places, whole = _places(plan.steps), _whole(plan)
    kept = [edge for edge in whole.edges if _setups(plan)[edge[1]] is None]
    printed = list(_printed(plan, whole))
    told = nx.DiGraph([*kept, *printed])
    told.add_nodes_from(set(places.values()))
    assert _closed(told) == _closed(whole)
    for edge in printed:
        fewer = told.copy()
        fewer.remove_edge(*edge)
        assert not nx.has_path(fewer, *edge), edge


@given(st.integers(0, 100_000))
@example(1961)  # a shoulder on edge, tried where both faces were cut and a groove runs
@settings(max_examples=3, deadline=None)
def test_so_it_is_of_random_batches(seed: int) -> None:
    made = to_plan(batch(seed, 2, 4))
    test_what_is_printed_implies_every_wait_and_nothing_printed_another(made)
    test_what_is_printed_has_every_reason_of_its_wait_and_no_other(made)


def test_what_is_printed_has_every_reason_of_its_wait_and_no_other(plan: Plan) -> None:
    whole, setups = _whole(plan), _setups(plan)
    told = {
        (setup, one.number, fact.given["because"])
        for one in plan.setups
        for fact in one.why
        if fact.kind is reasons.AFTER_SETUPS
        for setup in fact.given["setups"]  # type: ignore[union-attr]
    }
    pairs = {(first, later) for first, later, _ in told}
    assert told == {
        (setups[a], setups[b], why)
        for a, b in whole.edges
        for why in whole.edges[a, b]["reasons"]
        if (setups[a], setups[b]) in pairs
    }


def test_reasons_are_the_same_under_any_hash_seed() -> None:
    script = (
        "import json; from tests.stages import to_plan; from tests.test_hand_worked import *\n"
        "made = to_plan(PAIR, FENCE_JIG)\n"
        "print(json.dumps([[s.layer, *map(str, s.why)] for s in made.setups]))"
    )
    said = {
        subprocess.run(
            [sys.executable, "-c", script],
            env={**os.environ, "PYTHONHASHSEED": seed},
            capture_output=True,
            text=True,
            check=True,
        ).stdout
        for seed in ("0", "1", "77")
    }
    assert len(said) == 1
    assert any("after-setups" in why for _, *whys in json.loads(*said) for why in whys)


def test_a_setup_with_bench_work_in_its_midst_is_one_setup_of_the_layers() -> None:
    """Setup 2 waits for 1 only after the dry fit that stands within it: still not of one layer."""
    steps = (
        Step(1, 1, "rip", ("a",)),
        Step(2, 2, "rip", ("b",)),
        Step(3, None, "dry fit", ("c",)),
        Step(4, 2, "rip", ("d",)),
        Step(5, 3, "rip", ("e",)),
    )
    edges = (Edge("a", "c", WHY[0]), Edge("c", "d", WHY[1]), Edge("b", "e", WHY[0]))
    found: Waits = waits(steps, edges)
    assert found.layers() == {1: 1, 2: 2, 3: 3}


def _closed(graph: nx.DiGraph[int]) -> set[tuple[int, int]]:
    return set(nx.transitive_closure(graph).edges)


def _stretches(steps: tuple[Step, ...]) -> list[list[Step]]:
    return [list(own) for _, own in groupby(steps, key=lambda s: (s.setup, s.setup or s.kind))]


def _places(steps: tuple[Step, ...]) -> dict[str, int]:
    found = enumerate(_stretches(steps))
    return {name: n for n, own in found for step in own for name in step.operations}


def _setups(plan: Plan) -> list[int | None]:
    return [own[0].setup for own in _stretches(plan.steps)]


def _whole(plan: Plan) -> nx.DiGraph[int]:
    """The plan's own edges between its stretches, those of one setup in the midst included."""
    at, setups = _places(plan.steps), _setups(plan)
    whole: nx.DiGraph[int] = nx.DiGraph()
    whole.add_nodes_from(range(len(setups)))
    for a, b in combinations(range(len(setups)), 2):
        if setups[a] is not None and setups[a] == setups[b]:
            whole.add_edge(a, b, reasons=set())
    for before, after, why in plan.ordering.before:
        if at[before] != at[after]:
            whole.add_edge(at[before], at[after])
            whole.edges[at[before], at[after]].setdefault("reasons", set()).add(why)
    return whole


def _printed(plan: Plan, whole: nx.DiGraph[int]) -> Iterator[tuple[int, int]]:
    """The waits that a reader learns of; of the bench, the nearest work of that name and reason.
    None of these plans has bench work within a setup."""
    setups, stretches = _setups(plan), _stretches(plan.steps)
    node = {setup: n for n, setup in enumerate(setups) if setup is not None}
    assert len(node) == len([setup for setup in setups if setup is not None])
    for setup in plan.setups:
        later = node[setup.number]
        for fact in setup.why:
            if fact.kind is reasons.AFTER_SETUPS:
                for first in fact.given["setups"]:  # type: ignore[union-attr]
                    yield node[first], later  # type: ignore[index]
            elif fact.kind in (reasons.AFTER_MILLING, reasons.AFTER_WORK):
                kind = str(fact.given.get("work", "kind.mill")).removeprefix("kind.")
                because = fact.given.get("because", reasons.MILLED())
                yield max(
                    (n, later)
                    for n in whole.predecessors(later)
                    if stretches[n][0].kind == kind and because in whole.edges[n, later]["reasons"]
                )
