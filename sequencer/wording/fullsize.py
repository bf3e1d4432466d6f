"""The words of what is printed at its full size, and of labels."""

from __future__ import annotations

from sequencer.wording.catalogue import _

TITLE = _("{job}: full size")
CHECK = _(
    "If a bar is not 100 mm long, do not measure from this sheet: print at 100 %, not fitted to "
    "the page."
)
UPRIGHT = _("Story stick, door {marks:comma}, upright, from the bottom")
ACROSS = _("Story stick, door {marks:comma}, across, from the left")
BLOCK = _("Block, setup {setups:comma}, {knob}: {length}")
SPACER = _("Spacer, setup {before} to {after}, {knob}: {length}")
TRUST = _("Paper is true to {length} at best: saw a block to its strip, and measure it.")
SHAPE = _("Template, {marks:comma}")

LABELS = _("{job}: labels")
STRIP = _("strip")
OF_STRIP = _("{name}, from {mark}")
OFFCUT = _("offcut of {mark}")
TEST = _("test piece")
STICK = _("Stick each on the {side}, its wedge at the {edge}.")

SHOWN = _("{job}: doors, parts and strips")
SHOWN_HOW = _(
    "Heavy outline: the marked face. Wedge: the inside edge. A and B: the ends. White bands: drawn "
    "shorter. Doors are seen from the room."
)
WHOLE_AND_APART = _("Door {marks:comma}, whole and pulled apart")
