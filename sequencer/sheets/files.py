"""The files that a plan is written as, a line each."""

from __future__ import annotations

from collections.abc import Callable, Mapping

from sequencer.contract import to_json
from sequencer.plan import Plan
from sequencer.sheets.above import above
from sequencer.sheets.fullsize import full_size
from sequencer.sheets.labels import labels
from sequencer.sheets.render import Paper, pdf
from sequencer.sheets.shown import shown
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

ASKED: Mapping[str, Callable[[Plan, Paper, int | None], str]] = {
    "above": above,
    "labels": lambda plan, paper, _: labels(plan, paper),
    "full-size": lambda plan, paper, _: full_size(plan, paper),
    "pictures": lambda plan, paper, _: shown(plan, paper),
}
"""What is made only where it is asked for, by the option's name, on some paper and for so many
evenings: HTML, and PDF from it."""


def asked_names(name: str) -> tuple[str, str]:
    """The files of one of these: what a browser prints, and the same as PDF."""
    return f"{name}.html", f"{name}.pdf"


ALL_NAMES = (*FILES, *(file for name in ASKED for file in asked_names(name)))
"""Every file that a plan may be written as."""
