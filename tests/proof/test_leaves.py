"""Leaves of every kind go together, and whatever is a little wrong with one is named.

The leaves are worked out by hand in `leaves.py`; each slip takes something off a piece, adds
something to one, or moves one.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from fractions import Fraction as F  # noqa: N817

import pytest

from sequencer.errors import InternalError
from sequencer.facts import proofs
from sequencer.plan import Box, Feature, Pane, Plan, Prism
from sequencer.proof import _together, _trusted
from sequencer.proof.compare import Pieces, designs_of
from sequencer.proof.grain import grain_of
from sequencer.proof.hands import in_hand
from sequencer.proof.hanging import hang
from sequencer.proof.prisms import cells_of
from sequencer.proof.solid import Solid, difference
from sequencer.records import replace
from tests.proof import change, leaves
from tests.proof.leaves import DEEP, FRONT, MEMBER, SLOT, TENON, H, T, W, box, prism

ALL, THICK = (0, MEMBER), (0, T)

GOOD: dict[str, tuple[Callable[[], Plan], F]] = {
    "flat panel": (leaves.flat, F(1, 4)),
    "half-lap": (lambda: leaves.flat("half-lap"), F(0)),
    "mitred bridle": (lambda: leaves.flat("mitred bridle"), F(1, 4)),
    "stub tenon": (lambda: leaves.flat("stub tenon"), F(1, 4)),
    "raised panel": (leaves.raised, F(1, 4)),
    "boards": (leaves.boarded, F(1, 4)),
    "glass": (leaves.glazed, F(1, 4)),
    "mid rail, T-bridle": (leaves.divided, F(1, 4)),
    "mid rail, stub tenon": (lambda: leaves.divided("stub tenon"), F(1, 4)),
    "mid rail, all stub tenons": (lambda: leaves.divided("stub tenon", "stub tenon"), F(1, 4)),
    "panes, T-bridle": (leaves.barred, F(1, 4)),
    "mullion": (leaves.mullioned, F(1, 4)),
    "arched": (leaves.arched, F(1, 4)),
    "slab": (leaves.slab, F(0)),
}
"""Each with the clearance of its joints: slot or groove 6 wide less a tenon of 23/4."""


@pytest.mark.parametrize("kind", GOOD)
def test_a_leaf_goes_together(kind: str) -> None:
    make, clearance = GOOD[kind]
    assert leaves.together(make()) == clearance


@dataclass(frozen=True)
class Slip:
    """What is done to a leaf: boxes or prisms taken off pieces or put on them, in a piece's frame;
    or the plan changed first."""

    leaf: Callable[[], Plan]
    message: str
    off: tuple[tuple[str, Box | Prism], ...] = ()
    on: tuple[tuple[str, Box], ...] = ()
    first: Callable[[Plan], Plan] | None = None


def off(leaf: Callable[[], Plan], message: str, *taken: tuple[str, Box | Prism]) -> Slip:
    return Slip(leaf, message, off=taken)


def but(leaf: Callable[[], Plan], message: str, first: Callable[[Plan], Plan]) -> Slip:
    return Slip(leaf, message, first=first)


def moved(mark: str, x: int | F = 0, y: int | F = 0, z: int | F = 0) -> Callable[[Plan], Plan]:
    return lambda plan: change.place(plan, mark, (F(x), F(y), F(z)))


def without(mark: str) -> Callable[[Plan], Plan]:
    def left_out(plan: Plan) -> Plan:
        places = tuple(place for place in plan.doors[0].places if place.mark != mark)
        parts = tuple(part for part in plan.parts if part.mark != mark)
        return change.door(replace(plan, parts=parts), "A", places=places)

    return left_out


def features(mark: str, of: Callable[[Feature], Feature | None]) -> Callable[[Plan], Plan]:
    """Some of a part's features otherwise; `None` leaves one out."""

    def changed(plan: Plan) -> Plan:
        (part,) = (part for part in plan.parts if part.mark == mark)
        kept = tuple(new for feature in part.features if (new := of(feature)) is not None)
        return change.part(plan, mark, features=kept)

    return changed


