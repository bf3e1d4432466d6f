"""What measures in a shop, and by what its saw is set."""

from __future__ import annotations

from typing import Literal

ToolName = Literal["caliper", "rule", "tape", "fit"]
"""`fit`: tried against what it is to fit, where no tool at hand tells the one good size from the
next bad one."""

LEAST_STEPS = 2
"""A window of fewer steps of its tool is no check by number; ours."""

How = Literal["mark", "block", "mate", "between marks", "any"]
"""How a knob is set: to a mark of its scale, by a block at hand, from the piece that it is to fit
(and then tried), between two marks; or anywhere in a range, as the height of a through cut is."""
