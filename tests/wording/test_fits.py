"""What is said of pieces put together: each sentence once."""

from __future__ import annotations

import pytest

from sequencer.facts import Fact, fits
from sequencer.wording import Room
from tests.told import inch

SPOT = fits.SPOT(x=inch("0"), x1=inch("1 1/2"), y=inch("1"), y1=inch("2"))

SAID: list[tuple[Fact, str]] = [
    (
        fits.OF_PIECES(pieces=("A3", "A1"), door="A", what=fits.SAME_PLACE()),
        "putting together, piece A3 and A1, door A: they would have to be in the same place",
    ),
    (
        fits.OF_DOOR(door="A", what=fits.SAME_PLACE()),
        "putting together, door A: they would have to be in the same place",
    ),
    (
        fits.OF_PIECE(piece="A1", what=fits.SAME_PLACE()),
        "putting together, piece A1: they would have to be in the same place",
    ),
    (
        fits.OF_LEAVES(left="A", right="B", what=fits.SAME_PLACE()),
        "putting together, doors A and B: they would have to be in the same place",
    ),
    (SPOT, "x 0″ to 1 1/2″, y 1″ to 2″"),
    (fits.NO_PLACE(door="A"), "it has no place in door A"),
    (fits.NO_PIECE(mark="A1"), "there is no piece A1"),
    (fits.NO_FRAME(axes=("-y", "-y", "+z")), "the axes -y, -y, +z are not square to each other"),
    (
        fits.MIRRORED(side="left"),
        (
            "in its place its inside edge is on the left with end A up, "
            "and no turning of this piece brings it there"
        ),
    ),
    (fits.FRAME_LACKS(), "a framed door has two stiles, and rails between them"),
    (fits.SAME_PLACE(), "they would have to be in the same place"),
    (fits.NOT_FLUSH(), "its faces are not flush with the stile's"),
    (fits.MEETS_NOTHING(), "one of its ends meets no other piece"),
    (fits.NO_TENON(), "no tenon reaches into the slot"),
    (
        fits.OTHER_CLEARANCE(found=inch("1/16"), wanted=inch("1/8")),
        "the tenon has 1/16″ of clearance, not 1/8″",
    ),
    (fits.LOOSE_TENON(by=inch("1/32")), "the tenon is 1/32″ thinner than its slot"),
    (fits.UNLIKE_CLEARANCES(), "its tenons have unlike clearances"),
    (
        fits.OTHER_SIZE(
            width=inch("2"),
            height=inch("16"),
            x=inch("0"),
            y=inch("1"),
            wanted=inch("1/8"),
            by=inch("1/32"),
        ),
        "after trimming it is 2″ × 16″ from 0″, 1″, not 1/8″ × 1/32″",
    ),
    (
        fits.GAP_AT_EDGE(edge="edge.left", where=SPOT),
        "a gap shows at its left edge (x 0″ to 1 1/2″, y 1″ to 2″)",
    ),
    (
        fits.GAP_ON_FACE(face="side.show-face", where=SPOT),
        "a gap shows on its show face (x 0″ to 1 1/2″, y 1″ to 2″)",
    ),
    (fits.OPEN_SHOULDER(face="side.show-face"), "the shoulder is not closed on the show face"),
    (
        fits.BENCH_TAKES_WOOD(where=SPOT),
        "the bench takes off wood that it is to keep (x 0″ to 1 1/2″, y 1″ to 2″)",
    ),
    (fits.EMPTY_LIGHT(where=SPOT), "a light has nothing in it (x 0″ to 1 1/2″, y 1″ to 2″)"),
    (fits.IN_NO_LIGHT(), "it is in no light"),
    (fits.OUT_OF_GROOVE(), "it does not reach into the groove"),
    (fits.OUT_OF_REBATE(), "it does not reach into the rebate"),
    (fits.NO_PLAY(), "it cannot move in the groove"),
    (fits.NO_ROOM(), "it has no room in the rebate"),
    (fits.WOOD_IN_PLAY(), "wood stands where it is to move"),
    (
        fits.NOT_FROM_BACK(where=SPOT),
        "it cannot be put in from the back (x 0″ to 1 1/2″, y 1″ to 2″)",
    ),
    (fits.NOT_HELD(), "it is not held between the frame's front and its back"),
    (fits.NO_TONGUE(), "no tongue reaches into the groove"),
    (fits.TONGUE_BESIDE(), "the tongue is not between the groove's cheeks"),
    (fits.TONGUE_STUCK(), "the tongue has no air at its groove's bottom"),
    (fits.NO_HINGE_SIDE(hinge="top"), "no door hangs on its “top”"),
    (
        fits.OTHER_GAP(side="edge.hinge", found=inch("1/16"), wanted=inch("1/8")),
        "the gap at its hinge side is 1/16″, not 1/8″",
    ),
    (fits.SEEN_THROUGH(), "between them one sees through"),
]


@pytest.mark.parametrize(("fact", "words"), SAID, ids=[fact.id for fact, _ in SAID])
def test_what_is_said(fact: Fact, words: str) -> None:
    assert Room("UK").say(fact) == words


def test_every_sentence_is_in_the_table() -> None:
    assert {fact.kind for fact, _ in SAID} == set(fits.kind_of.kinds.values())
