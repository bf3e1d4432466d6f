"""Mid rails and mullions: lights and members add up to the door, and every bar meets its
crosspieces."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from itertools import combinations, pairwise

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from sequencer.doors import BARS, Leaf, make_leaves
from sequencer.errors import Refusal
from sequencer.job.bars import Room, divide, rules, sights
from sequencer.job.checked import Checked
from sequencer.job.kinds import Bar
from sequencer.job.schema import Job
from sequencer.lengths import Unit
from sequencer.measured import Measured
from sequencer.methods import Choices
from sequencer.plan import Box, Part
from sequencer.records import replace
from tests.stages import to_leaves, to_parts, to_plan
from tests.strategies import doors, fine, lengths, units
from tests.told import name_of

HEAD = """
unit = "in"
species = "cherry"
[stock]
thickness = "3/4"
[joint]
bars = "{joint}"
[[door]]
[door.opening]
width = "15"
height = "20"
"""
STUB, T_BRIDLE = (HEAD.format(joint=joint) for joint in ("stub tenon", "T-bridle"))
MID_RAIL = '[[door.bar]]\nkind = "mid rail"\n'
MULLION = '[[door.bar]]\nkind = "mullion"\nwidth = "1"\n'


@st.composite
def bars(draw: st.DrawFn, unit: Unit) -> tuple[Bar, ...]:
    """Up to two mid rails and up to two mullions in some row or in all, of equal lights."""
    width = lengths(unit, "3/4", "2")
    mid_rails = [Bar("mid rail", draw(width), None) for _ in range(draw(st.integers(0, 2)))]
    rows = st.none() | st.integers(1, len(mid_rails) + 1)
    mullions = [
        Bar("mullion", draw(width), None, draw(rows)) for _ in range(draw(st.integers(0, 2)))
    ]
    return tuple(draw(st.permutations((*mid_rails, *mullions))))


@st.composite
def barred(draw: st.DrawFn) -> Leaf:
    """A leaf of a random door with bars, where there is room for them."""
    unit = draw(units)
    marks = [*"AB"][: draw(st.integers(1, 2))]
    made = draw(doors(unit, marks, "door"))
    made = replace(made, bars=draw(bars(unit)), year=None)
    joint = replace(made.joint, bars=draw(st.sampled_from(("stub tenon", "T-bridle"))))
    made = replace(made, joint=joint)
    assume(not list(rules(Checked(made, unit))))
    kerf = draw(fine(unit, "5/64", "5/32"))
    try:
        found = make_leaves([Job("job", "job.toml", unit, (made,))], kerf, Measured(), Choices())
    except (Refusal, ValueError):
        assume(False)
        raise
    return draw(st.sampled_from(found))


@given(barred())
def test_random_leaves(leaf: Leaf) -> None:
    every_row_and_the_whole_add_up(leaf)
    marks_go_on_from_five(leaf)
    bars_reach_their_crosspieces(leaf)
    both_edges_hold_what_fills_the_lights(leaf)
    panels_fill_their_lights(leaf)


def every_row_and_the_whole_add_up(leaf: Leaf) -> None:
    by_name = {name_of(part): part.size.width for part in leaf.parts}
    mullions = {part.mark: part.size.width for part in leaf.parts if part.role == "mullion"}
    stiles = sum(part.size.width for part in leaf.parts if part.role == "stile")
    rows: dict[Fraction, list[Fraction]] = {}
    for light in leaf.lights:
        rows.setdefault(light.bottom, []).append(light.width)
    heights = {light.bottom: light.height for light in leaf.lights}
    mid_rails = [part.size.width for part in leaf.parts if part.role == "mid rail"]
    assert len(rows) == len(mid_rails) + 1
    assert leaf.door.size[1] == sum(heights.values()) + sum(mid_rails) + (
        by_name["top-rail"] + by_name["bottom-rail"]
    )
    between = Fraction(0)
    for widths in rows.values():
        between += leaf.door.size[0] - stiles - sum(widths)
        assert len(widths) > 0
        # Equal lights, where no bar says where it stands.
        assert len(set(widths)) == 1
    assert between == sum(mullions.values())


def marks_go_on_from_five(leaf: Leaf) -> None:
    assert [part.mark for part in leaf.parts] == [
        f"{leaf.door.mark}{n}" for n in range(1, len(leaf.parts) + 1)
    ]
    roles = [part.role for part in leaf.parts]
    assert roles == sorted(roles, key=["stile", "rail", "mid rail", "mullion", "panel"].index)
    assert [place.mark for place in leaf.door.places] == [part.mark for part in leaf.parts]


def in_door(leaf: Leaf, part: Part, box: Box | None = None) -> Box:
    """A box of a part, or the whole of it, in its door's frame."""
    size = part.size
    zero = Fraction(0)
    box = box or ((zero, size.length), (zero, size.width), (zero, size.thickness))
    place = next(place for place in leaf.door.places if place.mark == part.mark)
    spans = {}
    for axis, span in zip(place.axes, box, strict=True):
        number = "xyz".index(axis[1])
        ends = [place.origin[number] + (end if axis[0] == "+" else -end) for end in span]
        spans[number] = (min(ends), max(ends))
    return (spans[0], spans[1], spans[2])


