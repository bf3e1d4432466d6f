"""What is printed at its full size: story sticks, block and spacer strips, templates of shapes."""

from __future__ import annotations

from fractions import Fraction

from sequencer.instructions.figures import Scale
from sequencer.lengths import Unit
from sequencer.plan import Plan
from sequencer.sheets.fullsize.gauges import block_strips, spacer_strips
from sequencer.sheets.fullsize.paper import SIZES, Paper, document, page_svg, pages
from sequencer.sheets.fullsize.shaped import templates
from sequencer.sheets.fullsize.story import story_sticks
from sequencer.wording import for_plan, fullsize
from sequencer.wording.pages import language

__all__ = ["full_size"]

_TRUE: dict[Unit, Fraction] = {"in": Fraction(1, 64), "mm": Fraction(1, 2)}
"""How true printed paper is at best, over a page: ours. It stretches with the air's moisture."""


def full_size(plan: Plan, paper: Paper) -> str:
    """The pages as one HTML document, to be printed at 100 %."""
    room = for_plan(plan)
    scale = Scale.of(plan, room)
    drawings = [
        *story_sticks(plan, scale),
        *templates(plan, scale),
        *block_strips(plan, scale),
        *spacer_strips(plan, scale),
    ]
    title = room.text(fullsize.TITLE, job=", ".join(plan.jobs))
    told = (
        room.text(fullsize.CHECK),
        room.text(fullsize.TRUST, length=scale.told(_TRUE[plan.unit])),
    )
    made = [
        page_svg(placed, paper, title, " ".join(told), number)
        for number, placed in enumerate(pages(drawings, paper), 1)
    ]
    return document(made, SIZES[paper], title, language(room))