def pane(of: Box) -> Callable[[Plan], Plan]:
    return lambda plan: change.door(plan, "A", panes=(Pane("A5", of),))


def half_lap() -> Plan:
    return leaves.flat("half-lap")


def mitred() -> Plan:
    return leaves.flat("mitred bridle")


def stub() -> Plan:
    return leaves.flat("stub tenon")


def bar_stub() -> Plan:
    return leaves.divided("stub tenon")


def glass_in_a_groove() -> Plan:
    parts, places = leaves.frame()
    return leaves.leaf(parts, places, [Pane("A5", box((42, W - 42), (42, H - 42), (7, 10)))])


def as_long(feature: Feature) -> Feature:
    """The back cheek of a glazed door's rail as long as the front one."""
    if feature.kind == "cheek" and feature.box[2][1] == T:
        x = leaves.span(feature.at, W, MEMBER)
        return replace(feature, box=box(x, ALL, (TENON, T)))
    return feature


def short_slot(feature: Feature) -> Feature:
    if feature.kind == "slot" and feature.at == "A":
        return replace(feature, box=box((0, 39), ALL, (FRONT, SLOT)))
    return feature


def steep(feature: Feature) -> Feature:
    """A bevel that leaves the panel 6 thick at the groove's lip."""
    wedge = prism("yz", [(0, 0), (30, 0), (30, 2), (0, 4)], feature.box[0])
    first = feature.at == "inside-edge"
    return replace(feature, prism=wedge, box=wedge.box) if first else feature