def bars_reach_their_crosspieces(leaf: Leaf) -> None:
    """What a crosspiece lacks for a bar lies where the bar is, and no further; a bar's end that is
    slotted or tenoned names what it meets."""
    parts = {part.mark: part for part in leaf.parts}
    for part in leaf.frame:
        for feature in part.features:
            if feature.kind == "housing":
                assert feature.mate is not None
                bar = in_door(leaf, parts[feature.mate.split("/")[0]])
                taken = in_door(leaf, part, feature.box)
                axis = 0 if part.role in ("rail", "mid rail") else 1
                assert bar[axis][0] <= taken[axis][0] < taken[axis][1] <= bar[axis][1]
        if part.role in BARS:
            ends = {f.at: f.mate for f in part.features if f.at in ("A", "B")}
            assert set(ends) == {"A", "B"}
            for mate in ends.values():
                assert mate is not None
                mark, edge = mate.split("/")
                here, there = in_door(leaf, part), in_door(leaf, parts[mark])
                axis = 0 if part.role == "mid rail" else 1
                # It reaches over the edge that it meets, and not past the other one.
                assert max(here[axis][0], there[axis][0]) < min(here[axis][1], there[axis][1])
                assert there[axis][0] <= here[axis][0] or here[axis][1] <= there[axis][1]
                assert edge in ("inside-edge", "outside-edge")


def both_edges_hold_what_fills_the_lights(leaf: Leaf) -> None:
    depth = leaf.sizes.groove_depth
    for part in leaf.frame:
        along = {f.at: f.box for f in part.features if f.kind == "groove"}
        edges = ("inside-edge", "outside-edge") if part.role in BARS else ("inside-edge",)
        assert set(along) == set(edges)
        assert along["inside-edge"][1] == (Fraction(0), depth)
        if part.role in BARS:
            assert along["outside-edge"][1] == (part.size.width - depth, part.size.width)


def panels_fill_their_lights(leaf: Leaf) -> None:
    """Each panel reaches over its light on all sides by the groove less its play; no two touch."""
    assert len(leaf.fills) == len(leaf.lights)
    depth, panel = leaf.sizes.groove_depth, leaf.spec.panel
    placed = [in_door(leaf, part) for part in leaf.fills]
    for (x, y, z), light in zip(placed, leaf.lights, strict=True):
        side, end = depth - panel.play_side, depth - panel.play_end
        assert x == (light.left - side, light.left + light.width + side)
        assert y == (light.bottom - end, light.bottom + light.height + end)
        assert leaf.sizes.groove[0] < z[0] < z[1] < leaf.sizes.groove[1]
    for one, other in combinations(placed, 2):
        assert any(a[1] < b[0] or b[1] < a[0] for a, b in zip(one[:2], other[:2], strict=True))


def test_a_mid_rail_by_hand() -> None:
    """A leaf of 14 13/16 × 19 13/16 with members of 2: sight 10 13/16 × 15 13/16. A mid rail of 2
    leaves two lights 6 29/32 high; with stub tenons it is 10 13/16 + 2 · 1/4 long."""
    (leaf,) = to_leaves(STUB + MID_RAIL)
    bar = leaf.parts[4]
    assert (bar.mark, name_of(bar), bar.role) == ("A5", "mid-rail", "mid rail")
    assert bar.size.length == Fraction(173, 16) + Fraction(1, 2)
    assert [light.height for light in leaf.lights] == [Fraction(221, 32)] * 2
    assert [light.bottom for light in leaf.lights] == [Fraction(349, 32), Fraction(2)]
    place = leaf.door.places[4]
    assert place.origin == (Fraction(7, 4), 2 + Fraction(221, 32), Fraction(0))


