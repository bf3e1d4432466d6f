"""What is said of how a cut is measured or tried: each sentence once."""

from __future__ import annotations

import pytest

from sequencer.facts import Fact, feels
from sequencer.wording import Room
from tests.told import inch

SAID: list[tuple[Fact, str]] = [
    (feels.WALL_BESIDE(what="slot"), "the wall beside the slot"),
    (feels.EQUAL_WALLS(), "equal walls on both sides"),
    (
        feels.CLEAN_WALLS(),
        "both walls clean; first break out what is left between the passes",
    ),
    (
        feels.SLIDES_IN(what="panels-edge"),
        "the panel's edge slides in by hand and does not rattle",
    ),
    (feels.SLOT_DEEP_ENOUGH(), "sooner over than under: the tenon's edge must reach the bottom"),
    (feels.NEEDS_PLAY(what="panel"), "sooner over than under: the panel needs its play"),
    (
        feels.BEVEL_SLIDES(),
        "in the frame's groove it slides in to there by hand, and no further",
    ),
    (feels.BESIDE_REBATE(), "the wood left beside the rebate"),
    (feels.TONGUE_SLIDES(), "slides into the test strip's groove by hand and does not rattle"),
    (feels.FROM_EDGE(), "from the edge; sooner over than under"),
    (feels.FAR_SIDE(), "from the edge to the far side of the cut"),
    (
        feels.EDGE_PASS_TAKES_REST(),
        "sooner under than over: the pass with the edge down takes what is left in the corner",
    ),
    (feels.ALIKE_ALONG(), "at the shoulder and at the end alike"),
    (
        feels.LAPS_TOGETHER(),
        (
            "at the shoulder and at the end alike; a second one cut so and laid on it is as thick "
            "as the stock"
        ),
    ),
    (
        feels.SLIDES_IN_CLEARED(what="panels-edge"),
        (
            "first break out what is left between the passes; then the panel's edge slides in by "
            "hand and does not rattle"
        ),
    ),
    (
        feels.TENON_FITS(into=feels.OTHER_PIECE()),
        (
            "slides into the slot of the other test piece by hand pressure and does not drop "
            "out upside down; it will not go in with a slip of paper beside it"
        ),
    ),
    (
        feels.TONGUE_FITS(into=feels.OFFCUT()),
        "slides into the groove of its strip's offcut by hand pressure, with no rattle",
    ),
    (feels.OTHER_PIECE(), "the slot of the other test piece"),
    (feels.OFFCUT(), "the groove of its strip's offcut"),
    (feels.OWN_SLOT(mates=("A1", "A2")), "its own slot in A1 and A2"),
    (feels.SOME_OWN_SLOT(), "its own slot"),
    (
        feels.CHEEK_TAKES_REST(),
        "sooner under than over: the cheek cut takes what is left in the corner",
    ),
    (
        feels.EDGE_CHEEK_TAKES_REST(),
        "sooner under than over: the edge cheek takes what is left in the corner",
    ),
    (
        feels.NO_WIDER_THAN_SLOT(),
        "sooner over than under: the tenon must not be wider than its slot is deep",
    ),
    (
        feels.OFF_BOTTOM(),
        "sooner under than over: a tenon that is too wide keeps the joint from closing",
    ),
    (
        feels.CLOSES_CORNER(),
        "sooner over than under: the other piece's edge is to close the corner",
    ),
    (
        feels.BETWEEN_SHOULDERS(),
        "cut both ends at this stop, then measure between the shoulders",
    ),
    (feels.HOOK_A_RULE(), "hook a rule over the end"),
    (
        feels.HOUSING_FITS(),
        (
            "nibbled clean, the bar goes in by hand pressure and does not fall out; it will "
            "not go in with a slip of paper beside it"
        ),
    ),
    (feels.UNDER_HOUSING(), "from the housing's bottom to the other face"),
    (
        feels.MITRE_LINES(),
        "both ends, one from each fence: each line at 45° by a mitre square",
    ),
    (
        feels.MITRE_LAID_BARE(),
        "from the face that lay on the sled to the cut surface",
    ),
    (feels.EVERY_STRIP(), "at both ends and the middle of every strip"),
    (
        feels.FIRST_OF_MANY(),
        "hook a rule over the squared end; the next pieces are only as right as this one",
    ),
    (
        feels.FIRST_PIECE(spare="#1b"),
        (
            "cut the first piece, measure it, then go on. Not deep enough: raise the blade and cut "
            "it again. Too deep: it is spoiled; dial in on test piece #1b, make the piece again"
        ),
    ),
    (feels.ACROSS_GRAIN(), "across the grain, before finish; plane down a wider one"),
    (
        feels.SLAB_ACROSS_GRAIN(),
        "across the grain, at three places; a wider one closes its gap when it swells",
    ),
    (feels.SLAB_ACROSS_GRAIN_LAPPING(), "across the grain, at three places"),
    (feels.SLAB_CORNERS(), "corner to corner, both ways; finish both faces alike, or it cups"),
    (
        feels.PANE_AS_CUT(),
        "at both ends, before it is bedded; it lies in its rebate with air all round",
    ),
    (
        feels.CLOSED_DRY(),
        "together without force, every shoulder closed; write down what you measure",
    ),
    (
        feels.CLOSED_DRY_STUBS(),
        (
            "together without force, every shoulder closed; where one stays open its stub tenon "
            "meets the groove’s bottom: pare the tenon’s end; write down what you measure"
        ),
    ),
    (feels.CORNERS_INSIDE(), "corner to corner inside the frame, both ways"),
    (feels.CORNERS_OUTSIDE(), "from stile end to stile end, outside, both ways"),
    (
        feels.IN_CRAMPS(),
        "in the cramps, before the glue grabs: shift a cramp until both are equal",
    ),
    (
        feels.SPACERS(),
        (
            "a spacer in each; one nail or screw in the middle of each board, top and bottom, "
            "none through a tongue, no glue between them"
        ),
    ),
    (
        feels.SPACERS_BY_RULE(),
        (
            "a spacer in each; one nail or screw in the middle of each board, top and bottom, "
            "none through a tongue, no glue between them; the gap is by rule of thumb, since "
            "the wood's movement is not known"
        ),
    ),
    (feels.EVEN_LAP(), "even along the case's edge"),
    (feels.EVEN_GAP(), "even from top to bottom; wood gains and loses width with the season"),
    (
        feels.EVEN_GAP_CLOSES(),
        "even from top to bottom; a narrower one closes in the wettest season",
    ),
    (
        feels.RIGHT_OPENS_FIRST(),
        (
            "right leaf: it lies in front and opens first; along its whole meeting edge, "
            "across the rails' ends too"
        ),
    ),
    (
        feels.LEFT_STAYS_SHUT(),
        "left leaf: it stays shut; along its whole meeting edge, across the rails' ends too",
    ),
    (
        feels.HALF_THICKNESS(),
        "half the thickness: both leaves' faces come flush when they are shut",
    ),
    (
        feels.SHAPE_ENDS(),
        "the shape begins and ends there; the piece below the tenons is cut away",
    ),
    (
        feels.TRAMMEL(),
        "with a trammel or compass, from the line square to the middle of the span",
    ),
    (
        feels.FROM_LOWER_EDGE(along=feels.STRAIGHT_LINE(to="the-other-shoulder")),
        "up from the lower edge as sawn; a straight line from there to the other shoulder as sawn",
    ),
    (
        feels.IN_DRY_FRAME(along=feels.STRAIGHT_LINE(to="the-other-corner")),
        "a straight line from there to the other corner as sawn; try it in the dry frame",
    ),
    (
        feels.STRAIGHT_LINE(to="the-other-shoulder"),
        "a straight line from there to the other shoulder as sawn",
    ),
    (
        feels.BATTEN(step=inch("0.001")),
        "a batten bent through the marks; heights are rounded to 0.001 in",
    ),
    (feels.FACE_DOWN(), "marked face down on the router table"),
    (feels.SAME_PANEL(), "as in the stiles: try the same panel"),
    (
        feels.SQUARE_TO_EDGE(),
        "square to the edge, from shoulder to shoulder; sooner over than under",
    ),
    (feels.RAILS_CENTRE(), "about the rail's own centre: it follows the arch in its groove"),
]


@pytest.mark.parametrize(("fact", "words"), SAID, ids=[fact.id for fact, _ in SAID])
def test_what_is_said(fact: Fact, words: str) -> None:
    assert Room("UK").say(fact) == words


def test_every_sentence_is_in_the_table() -> None:
    assert {fact.kind for fact, _ in SAID} == set(feels.kind_of.kinds.values())
