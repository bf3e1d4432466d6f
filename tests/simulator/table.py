"""The table of predicates, and what of a plan they find unsafe."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from tests.simulator import bearing, guarding, handling, hands, telling, waste
from tests.simulator.passing import Pass
from tests.simulator.rows import Row
from tests.simulator.scale import Json
from tests.simulator.walk import passes

TABLE: dict[str, Row] = {
    each.name: each
    for room in (guarding, waste, hands, handling, bearing, telling)
    for each in room.ROWS
}


@dataclass(frozen=True, slots=True)
class Unsafe:
    name: str
    made: Pass

    def __str__(self) -> str:
        return f"{self.name}: {self.made.says()}"


def unsafe(plan: Json) -> Iterator[Unsafe]:
    """Each pass of the plan that a predicate finds unsafe, in the printed order."""
    for made in passes(plan):
        for each in TABLE.values():
            if each.unsafe(made):
                yield Unsafe(each.name, made)
