"""What must come before what: the trade's rules in the graph, each with its reason."""

from __future__ import annotations

import networkx as nx
import pytest

from sequencer.errors import InternalError
from sequencer.facts import reasons, sequences
from sequencer.methods import Choices
from sequencer.operations import Edge, Operation, Work
from sequencer.operations.precedence import graph
from sequencer.saw.operation import OperationId
from tests.stages import to_work
from tests.test_hand_worked import FENCE_JIG, PAIR

ALL_DEPTHS = Choices(slot_depth="common")


@pytest.fixture(scope="module")
def work() -> Work:
    """With one slot depth for all the bottom rails' tenons are cut to width as well."""
    return to_work(PAIR, FENCE_JIG, ALL_DEPTHS)


def test_every_edge_says_why(work: Work) -> None:
    made = graph(work.operations, work.edges)
    assert made.number_of_edges() == len({(e.before, e.after) for e in work.edges})
    assert all(data["reason"] for _, _, data in made.edges(data=True))


@pytest.mark.parametrize(
    ("before", "after"),
    [
        ("stock-1/mill", "#2/rip"),  # all stock of one thickness is milled together
        ("#2/rip", "#2/groove/outer"),
        ("#2/groove/outer", "#2/square"),  # grooved while the stick is long
        ("#2/square", "A1/crosscut"),
        ("#1/rip", "#2/groove/outer"),  # the groove is tried on the test stick
        ("A1/crosscut", "A1/slot-A/outer"),  # length before joinery
        ("A1/slot-A/outer", "A3/cheek-A"),  # slots before the tenons fitted to them
        ("A4/shoulder-A", "A4/cheek-A"),  # all shoulders, edge shoulders too, before any cheek
        ("A4/edge-shoulder-A", "A4/cheek-A"),
        ("A4/cheek-A", "A4/edge-cheek-A"),  # face cheeks before edge cheeks
        ("A4/edge-cheek-B", "A/dry-fit"),
        ("A/dry-fit", "A5/crosscut"),  # the dry opening before the panel's final size
        ("A/dry-fit", "A/trim"),
        ("A/trim", "A/glue-up"),
        ("A5/crosscut", "A/finish"),
        ("A/finish", "A/glue-up"),  # panels finished before glue
        ("A/glue-up", "A/diagonals"),
        ("A/flush", "A/hang"),
    ],
)
def test_a_rule_of_the_trade(work: Work, before: str, after: str) -> None:
    """Common practice, each."""
    made = graph(work.operations, work.edges)
    assert nx.has_path(made, before, after)
    assert not nx.has_path(made, after, before)


def test_doors_do_not_wait_for_each_other_without_need(work: Work) -> None:
    made = graph(work.operations, work.edges)
    assert not nx.has_path(made, "A1/slot-A/outer", "B1/slot-A/outer")
    assert not nx.has_path(made, "A1/slot-A/outer", "A2/slot-A/outer")


def test_a_cycle_is_named_by_its_path_with_its_reasons() -> None:
    """And nothing beside the cycle, such as what only leads into it."""
    names = [OperationId(mark, "rip") for mark in ("z", "a", "b", "c")]
    operations = tuple(Operation(name, "rip", name.mark) for name in names)
    into, one, two, three = map(str, names)
    links = (
        (one, two, reasons.LONG()),
        (two, three, reasons.CHAIN()),
        (three, one, reasons.BENCH()),
    )
    edges = (Edge(into, one, reasons.LENGTH()), *(Edge(*link) for link in links))
    with pytest.raises(InternalError) as caught:
        graph(operations, edges)
    chain = tuple(
        sequences.COMES_FIRST(first=first, later=later, because=why) for first, later, why in links
    )
    assert caught.value.says == (sequences.WAIT_FOR_EACH_OTHER(chain=chain),)
