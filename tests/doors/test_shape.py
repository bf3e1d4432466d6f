"""Shaped top rails: joints as wide as the rail at each end, and a panel that follows in its
groove."""

from __future__ import annotations

from fractions import Fraction
from itertools import pairwise

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from sequencer.doors import Leaf, make_leaves
from sequencer.errors import InputError, Refusal
from sequencer.measured import Measured
from sequencer.methods import Choices
from sequencer.plan import Part, Prism
from tests.stages import to_job, to_leaves
from tests.told import name_of

DOOR = """
unit = "in"
species = "cherry"
[stock]
thickness = "3/4"
[[door]]
leaves = {leaves}
{gap}
[door.opening]
width = "{width}"
height = "20"
[door.shape]
kind = "{kind}"
rise = "{rise}"
"""
KINDS = st.sampled_from(("arch", "peak", "valley"))


def shaped_door(kind: str, rise: str, width: str = "15", leaves: int = 1) -> str:
    gap = 'gaps.meeting = "1/8"' if leaves == 2 else ""
    return DOOR.format(leaves=leaves, gap=gap, width=width, kind=kind, rise=rise)


def slots(leaf: Leaf) -> dict[str, Fraction]:
    """Depth of each stile's upper slot."""
    return {
        name_of(part): f.box[0][1] - f.box[0][0]
        for part in leaf.parts
        if part.role == "stile"
        for f in part.features
        if f.kind == "slot" and f.at == "A"
    }


def test_an_arch_by_hand() -> None:
    """A leaf 15 − 3/16 wide with stiles of 2: the span is 10 13/16. With a rise of 1 1/2 the rail
    is ripped to 3 1/2, keeps 2 in the middle, and its radius is (5 13/32)² + (1 1/2)², halved by
    1 1/2: 10.4925."""
    (leaf,) = to_leaves(shaped_door("arch", "1-1/2"))
    rail = leaf.parts[2]
    assert rail.size.width == Fraction("3.5")
    assert leaf.shaped is not None
    assert leaf.shaped.curve.span == Fraction(173, 16)
    radius = leaf.shaped.curve.radius
    assert radius == (Fraction(173, 32) ** 2 + Fraction(9, 4)) / 3
    assert leaf.sight[1] == 20 - Fraction(3, 16) - 2 - Fraction("3.5")
    assert leaf.lights[0].height == leaf.sight[1] + Fraction("1.5")
    # The panel is as long as one under a straight rail of 2 in.
    (straight,) = to_leaves(shaped_door("straight", "1"))
    assert leaf.fills[0].size == straight.fills[0].size


def test_a_slope_has_a_slot_for_each_end() -> None:
    """A peak's hinge end is the wide one, by the rise. At the free end the groove, square to a
    slope of 1 1/2 in 10 13/16 and going on into the stile's groove, takes 1/4 · √(1 + s²) + s/4 of
    the rail: 0.287, on a 64th 19/64. At the hinge end it falls away: 0.253, 17/64."""
    (leaf,) = to_leaves(shaped_door("peak", "1-1/2"))
    proud = Fraction(5, 64)
    assert slots(leaf) == {
        "hinge-stile": Fraction("3.5") - Fraction(17, 64) + proud,
        "lock-stile": Fraction(2) - Fraction(19, 64) + proud,
    }
    rail = leaf.parts[2]
    edges = {f.at: f.box[1][1] for f in rail.features if f.kind == "edge-cheek"}
    assert edges == {"A": Fraction(17, 64), "B": Fraction("1.5") + Fraction(19, 64)}


def test_a_pair_makes_a_peak() -> None:
    left, right = to_leaves(shaped_door("peak", "1", "30", leaves=2))
    assert left.shaped is not None
    assert right.shaped is not None
    assert (left.shaped.curve.highest, right.shaped.curve.highest) == ("right", "left")
    assert slots(left)["hinge-stile"] == slots(right)["hinge-stile"]


@pytest.mark.parametrize(("kind", "leaves", "offcuts"), [("arch", 1, 2), ("peak", 2, 1)])
def test_what_is_sawn_off_a_panels_top_falls_in_as_many_pieces_as_it_is(
    kind: str, leaves: int, offcuts: int
) -> None:
    """An arch touches the panel's end in the middle: a piece falls to the left and one to the
    right. A slope touches it at one side."""
    leaf = to_leaves(
        shaped_door(kind, "1-1/2", width="15" if leaves == 1 else "30", leaves=leaves)
    )[0]
    (panel,) = leaf.fills
    waste = [f.prism for f in panel.features if f.kind == "shape"]
    assert len(waste) == offcuts
    sides = sorted((min(y for _, y in p.corners), max(y for _, y in p.corners)) for p in waste if p)
    assert sides[0][0] == 0
    assert sides[-1][1] == panel.size.width
    assert all(before[1] == after[0] for before, after in pairwise(sides))


def test_one_slot_depth_for_all_narrows_the_wide_end() -> None:
    (leaf,) = to_leaves(shaped_door("peak", "1/2"), choices=Choices(slot_depth="common"))
    assert len(set(slots(leaf).values())) == 1


def test_a_wide_ends_slot_is_no_deeper_than_the_blade_reaches() -> None:
    job = to_job(shaped_door("peak", "1-1/2"))
    deepest = Fraction("2.75")
    (leaf,) = make_leaves([job], Fraction(1, 8), Measured(), Choices(), deepest)
    assert max(slots(leaf).values()) == deepest


