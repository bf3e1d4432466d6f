"""Wood is turned and shifted, never mirrored: from its strip to its place in the leaf.

The rule is worked out here from the convention alone, with vectors and matrices of whole numbers.
The room: x to the right, y up, z toward whoever looks: right-handed. A leaf is looked at from the
front: its x is to the right, its y up, and its z, toward the cabinet, away. A strip lies with its
show face toward the eye and its inside edge below: there a piece's y runs up from the inside edge
and its z, from the show face, away; its x, from end A, to the right if end A is to the left.
"""

from __future__ import annotations

from fractions import Fraction
from itertools import product

import pytest
from hypothesis import Phase, given, settings

from sequencer.errors import InputError, InternalError, Refusal
from sequencer.job.schema import Job, Shop
from sequencer.plan import Hand, Part, Place, Plan, StickPiece
from sequencer.proof import prove
from sequencer.records import replace
from tests.proof import change, hand
from tests.proof.test_random import planned
from tests.stages import to_plan
from tests.strategies import jobs_and_shops

Vector = tuple[int, int, int]
Point = tuple[Fraction, Fraction, Fraction]
Matrix = tuple[Vector, Vector, Vector]
"""Three columns: where the piece's x, y and z run in the room."""

DOOR: dict[str, Vector] = {"x": (1, 0, 0), "y": (0, 1, 0), "z": (0, 0, -1)}


def times(vector: Vector, by: int) -> Vector:
    x, y, z = vector
    return (by * x, by * y, by * z)


def dot(a: Vector, b: Vector) -> int:
    return a[0] * b[0] + a[1] * b[1] + a[2] * b[2]


def cross(a: Vector, b: Vector) -> Vector:
    return (
        a[1] * b[2] - a[2] * b[1],
        a[2] * b[0] - a[0] * b[2],
        a[0] * b[1] - a[1] * b[0],
    )


def determinant(of: Matrix) -> int:
    return dot(cross(of[0], of[1]), of[2])


def in_leaf(place: Place) -> Matrix:
    x, y, z = (times(DOOR[axis[1]], -1 if axis[0] == "-" else 1) for axis in place.axes)
    return (x, y, z)


def in_strip(end_a: Hand) -> Matrix:
    return ((1 if end_a == "left" else -1, 0, 0), (0, 1, 0), (0, 0, -1))


def inside(of: Matrix) -> str:
    """Seen on the show face with end A up. What looks at the eye is −z, what is up is −x; to the
    right is what makes with them a right-handed frame, right × up = toward the eye."""
    along, across, through = of
    up, eye = times(along, -1), times(through, -1)
    right = cross(up, eye)
    return {1: "right", -1: "left"}[dot(right, times(across, -1))]


def turned(before: Matrix, after: Matrix) -> Matrix:
    """The matrix that brings a piece's axes from the strip to the leaf: after · before⁻¹, which of
    axes at right angles is the transpose."""
    rows = [[sum(after[k][i] * before[k][j] for k in range(3)) for j in range(3)] for i in range(3)]
    columns = [(rows[0][j], rows[1][j], rows[2][j]) for j in range(3)]
    return (columns[0], columns[1], columns[2])


def carried(frame: Matrix, point: Point) -> Point:
    x, y, z = (sum((frame[n][i] * point[n] for n in range(3)), Fraction(0)) for i in range(3))
    return (x, y, z)


def check(plan: Plan) -> int:
    """How many pieces were brought from their strips into their leaves."""
    laid = {piece.mark: piece for stick in plan.sticks for piece in stick.pieces}
    parts = {part.mark: part for part in plan.parts}
    places = [place for door in plan.doors for place in door.places]
    for place in places:
        part, piece = parts[place.mark], laid[place.mark]
        lies, stands = in_strip(piece.end_a), in_leaf(place)
        assert part.inside is not None
        assert inside(lies) == inside(stands) == part.inside == piece.end_a
        by = turned(lies, stands)
        assert determinant(by) == 1
        for column in by:
            assert dot(column, column) == 1
        # Every corner comes to its place by that turn and one shift.
        size = (part.size.length, part.size.width, part.size.thickness)
        shifts = set()
        for x, y, z in product(*((Fraction(0), extent) for extent in size)):
            here, there = (carried(frame, (x, y, z)) for frame in (lies, stands))
            moved = carried(by, here)
            shifts.add(tuple(a - b for a, b in zip(there, moved, strict=True)))
        assert len(shifts) == 1
    return len(places)


def test_the_convention_by_hand() -> None:
    """A left stile, from its top, looks to its right into the leaf; a right one to its left."""
    stiles = {("-y", "-x", "+z"): "right", ("-y", "+x", "+z"): "left"}
    rails = {("+x", "+y", "+z"): "left", ("+x", "-y", "+z"): "right"}
    for axes, side in (stiles | rails).items():
        place = Place("A1", hand.make().doors[0].places[0].origin, axes)
        assert inside(in_leaf(place)) == side == place.inside
    for end in ("left", "right"):
        assert inside(in_strip(end)) == end


