"""Rebates and tongues sawn pass by pass by the virtual saw: what is left is what was asked for, and
nothing that is freed lies beside the fence."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import event, given
from hypothesis import strategies as st

from sequencer.cuts.rebate import Rebate, cut_rebate, cut_tongue
from sequencer.plan import Box, Down, Size
from sequencer.saw.operation import OperationId
from tests.cuts.sawing import context, grain_of, less, made, same

F = Fraction
LENGTH, WIDTH = F(20), F(3)

NAME = OperationId("#1", "rebate")


@st.composite
def rebates(draw: st.DrawFn) -> tuple[Rebate, Fraction]:
    kerf = F(draw(st.integers(80, 160)), 1000)
    thickness = F(draw(st.integers(300, 1000)), 1000)
    wide = F(draw(st.integers(40, int(thickness * 700))), 1000)
    depth = F(draw(st.integers(60, 500)), 1000)
    edge: Down = draw(st.sampled_from(("inside-edge", "outside-edge")))
    span = (F(0), wide) if draw(st.booleans()) else (thickness - wide, thickness)
    return Rebate(NAME, "#1", edge, span, depth, thickness, "#2"), kerf


def box_of(rebate: Rebate) -> Box:
    inside = rebate.edge == "inside-edge"
    across = (F(0), rebate.depth) if inside else (WIDTH - rebate.depth, WIDTH)
    return ((F(0), LENGTH), across, rebate.span)


@given(rebates())
def test_a_rebate_is_left_as_it_was_asked_for(drawn: tuple[Rebate, Fraction]) -> None:
    rebate, kerf = drawn
    size = Size(LENGTH, WIDTH, rebate.thickness)
    operations = list(cut_rebate(rebate, context(kerf)))
    event(" ".join(operation.id.rpartition("/")[2] for operation in operations))
    grain = grain_of(operations, kerf)
    assert same(made(operations, size, grain), less(size, [box_of(rebate)], grain))
    assert len({operation.id for operation in operations}) == len(operations)


@given(rebates())
def test_a_tongue_stands_in_the_middle(drawn: tuple[Rebate, Fraction]) -> None:
    one, kerf = drawn
    wide = min(one.wide, one.thickness * 2 / 5)
    front = Rebate(one.name, "#1", one.edge, (F(0), wide), one.depth, one.thickness, "#2")
    span = (one.thickness - wide, one.thickness)
    back = Rebate(one.name, "#1", one.edge, span, one.depth, one.thickness, "#2")
    size = Size(LENGTH, WIDTH, one.thickness)
    operations = list(cut_tongue(front, back, context(kerf)))
    assert {cut.against for o in operations[-1:] for cut in o.cuts} == {"face", "back"}
    grain = grain_of(operations, kerf)
    left = less(size, [box_of(front), box_of(back)], grain)
    assert same(made(operations, size, grain), left)


def test_a_rebate_worked_by_hand() -> None:
    """3/8 in deep from the inside edge, through the back half of 3/4 in stock, kerf 1/8: flat, the
    back down, the fence 3/8 − 1/8 = 1/4 from the blade, 3/8 high; then the edge down, the face
    against the fence 3/8 from the blade, 3/8 high: the strip, 1/4 by 1/4, falls away."""
    rebate = Rebate(
        OperationId("#1", "rebate"), "#1", "inside-edge", (F(3, 8), F(3, 4)), F(3, 8), F(3, 4), "#2"
    )
    flat, edge = cut_rebate(rebate, context(F(1, 8)))
    assert flat.setting is not None
    assert edge.setting is not None
    (first,), (second,) = flat.cuts, edge.cuts
    assert (flat.setting.guide, flat.setting.depth) == (F(1, 4), (F(3, 8), F(3, 8)))
    assert (first.down, first.against) == ("back", "inside-edge")
    assert (edge.setting.guide, edge.setting.depth) == (F(3, 8), (F(3, 8), F(3, 8)))
    assert (second.down, second.against) == ("inside-edge", "face")


def test_the_other_order_would_trap_the_strip() -> None:
    rebate = Rebate(
        OperationId("#1", "rebate"), "#1", "inside-edge", (F(3, 8), F(3, 4)), F(3, 8), F(3, 4), "#2"
    )
    flat, edge = cut_rebate(rebate, context(F(1, 8)))
    with pytest.raises(AssertionError, match="trapped"):
        made((edge, flat), Size(LENGTH, WIDTH, F(3, 4)), 1000)
