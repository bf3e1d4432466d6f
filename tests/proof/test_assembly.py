"""Doors put together from pieces that are not what they should be: what does not fit is named.

The pieces are those of the hand-worked door, something taken off one of them after sawing.
"""

from __future__ import annotations

from fractions import Fraction as F  # noqa: N817

import pytest

from sequencer.errors import InternalError
from sequencer.plan import Box, Door, Plan
from sequencer.proof.assembly import assemble
from sequencer.proof.compare import Pieces, saw_and_compare
from sequencer.proof.grain import grain_of
from sequencer.proof.hanging import hang
from sequencer.proof.solid import cropped, difference
from sequencer.records import replace
from tests.proof import change, hand, leaves

PLAN = hand.make()
GRAIN = grain_of(PLAN)
PIECES = saw_and_compare(PLAN, GRAIN)
ZERO, WIDE, THICK = F(0), F(2), F(3, 4)
TINY = F(1, 64)
TENON, RAIL, STILE, SLOT = hand.TENON, hand.RAIL, hand.STILE, hand.SLOT_DEPTH


def pared(mark: str, box: Box) -> Pieces:
    """The pieces with something taken off one of them, at the saw already."""
    taken = leaves.wood(PLAN, mark, (GRAIN.box(box),))
    return replace(
        PIECES,
        sawn={**PIECES.sawn, mark: difference(PIECES.sawn[mark], taken)},
        finished={**PIECES.finished, mark: difference(PIECES.finished[mark], taken)},
    )


SLIPS: list[tuple[str, str, Box, str]] = [
    (
        "shoulder short in front",
        "A3",
        ((TENON, TENON + TINY), (ZERO, WIDE), (ZERO, F(1, 8))),
        "pieces=(A3, A1), door=A, what=fit.open-shoulder(face=side.show-face)",
    ),
    (
        "shoulder short behind, over half its width",
        "A4",
        ((RAIL - TENON - TINY, RAIL - TENON), (F(1), WIDE), (F(5, 8), THICK)),
        "pieces=(A4, A2), door=A, what=fit.open-shoulder(face=side.back)",
    ),
    (
        "no tenon",
        "A3",
        ((ZERO, TENON), (ZERO, WIDE), (ZERO, THICK)),
        "pieces=(A3, A1), door=A, what=fit.no-tenon",
    ),
    (
        "slot open to the front",
        "A1",
        ((F(1, 2), SLOT), (F(1, 8), F(15, 8)), (ZERO, F(1, 4))),
        "door=A, what=fit.gap-on-face(face=side.show-face, ",
    ),
    (
        "thin tenon",
        "A3",
        ((ZERO, TENON), (ZERO, WIDE), (F(31, 64), THICK)),
        "pieces=(A3, A1), door=A, what=fit.other-clearance(found=3/128 in, wanted=1/64 in)",
    ),
    (
        "thin stile",
        "A2",
        ((ZERO, STILE), (ZERO, WIDE), (F(23, 32), THICK)),
        "pieces=(A2, A1), door=A, what=fit.not-flush",
    ),
    (
        "narrow tenon",
        "A3",
        ((ZERO, TENON), (F(15, 8), WIDE), (ZERO, THICK)),
        "door=A, what=fit.gap-at-edge",
    ),
    (
        "a bite out of the outer edge",
        "A2",
        ((F(6), F(7)), (F(31, 16), WIDE), (ZERO, THICK)),
        "door=A, what=fit.gap-at-edge(edge=edge.right",
    ),
    (
        "groove through to the end, wider than the slot",
        "A1",
        ((ZERO, STILE), (ZERO, F(1, 4)), (F(3, 16), F(1, 2))),
        "door=A, what=fit.gap-at-edge(edge=edge.bottom",
    ),
    (
        "panel too narrow",
        "A5",
        ((ZERO, F(99, 8)), (ZERO, F(3, 16)), (ZERO, THICK)),
        "pieces=(A5, A1), door=A, what=fit.out-of-groove",
    ),
    (
        "panel too short",
        "A5",
        ((ZERO, F(3, 16)), (ZERO, F(67, 8)), (ZERO, THICK)),
        "pieces=(A5, A3), door=A, what=fit.out-of-groove",
    ),
]


@pytest.mark.parametrize(("what", "mark", "box", "message"), SLIPS, ids=[s[0] for s in SLIPS])
def test_what_does_not_fit_is_named(what: str, mark: str, box: Box, message: str) -> None:
    assert what
    with pytest.raises(InternalError) as error:
        assemble(PLAN, pared(mark, box), GRAIN)
    assert message in str(error.value)


