"""The page above the saw on paper of two sheets: A3, or 11 by 17 inches."""

from __future__ import annotations

from sequencer.instructions.figures import Scale
from sequencer.plan import Plan
from sequencer.sheets.blocks import blocks
from sequencer.sheets.front import front
from sequencer.sheets.heights import WIDE
from sequencer.sheets.pinned import LARGE, pinned
from sequencer.sheets.render import SIDES, Paper, environment
from sequencer.wording import for_plan
from sequencer.wording.pages import language


def above(plan: Plan, paper: Paper, evenings: int | None = None) -> str:
    """The pages as one HTML document, on two sheets of `paper` each; a page an evening."""
    room = for_plan(plan)
    scale = Scale.of(plan, room)
    made = blocks(plan, scale)
    size, times, _ = LARGE[paper]
    fields = {
        "language": language(room),
        "front": front(plan, scale),
        "pinned": pinned(plan, made, f"{paper} twice", room, evenings=evenings),
        "paper": paper,
        "short": False,
        "size": size,
        "times": times,
        "wide": WIDE[paper] * times,
        "side": (SIDES[paper] - WIDE[paper]) / 2 * times,
    }
    return environment(None, room).get_template("above.html.j2").render(fields) + "\n"
