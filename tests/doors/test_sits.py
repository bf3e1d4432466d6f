"""How leaves sit: lapping over their case, and over each other."""

from __future__ import annotations

from fractions import Fraction

from hypothesis import assume, given
from hypothesis import strategies as st

from sequencer.doors import Leaf
from sequencer.errors import InputError
from sequencer.facts import feels
from sequencer.lengths import mixed
from sequencer.plan import Box
from sequencer.saw.measures import What
from tests.stages import to_leaves, to_plan

HALF = Fraction(1, 2)
SINGLE = """
unit = "in"
species = "cherry"
[stock]
thickness = "3/4"
[[door]]
[door.opening]
width = "15"
height = "20"
"""
PAIR = (
    SINGLE.replace("[[door]]", '[[door]]\nleaves = 2\n[door.gaps]\nmeeting = "1/8"').replace(
        '"15"', '"30"'
    )
)  # fmt: skip
OVERLAY = '[door.sits]\nhow = "overlay"\n'


def rebated(rebate: str) -> tuple[Leaf, Leaf]:
    left, right = to_leaves(f'{PAIR}[door.meeting]\nrebate = "{rebate}"\n')
    return left, right


def test_an_overlay_door_is_larger_than_its_opening_by_its_laps() -> None:
    """15 + 2 · 3/8 by 20 + 1/2 + 3/8, its corner 3/8 before the opening's."""
    (leaf,) = to_leaves(SINGLE + OVERLAY + 'top = "1/2"\n')
    assert leaf.door.size == (Fraction("15.75"), Fraction("20.875"))
    assert leaf.door.at == (-Fraction(3, 8), -Fraction(3, 8))
    assert leaf.door.gaps == {
        "top": -HALF, "bottom": -Fraction(3, 8), "hinge": -Fraction(3, 8), "lock": -Fraction(3, 8),
    }  # fmt: skip


def test_an_overlay_pair_keeps_its_meeting_gap() -> None:
    """(30 + 2 · 1/2 − 1/8) / 2 each."""
    left, right = to_leaves(PAIR + OVERLAY + 'hinge = "1/2"\n')
    assert left.door.size[0] == right.door.size[0] == Fraction("15.4375")
    assert right.door.at[0] - left.door.at[0] - left.door.size[0] == Fraction(1, 8)
    assert left.door.gaps["meeting"] == Fraction(1, 8)


SIXTEENTHS = st.integers(1, 32).map(lambda n: Fraction(n, 16))


@given(st.lists(SIXTEENTHS, min_size=4, max_size=4), st.booleans())
def test_leaves_laps_and_gap_make_up_the_opening(laps: list[Fraction], pair: bool) -> None:
    said = "".join(
        f'{side} = "{mixed(lap)}"\n'
        for side, lap in zip(("top", "bottom", "hinge", "lock"), laps, strict=True)
        if not (pair and side == "lock")
    )
    made = to_leaves((PAIR if pair else SINGLE) + OVERLAY + said)
    top, bottom, hinge, lock = laps
    across = sum(leaf.door.size[0] for leaf in made)
    if pair:
        assert across + Fraction(1, 8) == 30 + 2 * hinge
    else:
        assert across == 15 + hinge + lock
    for leaf in made:
        assert leaf.door.size[1] == 20 + top + bottom
        assert leaf.door.at[1] == -bottom
    assert made[0].door.at[0] == -hinge


def test_in_millimetres_the_usual_lap_is_ten() -> None:
    text = SINGLE.replace('"in"', '"mm"').replace('"3/4"', '"19"').replace('"15"', '"380"')
    (leaf,) = to_leaves(text.replace('"20"', '"500"') + OVERLAY)
    assert leaf.door.size == (Fraction(400), Fraction(520))


def test_a_handle_gap_beside_laps() -> None:
    (leaf,) = to_leaves(SINGLE + OVERLAY + '[door.gaps]\ntop = "1/4"\n')
    assert leaf.door.size[1] == 20 - Fraction(1, 4) + Fraction(3, 8)


def test_an_overlay_doors_free_side_has_no_season() -> None:
    year = '[wood]\nmoisture = "8"\n[room]\nregion = "most of the US"\n'
    text = SINGLE.replace("[[door]]", year + "[[door]]")
    text = text.replace("[stock]\n", '[gaps]\nlock = "1/8"\n[stock]\n')
    (inset,), (overlay,) = to_leaves(text), to_leaves(text + OVERLAY)
    assert inset.season is not None
    assert inset.season.gap is not None
    assert overlay.season is not None
    assert overlay.season.gap is None
    assert overlay.season.panels


