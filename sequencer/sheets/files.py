"""The files that a plan is written as, a line each."""

from __future__ import annotations

from collections.abc import Callable, Mapping

from sequencer.contract import to_json
from sequencer.plan import Plan
from sequencer.sheets.render import pdf
from sequencer.sheets.tables import parts_csv, parts_ods

PDF = "plan.pdf"
"""The one that may be left out, and that is missing where WeasyPrint is."""

FILES: Mapping[str, Callable[[Plan, str], str | bytes]] = {
    PDF: lambda plan, page: pdf(page, to_json(plan)),
    "plan.html": lambda _, page: page,
    "parts.csv": lambda plan, _: parts_csv(plan),
    "parts.ods": lambda plan, _: parts_ods(plan),
    "plan.json": lambda plan, _: to_json(plan),
}
"""What makes each of a plan and its page, in the order in which they are told."""