def test_a_shaped_rail_has_no_groove_for_the_stick() -> None:
    (leaf,) = to_leaves(shaped_door("arch", "1"))
    kinds = {name_of(part): [f.kind for f in part.features] for part in leaf.parts}
    assert "groove" not in kinds["top-rail"]
    assert all("groove" in kinds[name] for name in ("hinge-stile", "lock-stile", "bottom-rail"))
    assert kinds["top-rail"].count("shape") == 2
    assert all(
        f.unproven_by_saw == (f.kind == "shape") for part in leaf.parts for f in part.features
    )


def test_a_groove_that_leaves_too_little_of_the_tenon_is_refused() -> None:
    """A rail of 1 in keeps 1/2 beside a groove 1/2 deep. At the free end of a slope s of 5 in
    13 13/16 the groove takes 1/2 · (√(1 + s²) + s), 0.71: less than two thirds of it are left."""
    text = shaped_door("peak", "5", "18") + '[door.rails]\ntop = "1"\nbottom = "2"\n'
    with pytest.raises(Refusal, match="shape-takes-tenon"):
        to_leaves(text + '[door.groove]\ndepth = "1/2"\n')


@st.composite
def leaves(draw: st.DrawFn) -> Leaf:
    """A leaf of a random door with a random shape."""
    width = Fraction(draw(st.integers(8 * 64, 24 * 64)), 64)
    rise = Fraction(draw(st.integers(8, 4 * 64)), 64)
    text = shaped_door(draw(KINDS), str(float(rise)), str(float(width)))
    play = draw(st.sampled_from(('play_end = "1/64"', 'play_side = "1/8"', "")))
    depth = draw(st.sampled_from(("1/4", "3/8")))
    text += f'[door.panel]\n{play}\n[door.groove]\ndepth = "{depth}"\n'
    try:
        (leaf,) = to_leaves(text)
    except (InputError, Refusal):
        assume(False)
        raise
    return leaf


@given(leaves())
def test_shapes_of_random_doors(leaf: Leaf) -> None:
    shapes_lie_inside_their_parts(leaf)
    the_panel_stays_between_the_edge_and_the_grooves_bottom(leaf)
    the_panels_corners_are_clear_of_the_tenons(leaf)
    marks_are_the_corners_of_what_is_taken_off(leaf)


def prisms(part: Part) -> list[Prism]:
    return [f.prism for f in part.features if f.kind == "shape" and f.prism is not None]


def upper(prism: Prism) -> dict[Fraction, Fraction]:
    """The greatest second coordinate at each first."""
    found: dict[Fraction, Fraction] = {}
    for x, y in prism.corners:
        found[x] = max(found.get(x, y), y)
    return found


def shapes_lie_inside_their_parts(leaf: Leaf) -> None:
    for part in leaf.parts:
        size = (part.size.length, part.size.width, part.size.thickness)
        for prism in prisms(part):
            assert len(set(prism.corners)) == len(prism.corners) >= 3
            for (low, high), most in zip(prism.box, size, strict=True):
                assert 0 <= low < high <= most


def panel_line(leaf: Leaf) -> list[tuple[Fraction, Fraction]]:
    """The panel's top edge in the door's frame, from left to right."""
    panel = leaf.fills[0]
    place = next(place for place in leaf.door.places if place.mark == panel.mark)
    down: dict[Fraction, Fraction] = {}
    for prism in prisms(panel):
        for x, y in prism.corners:
            down[y] = max(down.get(y, x), x)
    return sorted((place.origin[0] + y, place.origin[1] - x) for y, x in down.items())


def at(line: list[tuple[Fraction, Fraction]], x: Fraction) -> Fraction:
    """The height of a line of points at `x`."""
    for (left, low), (right, high) in pairwise(line):
        if left <= x <= right:
            return low + (high - low) * (x - left) / (right - left)
    raise AssertionError(x)


def the_panel_stays_between_the_edge_and_the_grooves_bottom(leaf: Leaf) -> None:
    rail = leaf.parts[2]
    place = next(place for place in leaf.door.places if place.mark == rail.mark)
    edge, groove = (upper(prism) for prism in prisms(rail))
    line = panel_line(leaf)
    for x, bottom in groove.items():
        top = at(line, place.origin[0] + x) - place.origin[1]
        # At least the play at the end is left, and all but that and a step stands in the groove.
        assert edge[x] < top < bottom
        play = leaf.spec.panel.play_end
        assert bottom - top >= play * Fraction(9, 10)


def the_panels_corners_are_clear_of_the_tenons(leaf: Leaf) -> None:
    line = panel_line(leaf)
    for name, x in (("left", line[0][0]), ("right", line[-1][0])):
        stile = leaf.parts[0 if name == "left" else 1]
        slot = next(f for f in stile.features if f.kind == "slot" and f.at == "A")
        proud = leaf.spec.joint.proud
        bottom = leaf.door.size[1] + proud - (slot.box[0][1] - slot.box[0][0])
        sight = leaf.lights[0].left if name == "left" else leaf.lights[0].left + leaf.sight[0]
        assert at(line, x) < bottom
        assert at(line, sight) < bottom


def marks_are_the_corners_of_what_is_taken_off(leaf: Leaf) -> None:
    made = leaf.shaped
    assert made is not None
    edge = upper(prisms(leaf.parts[2])[0])
    start = min(edge)
    for mark in made.rail_marks:
        ends = {"left": (0,), "right": (1,), "either": (0, 1), "middle": (0,)}[mark.end]
        for end in ends:
            x = start + (made.curve.span - mark.at if end else mark.at)
            assert edge[x] == mark.height