RAIL_END = (0, MEMBER)
SLIPS: dict[str, Slip] = {
    # corner half-lap
    "laps apart": off(
        half_lap, "(A3, A1), door=A, what=fit.other-clearance(found=1 mm, wanted=0 mm",
        ("A3", box(RAIL_END, ALL, (FRONT, FRONT + 1))),
    ),
    "a lap too narrow": off(
        half_lap, "door=A, what=fit.gap-at-edge(edge=edge.left",
        ("A3", box(RAIL_END, (DEEP, DEEP + 1), THICK)),
    ),
    "a lap's shoulder short in front": off(
        half_lap, "(A4, A2), door=A, what=fit.open-shoulder(face=side.show-face",
        ("A4", box((W - MEMBER - 1, W - MEMBER), ALL, (0, FRONT))),
    ),
    # mitred bridle
    "a mitre that does not close": off(
        mitred, "(A3, A1), door=A, what=fit.open-shoulder(face=side.show-face",
        ("A3", prism("xy", [(0, 50), (1, 50), (51, 0), (50, 0)], (0, FRONT))),
    ),
    "a mitre cut too little": but(
        mitred, "(A1, A3), door=A, what=fit.same-place",
        features("A3", lambda f: f if f.kind != "mitre" or f.at == "B" else replace(
            f, prism=prism("xy", [(0, 0), (49, 0), (0, 49)], (0, FRONT)))),
    ),
    "a mitred bridle's thin tenon": off(
        mitred, "(A3, A1), door=A, what=fit.other-clearance(found=1/2 mm, wanted=1/4 mm",
        ("A3", box(RAIL_END, ALL, (F(23, 2), TENON))),
    ),
    "a mitred bridle's back shoulder short": off(
        mitred, "(A3, A2), door=A, what=fit.open-shoulder(face=side.back",
        ("A3", box((W - MEMBER - 1, W - MEMBER), ALL, (TENON, T))),
    ),
    # stub tenon
    "a stub that is short of the groove's bottom": off(
        stub, "door=A, what=fit.gap-at-edge(edge=edge.top", ("A3", box((0, 1), ALL, THICK)),
    ),
    "a stub's shoulder short": off(
        stub, "(A3, A1), door=A, what=fit.open-shoulder(face=side.show-face",
        ("A3", box((DEEP, DEEP + 1), ALL, (0, FRONT))),
    ),
    "a thick stub": but(
        stub, "(A1, A3), door=A, what=fit.same-place",
        features("A3", lambda f: None if f.kind == "cheek" and f.at == "A" else f),
    ),
    "a thin stub": off(
        stub, "(A4, A2), door=A, what=fit.other-clearance(found=5/4 mm, wanted=1/4 mm",
        ("A4", box((W - 90, W - 80), ALL, (FRONT, FRONT + 1))),
    ),
    # raised panel
    "a bevel too thick for the groove": but(
        leaves.raised, "(A1, A5), door=A, what=fit.same-place",
        features("A5", steep),
    ),
    "a raised panel off centre jams": but(
        leaves.raised, "(A2, A5), door=A, what=fit.same-place",
        moved("A5", x=2),
    ),
    "a raised panel too narrow": off(
        leaves.raised, "(A5, A2), door=A, what=fit.out-of-groove",
        ("A5", box((0, 316), (208, 216), (0, 10))),
    ),
    # panels
    "wood in a panel's play": Slip(
        leaves.flat, "(A5, A1), door=A, what=fit.wood-in-play",
        on=(("A1", box((150, 170), (9, 10), (FRONT, SLOT))),),
    ),
    "a panel behind the frame": but(
        leaves.flat, "(A5), door=A, what=fit.not-held",
        moved("A5", z=15),
    ),
    "nothing in the light": but(
        leaves.flat, "door=A, what=fit.empty-light", without("A5"),
    ),
    "a panel with a hole": off(
        leaves.flat, "door=A, what=fit.out-of-groove",
        ("A5", box((100, 110), (100, 110), (0, 6))),
    ),
    # boards
    "a tongue that is too short": off(
        leaves.boarded, "(A5, A6), door=A, what=fit.no-tongue",
        ("A5", box((0, 316), (74, 78), (0, 6))),
    ),
    "a tongue on the groove's bottom": but(
        leaves.boarded, "(A6, A7), door=A, what=fit.tongue-stuck",
        features("A7", lambda f: replace(f, box=box((0, 316), (0, 4), f.box[2]))),
    ),
    "a tongue longer than its groove": but(
        leaves.boarded, "(A6, A7), door=A, what=fit.same-place",
        features("A7", lambda f: replace(f, box=box((0, 316), (0, 3), f.box[2]))),
    ),
    "a groove without its back cheek": off(
        leaves.boarded, "(A5, A6), door=A, what=fit.tongue-beside",
        ("A6", box((0, 316), (0, 8), (F(7, 4), 6))),
    ),
    "a board without its top": off(
        leaves.boarded, "(A6, A3), door=A, what=fit.out-of-groove",
        ("A6", box((0, 8), (0, 78), (0, 6))),
    ),
    "an outer board hard in its groove": but(
        leaves.boarded, "(A5, A1), door=A, what=fit.no-play", moved("A5", x=-2),
    ),
    "a board left out": but(
        leaves.boarded, "door=A, what=fit.out-of-groove", without("A7"),
    ),
    # glass
    "a glazed rail with shoulders of one length": but(
        leaves.glazed, "door=A, what=fit.gap-at-edge(edge=edge.top", features("A3", as_long),
    ),
    "a pane that fills its rebate": but(
        leaves.glazed, "(A5, A1), door=A, what=fit.no-room",
        pane(box((40, W - 42), (42, H - 42), (FRONT, 9))),
    ),
    "a pane too large": but(
        leaves.glazed, "(A2, A5), door=A, what=fit.same-place",
        pane(box((42, W - 39), (42, H - 42), (FRONT, 9))),
    ),
    "a pane no larger than the light": but(
        leaves.glazed, "(A5, A3), door=A, what=fit.out-of-rebate",
        pane(box((42, W - 42), (42, H - 50), (FRONT, 9))),
    ),
    "a pane as thick as the rebate": but(
        leaves.glazed, "(A5), door=A, what=fit.not-held",
        pane(box((42, W - 42), (42, H - 42), (FRONT, T))),
    ),
    "a pane in a groove": but(
        glass_in_a_groove, "(A5), door=A, what=fit.not-from-back", lambda plan: plan,
    ),
    # bars
    "a T-bridle's tongue too thin": off(
        leaves.divided, ("(A5, A1), door=A, "
"what=fit.other-clearance(found=5/4 mm, wanted=1/4 mm"),
        ("A1", box((H - 225, H - 175), ALL, (FRONT, FRONT + 1))),
    ),
    "a housing wider than its bar": off(
        leaves.divided, "door=A, what=fit.gap-",
        ("A1", box((H - 226, H - 225), ALL, (0, FRONT))),
    ),
    "a housing narrower than its bar": but(
        leaves.divided, "(A1, A5), door=A, what=fit.same-place",
        features("A1", lambda f: f if f.at != "back" else replace(
            f, box=box((H - 224, H - 175), ALL, f.box[2]))),
    ),
    "a bar short of the outer edge": off(
        leaves.divided, ("door=A, "
"what=fit.gap-at-edge(edge=edge.left"), ("A5", box((0, 1), ALL, THICK)),
    ),
    "a bar's slot too shallow": but(
        leaves.divided, "(A1, A5), door=A, what=fit.same-place",
        features("A5", short_slot),
    ),
    "a thin tongue between panes": off(
        leaves.barred, "(A5, A2), door=A, what=fit.other-clearance(found=5/8 mm, wanted=1/4 mm",
        ("A2", box((H - 212, H - 188), ALL, (0, F(13, 2)))),
    ),
    "a pane under a bar": but(
        leaves.barred, "(A5, A6), door=A, what=fit.same-place",
        lambda plan: change.door(plan, "A", panes=(
            Pane("A6", box((42, W - 42), (200, H - 42), (FRONT, 9))), plan.doors[0].panes[1])),
    ),
    "an empty light": but(leaves.divided, "door=A, what=fit.empty-light(where=fit.spot(x=50 mm",
                          without("A7")),
    "a bar's shoulder short": off(
        bar_stub, "(A5, A2), door=A, what=fit.open-shoulder(face=side.back",
        ("A5", box((209, 210), ALL, (TENON, T))),
    ),
    "a bar that meets nothing": but(
        leaves.mullioned, "(A5), door=A, what=fit.meets-nothing",
        moved("A5", y=1000),
    ),
    "a mullion that is short": off(
        leaves.mullioned, "(A5, A4), door=A, what=fit.no-tenon",
        ("A5", box((310, 320), ALL, THICK)),
    ),
    "a mullion's thin tenon": off(
        leaves.mullioned, ("(A5, A3), door=A, "
"what=fit.other-clearance(found=1/2 mm, wanted=1/4 mm"),
        ("A5", box((0, DEEP), ALL, (F(23, 2), TENON))),
    ),
    # arched rail
    "a panel that does not follow the arch": off(
        leaves.arched, "(A5, A3), door=A, what=fit.out-of-groove",
        ("A5", prism("xy", [(8, 100), (20, 100), (20, 116), (8, 116)], (0, 6))),
    ),
    "a panel that stands against the arch": but(
        leaves.arched, "(A5, A3), door=A, what=fit.no-play",
        lambda plan: replace(plan, doors=moved("A5", y=2)(plan).doors),
    ),
    # slab
    "a slab of another size": but(
        leaves.slab, "door=A, what=fit.other-size(width=300 mm, height=400 mm",
        lambda plan: change.door(plan, "A", size=(F(W), F(H + 1))),
    ),
    "a slab with a corner gone": off(
        leaves.slab, "door=A, what=fit.gap-at-edge(edge=edge.left",
        ("A1", box((0, 5), (0, 5), (0, 9))),
    ),
    "a slab with a hole in its face": off(
        leaves.slab, "door=A, what=fit.gap-on-face(face=side.show-face",
        ("A1", box((100, 105), (100, 105), (0, 9))),
    ),
}  # fmt: skip