def test_the_determinant_says_the_hand() -> None:
    """In the leaf's own, left-handed frame it is −1 exactly for a piece whose inside is right."""
    own: dict[str, Vector] = {"x": (1, 0, 0), "y": (0, 1, 0), "z": (0, 0, 1)}
    origin = hand.make().doors[0].places[0].origin
    seen = set()
    for order in ("xyz", "xzy", "yxz", "yzx", "zxy", "zyx"):
        for a, b, c in product("+-", repeat=3):
            axes = (a + order[0], b + order[1], c + order[2])
            x, y, z = (times(own[axis[1]], -1 if axis[0] == "-" else 1) for axis in axes)
            side = "right" if determinant((x, y, z)) == -1 else "left"
            assert (
                Place("A1", origin, axes).inside
                == side
                == inside(in_leaf(Place("A1", origin, axes)))
            )
            seen.add(side)
    assert seen == {"left", "right"}


def test_the_hand_worked_door() -> None:
    assert check(hand.make()) == 5


def test_random_jobs_are_turned_and_shifted_into_their_leaves(large: bool) -> None:
    count = 0

    @settings(max_examples=400 if large else 10, phases=[Phase.explicit, Phase.generate])
    @given(jobs_and_shops())
    def go(asked: tuple[Job, Shop]) -> None:
        nonlocal count
        try:
            plan = planned(*asked)
        except (InputError, Refusal):
            return
        count += check(plan)

    go()
    assert count > 50


# --- what the proof refuses ---------------------------------------------------------------------

UNLIKE = """
unit = "in"
species = "cherry"
[stock]
thickness = "3/4"
[panel]
thickness = "1/4"
[rails]
top = "2"
bottom = "3"
[[door]]
name = "cupboard"
hinge = "left"
opening = { width = "16", height = "24" }
"""
"""Rails of two widths: each stile's slots differ in depth, so its ends are unlike."""


def unlike() -> Plan:
    return to_plan(UNLIKE)


def laid(plan: Plan, **values: object) -> Plan:
    """The plan with all its pieces laid out so."""
    return replace(
        plan,
        sticks=tuple(
            replace(
                stick,
                pieces=tuple(replace(each, **values) for each in stick.pieces),  # type: ignore[arg-type]
            )
            for stick in plan.sticks
        ),
    )


def stiles(plan: Plan) -> dict[str, StickPiece]:
    marks = {part.mark for part in plan.parts if part.role == "stile"}
    return {p.mark: p for stick in plan.sticks for p in stick.pieces if p.mark in marks}


def test_both_hands_in_one_strip_lie_head_to_tail() -> None:
    plan = unlike()
    assert {each.end_a for each in stiles(plan).values()} == {"left", "right"}
    assert not any(each.remarked for each in stiles(plan).values())
    (strip,) = (
        stick for stick in plan.sticks if stiles(plan).keys() <= {p.mark for p in stick.pieces}
    )
    assert strip.marked == "face"
    assert prove(plan) == plan.proven


@pytest.mark.parametrize("remarked", [False, True])
def test_a_strip_with_both_hands_laid_out_one_way_is_refused(remarked: bool) -> None:
    """Marked again or not: no turning makes one stile of the other."""
    plan = laid(unlike(), end_a="left", remarked=remarked)
    with pytest.raises(InternalError, match=r"piece=A1, "):
        prove(plan)


def test_a_hand_that_is_not_told_is_seen_in_the_leaf() -> None:
    """An older plan tells no hand: it is refused where its wood does not go into the leaf."""
    plan = laid(unlike(), end_a="left", remarked=False)
    parts: tuple[Part, ...] = tuple(replace(part, inside=None) for part in plan.parts)
    with pytest.raises(InternalError, match=r"fit\.mirrored"):
        prove(replace(plan, parts=parts))


def test_a_piece_of_equal_ends_may_be_marked_again_by_saying_so() -> None:
    plan = hand.make()
    assert all(part.either_hand for part in plan.parts)
    again = laid(plan, end_a="left", remarked=True)
    assert prove(again) == prove(plan)
    with pytest.raises(InternalError, match=r"piece=A1, what=proof.mirrored.wanted=right"):
        prove(laid(plan, end_a="left", remarked=False))


def test_a_place_of_the_other_hand_is_refused() -> None:
    plan = unlike()
    (door,) = plan.doors
    places = tuple(
        replace(place, axes=("-y", "-x", "-z")) if place.mark == "A1" else place
        for place in door.places
    )
    with pytest.raises(InternalError, match=r"piece=A1, what=fit.mirrored"):
        prove(change.door(plan, "A", places=places))


def test_unlike_ends_are_never_said_to_be_alike() -> None:
    plan = unlike()
    parts = {part.mark: part for part in plan.parts}
    assert not parts["A1"].either_hand
    strips = tuple(
        replace(s, pieces=tuple(replace(p, remarked=True) for p in s.pieces)) for s in plan.sticks
    )
    with pytest.raises(InternalError, match=r"proof\.unlike-ends"):
        prove(replace(plan, sticks=strips))
