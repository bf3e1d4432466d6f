"""A raised panel bevelled by the virtual saw: what is left is what was drawn."""

from __future__ import annotations

from fractions import Fraction

from sequencer.cuts.bevel import bevel_of, cut_bevels
from sequencer.plan import Feature, Part, Prism, Size
from sequencer.proof.prisms import cells_of
from sequencer.proof.solid import Solid, difference
from tests.cuts.sawing import context, made, same
from tests.told import by_name

F = Fraction


def panel(step: Fraction) -> Part:
    """12 × 18 in, 1/2 in thick; bevels 1-1/4 in wide, the edge 3/16 in thick."""
    size = Size(F(18), F(12), F(1, 2))
    section = ((F(0), F(0)), (F(0), F(5, 16)), (F(5, 4), step), (F(5, 4), F(0)))
    features = []
    for at, axes, whole, along in (
        ("A", "xz", size.length, size.width),
        ("B", "xz", size.length, size.width),
        ("inside-edge", "yz", size.width, size.length),
        ("outside-edge", "yz", size.width, size.length),
    ):
        near = at in ("A", "inside-edge")
        corners = tuple((y if near else whole - y, z) for y, z in section)
        prism = Prism(axes, corners, (F(0), along))
        features.append(Feature("bevel", at, prism.box, prism=prism))
    return Part("A5", "A", "panel", by_name("panel"), "cherry", size, tuple(features))


def test_a_panel_is_bevelled_as_it_was_drawn() -> None:
    """The blade leans (5/16 − 1/16) / (5/4) = 1 in 5 away from the fence, which stands 3/16 in from
    it at the table; 1/4 in from its edge the panel is 3/16 + 1/20 = 19/80 in thick."""
    part = panel(F(1, 16))
    bevel = bevel_of(part)
    assert bevel is not None
    assert (bevel.width, bevel.edge, bevel.slope) == (F(5, 4), F(3, 16), F(1, 5))
    operations = list(cut_bevels(part, F(1, 4), "#2", context(F(1, 8))))
    assert [operation.id for operation in operations] == ["A5/bevel-ends", "A5/bevel-edges"]
    setting = operations[0].setting
    assert setting is not None
    assert (setting.tilt, setting.guide, setting.depth) == (F(-1, 5), F(3, 16), (F(5, 4), F(5, 4)))
    (test,) = setting.tests
    assert (test.target, test.per_unit) == (F(19, 80), F(1))
    assert test.knob == "guide"
    grain = 80
    left: Solid = made(operations, part.size, grain)
    wanted: Solid = ((0, 18 * grain, 0, 12 * grain, 0, grain // 2),)
    for feature in part.features:
        assert feature.prism is not None
        wanted = difference(wanted, cells_of(feature.prism, grain))
    assert same(left, wanted)


def test_a_step_wider_than_the_kerf_leaves_its_waste_hanging() -> None:
    """Which is why it is refused: 3/16 in of step, and a kerf of 1/8 in."""
    part = panel(F(3, 16))
    operations = list(cut_bevels(part, F(1, 4), "#2", context(F(1, 8))))
    grain = 400
    left = made(operations[1:], part.size, grain)
    assert feature_left(part, left, grain)


def feature_left(part: Part, left: Solid, grain: int) -> bool:
    prism = part.features[-1].prism
    assert prism is not None
    inside = cells_of(prism, grain)
    return bool(difference(inside, difference(inside, left)))
