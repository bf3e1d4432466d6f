"""What measures, and how it is told beside the number."""

from __future__ import annotations

from sequencer.trade.tools import ToolName
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