def test_rebated_leaves_by_hand() -> None:
    """Leaves that lap 3/8 are each 3/16 wider; between stiles of 2 the left one is
    (30 − 3/16 − 1/8 + 3/8) / 2 = 15 1/32 wide. Its stile loses 3/8 of its width at the front, to
    half the thickness, along all of the door; so do its rails' tenons, between what is planed
    flush, 5/64, and 3/8 further in."""
    left, right = rebated("3/8")
    plain, _ = to_leaves(PAIR)
    assert left.door.size[0] - plain.door.size[0] == Fraction(3, 16)
    proud, height = Fraction(5, 64), left.door.size[1]
    front, back = (Fraction(0), Fraction(3, 8)), (Fraction(3, 8), Fraction(3, 4))
    stile = (proud, proud + height)
    edge = (Fraction(13, 8), Fraction(2))
    length = left.parts[2].size.length
    end = (length - proud - Fraction(3, 8), length - proud)
    across = (Fraction(0), Fraction(2))
    assert {removal.mark: removal.box for removal in left.rebated} == {
        "A2": (stile, edge, front), "A3": (end, across, front), "A4": (end, across, front),
    }  # fmt: skip
    start = (proud, proud + Fraction(3, 8))
    assert {removal.mark: removal.box for removal in right.rebated} == {
        "B1": (stile, edge, back), "B3": (start, across, back), "B4": (start, across, back),
    }  # fmt: skip


def in_opening(leaf: Leaf, mark: str, box: Box) -> Box:
    place = next(place for place in leaf.door.places if place.mark == mark)
    spans = {}
    for axis, span in zip(place.axes, box, strict=True):
        number = "xyz".index(axis[1])
        ends = [place.origin[number] + (end if axis[0] == "+" else -end) for end in span]
        away = leaf.door.at[number] if number < 2 else 0
        spans[number] = (min(ends) + away, max(ends) + away)
    return (spans[0], spans[1], spans[2])


@given(
    st.integers(7, 20).map(lambda n: Fraction(n, 64)),
    st.integers(16, 64).map(lambda n: Fraction(n, 64)),
    st.sampled_from(("bridle", "stub tenon", "half-lap", "mitred bridle")),
)
def test_what_is_left_of_both_leaves_meets_over_the_gap(
    gap: Fraction, rebate: Fraction, joint: str
) -> None:
    """Front and back, the gap between the leaves is the one stated; what one loses lies before or
    behind what the other keeps."""
    text = PAIR.replace('"1/8"', f'"{mixed(gap)}"')
    text += f'[door.joint]\nkind = "{joint}"\n[door.meeting]\nrebate = "{mixed(rebate)}"\n'
    try:
        left, right = to_leaves(text)
    except InputError:
        assume(rebate >= gap + Fraction(1, 8))
        raise
    over = left.door.at[0] + left.door.size[0] - right.door.at[0]
    assert over == rebate - gap
    (one,) = (r.box for r in left.rebated if r.mark == "A2")
    (other,) = (r.box for r in right.rebated if r.mark == "B1")
    front, back = in_opening(left, "A2", one), in_opening(right, "B1", other)
    middle = left.sizes.thickness / 2
    assert front[2] == (Fraction(0), middle)
    assert back[2] == (middle, left.sizes.thickness)
    # The left leaf's front ends where its rebate begins, the right one's begins at its edge.
    assert right.door.at[0] - front[0][0] == gap
    assert back[0][1] - (left.door.at[0] + left.door.size[0]) == gap


def test_an_overlay_single_and_pair_are_proven() -> None:
    assert to_plan(SINGLE + OVERLAY).proven
    made = to_plan(PAIR + OVERLAY)
    laps = [point for point in made.checkpoints if point.measure.what is What.LAP]
    assert [point.measure.place for point in laps] == [
        "top",
        "bottom",
        "hinge",
    ]
    assert {point.target for point in laps} == {Fraction(3, 8)}


def test_a_rebated_pair_is_proven() -> None:
    made = to_plan(PAIR + '[door.meeting]\nrebate = "3/8"\n')
    assert made.proven
    kinds = [step.kind for step in made.steps]
    assert kinds.index("flush") < kinds.index("rebate meeting") < kinds.index("hang")
    said = [point.feel for point in made.checkpoints if point.measure.what is What.MEETING_WIDTH]
    assert said == [feels.LEFT_STAYS_SHUT(), feels.RIGHT_OPENS_FIRST()]
