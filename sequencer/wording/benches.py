"""What is done at the bench: a title and a sentence for each kind of step, by what fills the
doors."""

from __future__ import annotations

from collections.abc import Mapping
from fractions import Fraction

from msgspec import Struct

from sequencer.wording.catalogue import _, counted_


class BenchWords(Struct, frozen=True):
    """`barred` stands in for the title where the doors have bars."""

    title: str
    how: str
    barred: str = ""


_DRY_FIT = _("Fit the frame together dry")

BENCH: Mapping[str, Mapping[str, BenchWords]] = {
    "mill": {
        "": BenchWords(
            _("Mill all stock of a thickness together"),
            _(
                "Plane a face and an edge true, then bring to thickness, test strip included; mark "
                "both now."
            ),
        ),
    },
    "plane": {
        "": BenchWords(
            _("Plane the ripped edges"),
            _(
                "Plane off what the saw left, square to the marked face, down to the width on the "
                "cut list."
            ),
        ),
    },
    "dry fit": {
        "": BenchWords(
            _DRY_FIT,
            _(
                "Hand pressure closes every shoulder; nothing is driven. Measure before the panel "
                "is cut."
            ),
        ),
        "boards": BenchWords(
            _DRY_FIT,
            _(
                "Hand pressure closes every shoulder; nothing is driven. Measure before the boards "
                "are cut."
            ),
        ),
        "glass": BenchWords(
            _DRY_FIT,
            _(
                "Hand pressure closes every shoulder; nothing is driven. Measure the rebate before "
                "glass is ordered."
            ),
        ),
    },
    "trim": {
        "": BenchWords(
            _("Saw off the horns"),
            _(
                "What stands past the joints: after the dry fit, before glue, so that cramps bear "
                "on flat ends."
            ),
        ),
    },
    "finish": {
        "": BenchWords(
            _("Apply finish to the panel and the inside edges"),
            _("Before glue, so that no bare wood shows when the panel shrinks."),
        ),
        "boards": BenchWords(
            _("Apply finish to boards, tongues and inside edges"),
            _("Before glue, so that no bare tongue shows when the boards shrink."),
        ),
        "glass": BenchWords(
            _("Apply finish to the inside edges and the rebate"),
            _("Before glue: later the corners are hard to reach."),
        ),
        "slab": BenchWords(
            _("Apply finish to both faces and all edges alike"),
            _("Ends twice: a side left bare takes up water and the slab cups."),
        ),
    },
    "glue-up": {
        "": BenchWords(
            _("Glue the corners only"),
            _("The panel floats: no glue in the groove. Cramp across each corner's faces."),
            _("Glue the corners and bars only"),
        ),
        "boards": BenchWords(
            _("Glue the corners only"),
            _(
                "No glue between the boards, in the groove or on the tongues: they move. Cramp "
                "across each corner's faces."
            ),
            _("Glue the corners and bars only"),
        ),
        "glass": BenchWords(
            _("Glue the corners"),
            _("Wipe glue out of the rebate. Cramp across each corner's faces."),
            _("Glue the corners and bars"),
        ),
    },
    "edge glue-up": {
        "": BenchWords(
            _("Glue up the boards"),
            _(
                "Lay them out as they were marked; dry first, no light through a joint. Cramps "
                "above and below in turn, so that it stays flat."
            ),
        ),
    },
    "diagonals": {
        "": BenchWords(
            _("Compare the diagonals"),
            _("Unequal: shift the cramps toward the longer one."),
        ),
    },
    "flush": {
        "": BenchWords(
            _("Plane the ends and faces flush"),
            _("Work from the outside in, so that no edge breaks."),
        ),
        "slab": BenchWords(_("Plane the faces flush"), _("Diagonally first, then with the grain.")),
    },
    "glaze": {
        "": BenchWords(
            _("Bed the glass, fit the stops"),
            _(
                "When the finish is hard. Mitre the stops into each other and screw or pin them, "
                "no glue: the pane must come out again. It lies loose, with equal air all round."
            ),
        ),
    },
    "shape": {
        "": BenchWords(
            _("Saw the shaped edge to its line"),
            _(
                "Lay it out on the marked face from both ends, saw just outside the line, plane "
                "and scrape to it. Not proven by the saw: hold the edge to its line."
            ),
        ),
    },
    "shaped groove": {
        "": BenchWords(
            _("Groove along the shaped edge"),
            _(
                "Router with a slot cutter or an edge guide, in two passes, the second deeper, "
                "marked face to the guide. Not proven by the saw."
            ),
        ),
    },
    "shape panel": {
        "": BenchWords(
            _("Shape the panel's edge"),
            _(
                "Lay it out on the face, saw outside the line, and try it in its groove. Not "
                "proven by the saw."
            ),
        ),
    },
    "rebate meeting": {
        "": BenchWords(
            _("Rebate the meeting edges"),
            _(
                "On the finished doors, one from the face, the other from the back, so that they "
                "lap."
            ),
        ),
    },
    "hang": {
        "": BenchWords(_("Hang the door"), _("Check the gaps all round.")),
    },
}
"""By the kind of step and by the fill; without a row for the fill the one of a panel, "", holds."""

