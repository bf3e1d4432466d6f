"""The sheet that people show each other: doors whole and pulled apart, every part with its joints,
the strips with the hands of their pieces."""

from __future__ import annotations

from collections.abc import Sequence
from html import escape

from sequencer.plan import Plan
from sequencer.sheets.fullsize.paper import Paper
from sequencer.sheets.rounds.gathered import Shown, gathered
from sequencer.wording import for_plan, fullsize
from sequencer.wording.pages import language

_STYLE = (
    'body{margin:0;font:12pt/1.2 "DejaVu Sans",sans-serif}h1{font-size:17pt;margin:0 0 2pt}'
    "p{margin:0 0 6pt}.round{display:inline-block;vertical-align:top;margin:0 7pt 3pt 0;"
    "break-inside:avoid}.round p{max-width:260pt}"
)


def shown(plan: Plan, paper: Paper) -> str:
    """The pages as one HTML document."""
    room = for_plan(plan)
    made = gathered(plan, room)
    title = room.text(fullsize.SHOWN, job=", ".join(plan.jobs))
    leaves = [
        (each, room.text(fullsize.WHOLE_AND_APART, marks=tuple(each.marks.split(", "))))
        for each in made.leaves
    ]
    named = [(each, "") for each in (*made.parts, *made.strips)]
    style = f"@page{{size:{'letter' if paper == 'letter' else 'A4'};margin:11mm 10mm}}{_STYLE}"
    return (
        f'<!DOCTYPE html>\n<html lang="{language(room)}"><head>'
        f'<meta charset="utf-8"><title>{escape(title)}</title><style>{style}</style></head><body>'
        f"<h1>{escape(title)}</h1><p>{escape(room.text(fullsize.SHOWN_HOW))}</p>"
        f"{_figures(leaves)}{_figures(named)}</body></html>\n"
    )


def _figures(things: Sequence[tuple[Shown, str]]) -> str:
    """Each with its words under it; without any, its marks and its name."""
    return "".join(
        f'<div class="round">{"".join(each.pictures)}<p>'
        f"{escape(said) or f'<b>{escape(each.marks)}</b> {escape(each.name)}'}</p></div>"
        for each, said in things
    )