@pytest.mark.parametrize("what", SLIPS)
def test_what_does_not_fit_is_named(what: str) -> None:
    slip = SLIPS[what]
    plan = slip.leaf()
    if slip.first is not None:
        plan = slip.first(plan)
    with pytest.raises(InternalError) as error:
        leaves.together(plan, altered(plan, slip))
    assert slip.message in str(error.value)


def altered(plan: Plan, slip: Slip) -> Pieces:
    grain = grain_of(plan)
    solids = dict(designs_of(plan, grain))
    for mark, shape in slip.off:
        taken: Solid
        taken = cells_of(shape, grain.parts) if isinstance(shape, Prism) else (grain.box(shape),)
        left = difference(solids[mark], leaves.wood(plan, mark, taken))
        assert left != solids[mark]
        solids[mark] = left
    for mark, added in slip.on:
        solids[mark] = (*solids[mark], *leaves.wood(plan, mark, (grain.box(added),)))
    return Pieces(solids, solids, in_hand(plan))


# --- how a leaf hangs -------------------------------------------------------------------------


def overlay(**gaps: int) -> Plan:
    """A leaf that laps 16 over its case on all sides."""
    laps = {"top": F(-16), "bottom": F(-16), "hinge": F(-16), "lock": F(-16)}
    opening = (F(W - 32), F(H - 32))
    plan = change.door(leaves.flat(), "A", gaps=laps, opening=opening, at=(F(-16), F(-16)))
    return change.door(plan, "A", gaps={**laps, **{side: F(gap) for side, gap in gaps.items()}})


