"""Which bar's end goes into which crosspiece, and the air in a joint, counted column by column."""

from __future__ import annotations

from itertools import product

import pytest
from hypothesis import given
from hypothesis import strategies as st

from sequencer.plan import Plan
from sequencer.proof.cells import Brick
from sequencer.proof.grain import grain_of
from sequencer.proof.joining import air, joints
from sequencer.proof.placing import FRAME, put_all
from sequencer.proof.polygons import drawn_out
from sequencer.proof.solid import Solid, difference
from tests.proof import leaves

SIDE, THICK = 4, 6


def spans(most: int) -> st.SearchStrategy[tuple[int, int]]:
    ends = st.tuples(st.integers(0, most), st.integers(0, most))
    return ends.filter(lambda e: e[0] != e[1]).map(lambda e: (min(e), max(e)))


boxes = st.tuples(spans(SIDE), spans(SIDE), spans(THICK)).map(lambda b: (*b[0], *b[1], *b[2]))


def apart(bricks: list[Brick]) -> Solid:
    """All of them together, in bricks that share nothing."""
    solid: Solid = ()
    for brick in bricks:
        solid = (*solid, *difference((brick,), solid))
    return solid


def filled(solid: Solid, x: int, y: int) -> int:
    return sum(
        b[0] <= x < b[1] and b[2] <= y < b[3] and b[4] <= z < b[5]
        for b in solid
        for z in range(THICK)
    )


@given(st.lists(boxes, min_size=1, max_size=3), st.lists(boxes, min_size=1, max_size=3))
def test_the_air_in_a_joint_column_by_column(one: list[Brick], other: list[Brick]) -> None:
    tenon = apart(one)
    stile = difference(apart(other), tenon)
    found = [
        THICK - filled(tenon, x, y) - filled(stile, x, y)
        for x, y in product(range(SIDE), repeat=2)
        if filled(tenon, x, y) and filled(stile, x, y)
    ]
    assert air(tenon, stile, THICK) == max(found, default=None)


def test_the_air_under_a_mitre() -> None:
    """One in front of a diagonal, the other beyond it, a tenon behind both: 1 of air over one
    half, 2 over the other."""
    low = drawn_out(((0, 0), (4, 0), (0, 4)), (0, 1), (0, 2))
    high = drawn_out(((4, 0), (4, 4), (0, 4)), (0, 1), (0, 1))
    tenon: Solid = ((0, 4, 0, 4, 3, 5),)
    assert air((low, *tenon), (high, (0, 4, 0, 4, 5, 6)), THICK) == 2
    assert air((low, *tenon), ((0, 4, 0, 4, 5, 6),), THICK) == 3
    assert air((low,), (high,), THICK) is None


MET = {
    "flat": (leaves.flat, ["A3/A A1", "A3/B A2", "A4/A A1", "A4/B A2"]),
    "mid rail": (
        leaves.divided,
        ["A3/A A1", "A3/B A2", "A4/A A1", "A4/B A2", "A5/A A1", "A5/B A2"],
    ),
    "mullion": (
        leaves.mullioned,
        ["A3/A A1", "A3/B A2", "A4/A A1", "A4/B A2", "A5/B A4", "A5/A A3"],
    ),
}


@pytest.mark.parametrize("kind", MET)
def test_every_end_finds_its_crosspiece(kind: str) -> None:
    """Though a mullion stands nearer to a rail's middle than the stiles do."""
    make, wanted = MET[kind]
    plan: Plan = make()
    parts = {part.mark: part for part in plan.parts}
    (door,) = plan.doors
    there = put_all(door, parts, leaves.pieces_of(plan), grain_of(plan))
    frame = [put for put in there if put.part.role in FRAME]
    found = [f"{j.bar.mark}/{j.end} {j.across.mark}" for j in joints(door, frame)]
    assert found == wanted