def test_a_panel_that_fills_its_groove_has_no_play() -> None:
    """The panel 1/16 larger on every side stands on the groove's bottom."""
    x, y = F(99, 8) + F(1, 8), F(67, 8) + F(1, 8)
    whole = (GRAIN.box(((ZERO, x), (ZERO, y), (ZERO, hand.PANEL.thickness))),)
    pieces = replace(
        PIECES,
        sawn={**PIECES.sawn, "A5": whole},
        finished={**PIECES.finished, "A5": whole},
    )
    plan = change.place(PLAN, "A5", (-F(1, 16), F(1, 16), ZERO))
    with pytest.raises(InternalError, match=r"pieces=\(A5, A[1-4]\), door=A, what=fit.no-play"):
        assemble(plan, pieces, GRAIN)


def test_a_loose_tenon_is_refused_even_as_designed() -> None:
    """Without mates named there is no clearance to compare with; a 1/32 is too loose anyway."""
    plan = replace(
        PLAN,
        parts=tuple(
            replace(p, features=tuple(replace(f, mate=None) for f in p.features))
            for p in PLAN.parts
        ),
    )
    loose = pared("A3", ((ZERO, TENON), (ZERO, WIDE), (F(61, 128), THICK)))
    with pytest.raises(InternalError, match=r"fit\.loose-tenon\(by=1/32 in"):
        assemble(plan, loose, GRAIN)


def test_a_frame_needs_its_pieces() -> None:
    door = PLAN.doors[0]
    plan = replace(
        PLAN,
        doors=(replace(door, places=door.places[:3]),),
        parts=PLAN.parts[:3],
    )
    with pytest.raises(InternalError, match=r"fit\.frame-lacks"):
        assemble(plan, PIECES, GRAIN)


def test_what_is_proud_is_looked_at_only_after_trimming() -> None:
    across = cropped(PIECES.sawn["A3"], 0, (0, GRAIN.of(F(1, 32))))
    assert across  # the tenon's end stands 1/32 past the stile when the joint is dry
    assert not cropped(PIECES.finished["A3"], 0, (0, GRAIN.of(F(1, 32))))


def pair(**left: object) -> list[Door]:
    """Two leaves, 12 wide, in an opening 24-5/16 wide: 1/16 at the hinges, 3/16 between."""
    door = PLAN.doors[0]
    gaps = {"top": F(1, 16), "bottom": F(1, 16), "hinge": F(1, 16), "meeting": F(3, 16)}
    opening = (F(24) + F(5, 16), F(129, 8))
    one = replace(door, mark="A", pair=("A", "B"), opening=opening, gaps=gaps)
    other = replace(one, mark="B", hinge="right", at=(F(12) + F(1, 4), F(1, 16)))
    made: Door = replace(one, **left)  # type: ignore[arg-type]
    return [made, other]


def test_two_leaves_in_their_opening() -> None:
    hang(pair(), "in")


@pytest.mark.parametrize(
    ("left", "message"),
    [
        (
            {"size": (F(12) + F(1, 16), F(16))},
            "door=A, what=fit.other-gap(side=edge.free, found=1/8 in, wanted=3/16 in)",
        ),
        (
            {"at": (F(1, 8), F(1, 16))},
            "door=A, what=fit.other-gap(side=edge.hinge, found=1/8 in, wanted=1/16 in)",
        ),
        (
            {"at": (F(1, 16), F(0))},
            "door=A, what=fit.other-gap(side=edge.top, found=1/8 in, wanted=1/16 in)",
        ),
        (
            {"size": (F(12), F(15))},
            "door=A, what=fit.other-gap(side=edge.top, found=17/16 in, wanted=1/16 in)",
        ),
        (
            {"hinge": "right"},
            "door=A, what=fit.other-gap(side=edge.hinge, found=3/16 in, wanted=1/16 in)",
        ),
    ],
)
def test_leaves_that_do_not_hang_right(left: dict[str, object], message: str) -> None:
    with pytest.raises(InternalError) as error:
        hang(pair(**left), "in")
    assert message in str(error.value)


def test_no_leaf_has_a_gap_below_nothing_but_where_it_laps() -> None:
    """A leaf 1/16 over its opening's edge: not where that is to be a gap."""
    plan: Plan = change.door(PLAN, "A", at=(-F(1, 16), F(1, 16)), opening=(F(12), F(129, 8)))
    with pytest.raises(InternalError, match=r"side=edge.hinge, found=-1/16 in, wanted=1/16 in"):
        hang(plan.doors, "in")