OF_THESE = _("{marks:comma}: {how}")

# Of which boards a strip is.
BOARDS = counted_(
    "{strips:comma} of {number} boards, {marks:comma}, {length} × {width} rough.",
    "{strips:comma} of {number} boards each, {marks:comma}, {length} × {width} rough.",
)
BOARDS_OPEN = counted_(
    "{strips:comma} of as many boards as the stock asks for, {length} long, together {width} wide "
    "and {more} more for each.",
    "{strips:comma} each of as many boards as the stock asks for, {length} long, together {width} "
    "wide and {more} more for each board.",
)
MATCH_BOARDS = _(
    "Boards: both edges true; laid as they are to lie, a triangle marked across each set."
)
FROM_TO = _("{first} to {last}")
GLUED_TO = _("{strips:comma}: at least {length} × {width} when glued.")

RESAWN = _(
    "{first} and {second} are one piece {thickness} thick, common practice: plane a face and an "
    "edge true, resaw it in the middle at the band saw ({width} high; no table saw), open it like "
    "a book. The two sawn faces match: mark them as the show faces, top and hinge side on both, "
    "then plane."
)

# How much comes off where.
OFF_ENDS = _("{amount} off {places}.")
BOTH_ENDS = _("both ends of {marks:comma}")
END_OF = _("{end} of {marks:comma}")
OFF_PIECES = _("{marks:comma}: {off}.")
OFF_END = _("{long} from {end}, {deep} from the {side}")
OFF_EDGE = _("{wide} off the {edge}")
OFF_CORNER = _("{wide} from the {edge}, {deep} from the {side}")
FOLLOWS = _("groove {width} wide, {place}, follows the shaped edge")

# What the year asks for.
LEAVE_PANELS = _("Leave {gap} at each side of {parts} today.")
PIN = _("A pin at the middle of the top and bottom rail keeps a panel centred.")
LEAVE_BOARDS = _("Leave {gap} between the boards {sets} today.")
BOARD_SET = _("{first} to {last}")
GAP_TURNS = _("{doors}: {side} gap {wettest:decimal} when wettest, {driest:decimal} when driest.")

# The columns of the marks that a shaped edge is laid out by.
FROM = _("from the {side}")
FROM_END = _("from {side}")
IN_FROM = _("in from the {side}")
IN_FROM_END = _("in from {side}")

BY_GAUGE = _(
    "Bevel gauge on the table against the plate, between teeth: {over} over in {high} up. Half a "
    "degree on the saw's scale shows at the rim: the test cut decides."
)

# What is turned when a measure is not good.
BY_DIFFERENCE = _("by that much")
BY_HALF = _("by half that")
IS = _("is")
AS_MEASURED = _("If step {steps:or} came out otherwise: {sum} =")
SUMMED: Mapping[Fraction, str] = {
    Fraction(1): _("{what} as measured"),
    Fraction(2): _("twice {what} as measured"),
    Fraction(1, 2): _("half of {what} as measured"),
}
"""How much of what was measured before is added up, or taken off."""
MIDDLE_OF = _("middle thickness of {strip}")
"""Of a strip, which is measured where it is thinnest and where it is thickest."""
BY_SHARE = _("by {share} of that")
NEW_END, NEW_ENDS = _(", new end"), _(", new ends")
NEW_STRIP = _(", new strip")
"""Where too much is gone to cut the same place again."""
LOWER = _("Too much{more}: lower blade {by}. Too little{less}: raise it.")
RAISE = _("Too much{more}: raise blade {by}. Too little{less}: lower it.")
TOWARD = _("Too much{more}: {knob} toward {by}. Too little{less}: away.")
AWAY = _("Too much{more}: {knob} away {by}. Too little{less}: toward.")
THICKER = _("Too much{more}: block thicker {by}, paper beside it. Too little{less}: thinner.")
THINNER = _("Too much{more}: block thinner {by}. Too little{less}: thicker, paper beside it.")

# The same of a fit that is tried by hand.
BY_PAPER = _("by the thickness of a sheet of paper")
BY_HALF_PAPER = _("by half the thickness of a sheet of paper")
BY_SHARE_OF_PAPER = _("by {share} of the thickness of a sheet of paper")
TIGHT_LOWER = _("Too tight: lower blade {by}. Too loose{less}: raise it.")
TIGHT_RAISE = _("Too tight: raise blade {by}. Too loose{less}: lower it.")
TIGHT_TOWARD = _("Too tight: {knob} toward {by}. Too loose{less}: away.")
TIGHT_AWAY = _("Too tight: {knob} away {by}. Too loose{less}: toward.")
TIGHT_THICKER = _("Too tight: block thicker {by}. Too loose{less}: thinner.")
TIGHT_THINNER = _("Too tight: block thinner {by}. Too loose{less}: thicker.")