def test_a_leaf_that_laps_over_its_case() -> None:
    assert leaves.together(overlay()) == F(1, 4)
    with pytest.raises(
        InternalError,
        match=r"door=A, what=fit.other-gap\(side=edge.top, found=-16 mm, wanted=-15 mm",
    ):
        leaves.together(overlay(top=-15))
    with pytest.raises(
        InternalError,
        match=r"door=A, what=fit.other-gap\(side=edge.free, found=-16 mm, wanted=2 mm",
    ):
        leaves.together(overlay(lock=2))


def test_a_leaf_laps_only_where_that_is_said() -> None:
    """It stands 2 over the case at its hinge: a slip where a gap is stated, as asked where a lap
    is."""
    over = change.door(leaves.flat(), "A", opening=(F(W), F(H + 4)), at=(F(-2), F(2)))
    with pytest.raises(
        InternalError,
        match=r"door=A, what=fit.other-gap\(side=edge.hinge, found=-2 mm, wanted=2 mm",
    ):
        hang(over.doors, over.unit)
    gaps = {**over.doors[0].gaps, "hinge": F(-2)}
    hang(change.door(over, "A", gaps=gaps).doors, over.unit)


def pair(overlap: int = 10, gap: int = 2) -> Plan:
    """Two leaves whose meeting stiles are rebated 10 wide and half the thickness deep, the left
    one's behind, the right one's in front, 2 apart."""
    one = leaves.flat()
    gaps = {"top": F(2), "bottom": F(2), "hinge": F(2), "meeting": F(gap)}
    opening = (F(2 + W + gap - overlap + W + 2), F(H + 4))
    left = replace(one.doors[0], pair=("A", "B"), gaps=gaps, opening=opening)
    places = tuple(replace(p, mark=p.mark.replace("A", "B")) for p in left.places)
    at = (F(2 + W + gap - overlap), F(2))
    right = replace(left, mark="B", hinge="right", places=places, at=at)
    parts = tuple(replace(part, mark=part.mark.replace("A", "B"), door="B") for part in one.parts)
    return replace(one, doors=(left, right), parts=(*one.parts, *parts))


