"""The words in the drawings, and what each drawing says to whoever cannot see it."""

from __future__ import annotations

from sequencer.wording.catalogue import _, counted_

# Before the saw.
DISTANCE = _("distance {length}")
KERF = _("kerf {width}")
HEIGHT, DEPTH = _("height"), _("depth")
DECK, FACE, FENCE = _("deck"), _("face"), _("fence")
TALL_FENCE = _("tall fence")
LEANS = _("blade leans {way}")
NEAR = _("near: {side}")
NO_HANDS = _("no hands")
ABOVE = _("{by}, above")
HELD = _("held by {by}, {side}")
NAMED = _("{mark}, {name}")
FINISHED, APART = _("{marks:comma} when finished"), _("{mark} pulled apart")
TEST_PIECE, STRIP = _("test piece"), _("strip")
SETUP_TRIMMED = _("Setup {number}: no stop, blade {height} high")
SETUP = _("Setup {number}: {guide} to blade {distance}, blade {height} high")

# On the mitre sled.
FROM_ABOVE = _("from above")
DOWN = _("{side} down")
DEEP = _("{depth} deep")
WASTE, NIBBLED = _("waste,"), _("nibbled away")
END_AT_STOP = _("{end} at stop")
OUTSIDE_EDGE, ON_SLANT = _("outside edge"), _("on the 45° fence")
STOP_TO_LINE = _("stop to kept line {length}")
PUSH = _("push")
ON_MITRE_SLED = _(
    "Setup {number}: mitre sled from above, {hand} fence, {end} at the stop, stop to kept line "
    "{distance}, blade {height} high"
)

# Pieces, strips, boards, doors.
FACE_BELOW, FACE_ABOVE = _("inside edge, face below"), _("inside edge, face above")
FROM_END_A = _("from end A")
PIECE_LACKS = _("Piece: {name}, lacks {kinds:comma}")
STRIP_OF = _("Strip {mark}: {marks:comma}")
BOARD_OF = _("Board {mark}: {marks:comma}")
DOOR_OF = _("Door {mark}, hinges {hinge}: {marks:comma}")
CHANGES = counted_(
    "Changes of each setting over {n} setup: {counts:comma}",
    "Changes of each setting over {n} setups: {counts:comma}",
)
BRACKETS = _(
    "Setups under one bracket do not wait for each other; settings and test cuts are printed for "
    "this order."
)

# The year.
SEASON = _("{season}, {moisture} %")
GAP_REACH = _("gap {gap}, reach {reach}")
GAP_TONGUE = _("gap {gap}, tongue {tongue}")
WIDTH = _("width {width}")
FREE_GAP = _("{side} gap {gap}")
SEASONS = _("Edges in their grooves and gaps in the driest season, today and in the wettest")
