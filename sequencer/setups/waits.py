"""Which setups wait for which: the graph of operations, gathered by where they stand in the order.

A node is a stretch of the order: steps in a row of one setup, or of one kind at the bench. So every
edge leads on in the order, even where bench work stands in the middle of a setup.
"""

from __future__ import annotations

from collections.abc import Sequence
from itertools import groupby
from typing import TYPE_CHECKING

from msgspec import Struct

from sequencer.cuts.model import Edge
from sequencer.facts import Fact
from sequencer.plan import Step
from sequencer.saw.kinds import KindName

if TYPE_CHECKING:
    import networkx as nx


class Stretch(Struct, frozen=True):
    """Steps in a row: their setup, or `None` at the bench; the kind of the first."""

    setup: int | None
    kind: KindName


class Waits(Struct, frozen=True):
    """`reasons` has an edge of `graph` for each key: why a later stretch waits for a former. Beside
    those, `graph` has an edge from each stretch of a setup to the next of the same."""

    stretches: tuple[Stretch, ...]
    graph: nx.DiGraph[int]
    reasons: dict[tuple[int, int], tuple[Fact, ...]]

    def reduced(self) -> tuple[tuple[int, int], ...]:
        """The edges that do not follow from others, in order."""
        import networkx as nx

        return tuple(sorted(nx.transitive_reduction(self.graph).edges))

    def layers(self) -> dict[int, int]:
        """Each setup's layer, from 1: no setup waits for another of its layer, and each waits for
        one of the layer before it, or for the bench."""
        import networkx as nx

        whole = self.graph.copy()
        stretches_of = self._stretches_of_setups()
        for own in stretches_of.values():
            whole.add_edges_from((later, own[0]) for later in own[1:])
        # A setup is one node again, with what stands at the bench in the middle of it.
        setups = nx.condensation(whole)
        at = setups.graph["mapping"]
        depth = {
            node: number
            for number, layer in enumerate(nx.topological_generations(setups))
            for node in layer
        }
        found = {setup: depth[at[own[0]]] for setup, own in stretches_of.items()}
        number = {each: n for n, each in enumerate(sorted(set(found.values())), start=1)}
        return {setup: number[each] for setup, each in found.items()}

    def _stretches_of_setups(self) -> dict[int, list[int]]:
        found: dict[int, list[int]] = {}
        for number, stretch in enumerate(self.stretches):
            if stretch.setup is not None:
                found.setdefault(stretch.setup, []).append(number)
        return found


def waits(steps: Sequence[Step], edges: Sequence[Edge]) -> Waits:
    """What the steps, in their order, wait for by the edges of their operations."""
    import networkx as nx

    stretches: list[Stretch] = []
    at: dict[str, int] = {}
    whole: nx.DiGraph[int] = nx.DiGraph()
    former: dict[int, int] = {}
    for number, (_, group) in enumerate(groupby(steps, key=lambda step: step.setup or step.kind)):
        stretch = list(group)
        setup = stretch[0].setup
        stretches.append(Stretch(setup, stretch[0].kind))
        whole.add_node(number)
        if setup is not None:
            if setup in former:
                whole.add_edge(former[setup], number)
            former[setup] = number
        at.update((name, number) for step in stretch for name in step.operations)
    reasons: dict[tuple[int, int], dict[Fact, None]] = {}
    for edge in edges:
        # What is done already, or not made, has no step.
        first, later = at.get(edge.before), at.get(edge.after)
        if first is not None and later is not None and first != later:
            reasons.setdefault((first, later), {})[edge.reason] = None
    whole.add_edges_from(reasons)
    return Waits(tuple(stretches), whole, {key: tuple(found) for key, found in reasons.items()})
