"""How a cut is measured or tried, in words that begin small."""

from __future__ import annotations

from sequencer.facts import feels
from sequencer.wording.catalogue import Table, _

TEXTS: Table = {
    feels.WALL_BESIDE: _("the wall beside the {what}"),
    feels.EQUAL_WALLS: _("equal walls on both sides"),
    feels.CLEAN_WALLS: _("both walls clean; first break out what is left between the passes"),
    feels.SLIDES_IN: _("{what} slides in by hand and does not rattle"),
    feels.SLIDES_IN_CLEARED: _(
        "first break out what is left between the passes; then {what} slides in by hand and does "
        "not rattle"
    ),
    feels.SLOT_DEEP_ENOUGH: _("sooner over than under: the tenon's edge must reach the bottom"),
    feels.NEEDS_PLAY: _("sooner over than under: the {what} needs its play"),
    feels.BEVEL_SLIDES: _("in the frame's groove it slides in to there by hand, and no further"),
    feels.BESIDE_REBATE: _("the wood left beside the rebate"),
    feels.TONGUE_SLIDES: _("slides into the test strip's groove by hand and does not rattle"),
    feels.FROM_EDGE: _("from the edge; sooner over than under"),
    feels.FAR_SIDE: _("from the edge to the far side of the cut"),
    feels.EDGE_PASS_TAKES_REST: _(
        "sooner under than over: the pass with the edge down takes what is left in the corner"
    ),
    feels.ALIKE_ALONG: _("at the shoulder and at the end alike"),
    feels.LAPS_TOGETHER: _(
        "at the shoulder and at the end alike; a second one cut so and laid on it is as thick as "
        "the stock"
    ),
    feels.TENON_FITS: _(
        "slides into {into} by hand pressure and does not drop out upside down; it will not go in "
        "with a slip of paper beside it"
    ),
    feels.TONGUE_FITS: _("slides into {into} by hand pressure, with no rattle"),
    feels.OTHER_PIECE: _("the slot of the other test piece"),
    feels.OFFCUT: _("the groove of its strip's offcut"),
    feels.OWN_SLOT: _("its own slot in {mates}"),
    feels.SOME_OWN_SLOT: _("its own slot"),
    feels.CHEEK_TAKES_REST: _(
        "sooner under than over: the cheek cut takes what is left in the corner"
    ),
    feels.EDGE_CHEEK_TAKES_REST: _(
        "sooner under than over: the edge cheek takes what is left in the corner"
    ),
    feels.NO_WIDER_THAN_SLOT: _(
        "sooner over than under: the tenon must not be wider than its slot is deep"
    ),
    feels.OFF_BOTTOM: _(
        "sooner under than over: a tenon that is too wide keeps the joint from closing"
    ),
    feels.CLOSES_CORNER: _("sooner over than under: the other piece's edge is to close the corner"),
    feels.BETWEEN_SHOULDERS: _("cut both ends at this stop, then measure between the shoulders"),
    feels.HOOK_A_RULE: _("hook a rule over the end"),
    feels.HOUSING_FITS: _(
        "nibbled clean, the bar goes in by hand pressure and does not fall out; it will not go in "
        "with a slip of paper beside it"
    ),
    feels.UNDER_HOUSING: _("from the housing's bottom to the other face"),
    feels.MITRE_LINES: _("both ends, one from each fence: each line at 45° by a mitre square"),
    feels.MITRE_LAID_BARE: _("from the face that lay on the sled to the cut surface"),
    feels.EVERY_STRIP: _("at both ends and the middle of every strip"),
    feels.FIRST_OF_MANY: _(
        "hook a rule over the squared end; the next pieces are only as right as this one"
    ),
    feels.FIRST_PIECE: _(
        "cut the first piece, measure it, then go on. Not deep enough: raise the blade and cut it "
        "again. Too deep: it is spoiled; dial in on test piece {spare}, make the piece again"
    ),
    feels.ACROSS_GRAIN: _("across the grain, before finish; plane down a wider one"),
    feels.SLAB_ACROSS_GRAIN: _(
        "across the grain, at three places; a wider one closes its gap when it swells"
    ),
    feels.SLAB_ACROSS_GRAIN_LAPPING: _("across the grain, at three places"),
    feels.SLAB_CORNERS: _("corner to corner, both ways; finish both faces alike, or it cups"),
    feels.PANE_AS_CUT: _(
        "at both ends, before it is bedded; it lies in its rebate with air all round"
    ),
    feels.CLOSED_DRY: _(
        "together without force, every shoulder closed; write down what you measure"
    ),
    feels.CLOSED_DRY_STUBS: _(
        "together without force, every shoulder closed; where one stays open its stub tenon meets "
        "the groove’s bottom: pare the tenon’s end; write down what you measure"
    ),
    feels.CORNERS_INSIDE: _("corner to corner inside the frame, both ways"),
    feels.CORNERS_OUTSIDE: _("from stile end to stile end, outside, both ways"),
    feels.IN_CRAMPS: _("in the cramps, before the glue grabs: shift a cramp until both are equal"),
    feels.SPACERS: _(
        "a spacer in each; one nail or screw in the middle of each board, top and bottom, none "
        "through a tongue, no glue between them"
    ),
    feels.SPACERS_BY_RULE: _(
        "a spacer in each; one nail or screw in the middle of each board, top and bottom, none "
        "through a tongue, no glue between them; the gap is by rule of thumb, since the wood's "
        "movement is not known"
    ),
    feels.EVEN_LAP: _("even along the case's edge"),
    feels.EVEN_GAP: _("even from top to bottom; wood gains and loses width with the season"),
    feels.EVEN_GAP_CLOSES: _(
        "even from top to bottom; a narrower one closes in the wettest season"
    ),
    feels.RIGHT_OPENS_FIRST: _(
        "right leaf: it lies in front and opens first; along its whole meeting edge, across the "
        "rails' ends too"
    ),
    feels.LEFT_STAYS_SHUT: _(
        "left leaf: it stays shut; along its whole meeting edge, across the rails' ends too"
    ),
    feels.HALF_THICKNESS: _("half the thickness: both leaves' faces come flush when they are shut"),
    feels.SHAPE_ENDS: _("the shape begins and ends there; the piece below the tenons is cut away"),
    feels.TRAMMEL: _("with a trammel or compass, from the line square to the middle of the span"),
    feels.FROM_LOWER_EDGE: _("up from the lower edge as sawn; {along}"),
    feels.IN_DRY_FRAME: _("{along}; try it in the dry frame"),
    feels.STRAIGHT_LINE: _("a straight line from there to {to} as sawn"),
    feels.BATTEN: _("a batten bent through the marks; heights are rounded to {step:file}"),
    feels.FACE_DOWN: _("marked face down on the router table"),
    feels.SAME_PANEL: _("as in the stiles: try the same panel"),
    feels.SQUARE_TO_EDGE: _(
        "square to the edge, from shoulder to shoulder; sooner over than under"
    ),
    feels.RAILS_CENTRE: _("about the rail's own centre: it follows the arch in its groove"),
}
