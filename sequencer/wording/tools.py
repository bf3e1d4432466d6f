"""What measures, and how it is told beside the number."""

from __future__ import annotations

from sequencer.trade.tools import How, ToolName
from sequencer.wording.catalogue import _

TOOLS: dict[ToolName, str] = {
    "caliper": _("caliper"),
    "rule": _("rule"),
    "tape": _("tape"),
    "fit": _("fit"),
}
READ_BY: dict[ToolName, str] = {
    "caliper": _("by caliper"),
    "rule": _("by rule"),
    "tape": _("by tape"),
    "fit": _("by its fit"),
}
SET_BY: dict[How, str] = {
    "block": _("by the block"),
    "mate": _("to fit"),
    "between marks": _("exactly"),
}
"""How a number is set that is no mark of its scale; the last stands beside its decimal."""