def test_a_mid_rail_on_t_bridles_reaches_to_the_stiles_outside() -> None:
    """It straddles stiles of 2 in: 10 13/16 + 2 · 2. The housings lie where it does: its upper edge
    is 19 13/16 + 5/64 − 10 29/32 below the stile's sawn end."""
    (leaf,) = to_leaves(T_BRIDLE + MID_RAIL)
    assert leaf.parts[4].size.length == Fraction(173, 16) + 4
    housings = [f.box[0] for f in leaf.parts[0].features if f.kind == "housing"]
    above = Fraction(317, 16) + Fraction(5, 64) - Fraction(349, 32)
    assert housings == [(above, above + 2)] * 2


def test_bars_stand_where_they_say() -> None:
    text = STUB + MID_RAIL + 'at = "12"\n' + MULLION + 'at = "6"\nrow = 2\n'
    (leaf,) = to_leaves(text)
    names = [name_of(part) for part in leaf.parts[4:]]
    assert names == ["mid-rail", "muntin", "panel 1", "panel 2", "panel 3"]
    assert in_door(leaf, leaf.parts[4])[1] == (Fraction(11), Fraction(13))
    assert in_door(leaf, leaf.parts[5])[0] == (Fraction("5.5"), Fraction("6.5"))
    assert [light.width for light in leaf.lights] == [
        Fraction(173, 16), Fraction("3.5"), 2 + Fraction(173, 16) - Fraction("6.5"),
    ]  # fmt: skip


def test_a_bar_is_as_wide_as_the_top_rail_unless_it_says() -> None:
    parts = to_parts(STUB + MID_RAIL + '[door.rails]\ntop = "2-1/2"\nbottom = "3"\n')
    assert parts["A5"].size.width == Fraction("2.5")


def test_with_glass_bars_are_rebated() -> None:
    parts = to_parts(T_BRIDLE + MID_RAIL + "[door.glass]\n")
    along = [(f.kind, f.at) for f in parts["A5"].features if f.at.endswith("edge")]
    assert along == [("rebate", "inside-edge"), ("rebate", "outside-edge")]


@pytest.mark.parametrize("joint", ["stub tenon", "T-bridle"])
def test_a_leaf_of_four_lights_is_proven(joint: str) -> None:
    text = HEAD.format(joint=joint) + MID_RAIL + MULLION + 'row = 1\nat = "5"\n'
    made = to_plan(text + MULLION + 'row = 2\nat = "8"\n')
    assert made.proven
    measured = [str(point.measure) for point in made.checkpoints]
    assert [m for m in measured if "light" in m] == [
        f"light-{what}:{n}" for n in range(1, 5) for what in ("width", "height")
    ]


@given(st.lists(st.tuples(st.integers(1, 40), st.integers(1, 8)), max_size=4, unique=True))
def test_stated_places_need_not_be_in_order(stated: list[tuple[int, int]]) -> None:
    """Whatever their order, bars divide the same room: lights and bars take turns."""
    made = [Bar("mullion", Fraction(width, 4), Fraction(at)) for at, width in stated]
    room = Room(Fraction(0), Fraction(0), Fraction(41), Fraction(10))
    division = divide(made, room)
    assert sum(light.width for light in division.lights) + sum(b.width for b in made) == 41
    for left, right in pairwise(division.mullions):
        assert left.room.left <= right.room.left
    assert sorted(placed.number for placed in division.mullions) == list(range(len(made)))


def leaf_rooms(leaf: Leaf) -> Iterator[Room]:
    yield from sights(leaf.spec, *leaf.door.size)


def test_a_pair_of_unlike_stiles_is_divided_leaf_by_leaf() -> None:
    """Equal lights within each leaf: the hinge stile is wider than the meeting stile, and the
    mullion stands in the middle of what is between them."""
    text = STUB.replace("[[door]]", '[[door]]\nleaves = 2\ngaps.meeting = "1/8"')
    text = text.replace('"15"', '"30"') + '[door.stiles]\nhinge = "2-1/2"\nmeeting = "2"\n'
    for leaf in to_leaves(text + MULLION):
        first, last = leaf.lights
        assert first.width == last.width
        assert first.left == (Fraction("2.5") if leaf.door.hinge == "left" else 2)
        assert Room(first.left, first.bottom, leaf.sight[0], leaf.sight[1]) in leaf_rooms(leaf)
