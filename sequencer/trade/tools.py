"""What measures in a shop."""

from __future__ import annotations

from typing import Literal

ToolName = Literal["caliper", "rule", "tape", "fit"]
"""`fit`: tried against what it is to fit, where no tool at hand tells the one good size from the
next bad one."""

LEAST_STEPS = 2
"""A window of fewer steps of its tool is no check by number; ours."""