def rebated(plan: Plan, left: int = 10, right: int = 10, middle: int = 9) -> Pieces:
    """The rebates cut last of all, through the tenons' ends: the meeting stiles are A2 and B1."""
    grain = grain_of(plan)
    sawn = designs_of(plan, grain)
    finished = dict(sawn)
    behind, before = (9, T), (0, middle)
    for mark, x, y, z in (
        ("A2", (0, H), (MEMBER - left, MEMBER), behind),
        ("A3", (W - left, W), ALL, behind),
        ("A4", (W - left, W), ALL, behind),
        ("B1", (0, H), (MEMBER - right, MEMBER), before),
        ("B3", (0, right), ALL, before),
        ("B4", (0, right), ALL, before),
    ):
        taken = leaves.wood(plan, mark, (grain.box(box(x, y, z)),))
        finished[mark] = difference(finished[mark], taken)
    return Pieces(sawn, finished, in_hand(plan))


def test_leaves_that_lap_over_each_other() -> None:
    plan = pair()
    assert leaves.together(plan, rebated(plan)) == F(1, 4)


@pytest.mark.parametrize(
    ("plan", "cut", "message"),
    [
        (pair(), {"middle": 8}, r"left=A, right=B, what=fit.same-place"),
        (pair(), {"left": 9}, r"door=B, what=fit.gap-at-edge\(edge=edge.bottom"),
        (
            pair(),
            {"left": 12, "right": 12},
            r"door=A, what=fit.other-gap\(side=edge.free, found=4 mm, wanted=2 mm",
        ),
        (
            pair(overlap=11, gap=3),
            {},
            r"door=A, what=fit.other-gap\(side=edge.free, found=2 mm, wanted=3 mm",
        ),
    ],
)
def test_leaves_that_do_not_lap_right(plan: Plan, cut: dict[str, int], message: str) -> None:
    with pytest.raises(InternalError, match=message):
        leaves.together(plan, rebated(plan, **cut))


def test_leaves_that_lap_close_the_gap_between_them() -> None:
    """Rebates right through let the light in; each leaf by itself has a void at that edge."""
    plan = pair()
    grain = grain_of(plan)
    pieces = rebated(plan)
    hole = leaves.wood(plan, "A2", (grain.box(box((100, 110), (MEMBER - 10, MEMBER), THICK)),))
    finished = {**pieces.finished, "A2": difference(pieces.finished["A2"], hole)}
    with pytest.raises(InternalError, match=r"left=A, right=B, what=fit.seen-through"):
        leaves.together(plan, replace(pieces, finished=finished))


def test_a_rebate_is_a_void_where_no_leaf_laps_over_it() -> None:
    plan = leaves.flat()
    grain = grain_of(plan)
    sawn = designs_of(plan, grain)
    taken = leaves.wood(plan, "A2", (grain.box(box((0, H), (MEMBER - 10, MEMBER), (9, T))),))
    finished = {**sawn, "A2": difference(sawn["A2"], taken)}
    with pytest.raises(InternalError, match=r"door=A, what=fit.gap-at-edge\(edge=edge.right"):
        leaves.together(plan, Pieces(sawn, finished, in_hand(plan)))


def test_what_the_bench_shapes_is_named_as_trusted() -> None:
    """The line of the proof names it; nothing else of the plan is looked at here."""
    assert list(_trusted(leaves.arched())) == [proofs.TRUSTED(pieces=("A3", "A5"))]
    assert list(_trusted(leaves.flat())) == []
    slab, glazed, boarded = (
        next(_together(plan)).given["shows"]
        for plan in (leaves.slab(), leaves.glazed(), leaves.boarded())
    )
    assert slab == (proofs.NO_GAP_OUTSIDE(), proofs.SIZES_AS_STATED())
    assert isinstance(glazed, tuple)
    assert proofs.PANES_HELD() in glazed
    assert isinstance(boarded, tuple)
    assert proofs.BOARDS_FREE() in boarded
