"""What else is laid out the night before: whatever a step asks for by name, with the steps."""

from __future__ import annotations

from collections.abc import Iterator

from sequencer.instructions import words
from sequencer.plan import Plan
from sequencer.stock.resaw import as_planned
from sequencer.wording import Room
from sequencer.wording import papers as said
from sequencer.wording.cautions import asked
from sequencer.wording.changes import block_words
from sequencer.wording.room import capitalised
from sequencer.wording.tools import TOOLS

_HOLDERS = ("push-stick", "push-block", "clamp")


def tools(plan: Plan, room: Room) -> tuple[str, ...]:
    """A line a tool: what measures, what holds, what a caution asks for, what is used at the
    bench."""
    found: dict[str, set[int]] = {}
    for name, step in _asked(plan, room):
        found.setdefault(name, set()).add(step)
    return tuple(
        room.counted(
            said.FOR_STEPS, len(steps), tool=capitalised(name), numbers=words.runs(sorted(steps))
        )
        for name, steps in found.items()
    )


def _asked(plan: Plan, room: Room) -> Iterator[tuple[str, int]]:
    for point in plan.checkpoints:
        if point.tool in TOOLS and point.tool != "fit":
            yield room.text(TOOLS[point.tool]), point.at_step
    warned = {setup.number: setup.cautions for setup in plan.setups}
    behind = {setup.number: setup.spacer for setup in plan.setups if setup.spacer}
    for step in plan.steps:
        if step.setup in behind and step.cuts:
            yield block_words(behind[step.setup], plan.unit, room), step.number
        for cut in step.cuts if step.setup is not None else ():
            if cut.hold is not None and cut.hold.by in _HOLDERS:
                yield room.term(f"by.{cut.hold.by}"), step.number
        cautions = step.cautions
        if step.setup is not None:
            cautions = warned[step.setup] if step.cuts else ()
        for caution in cautions:
            for name in asked(room, caution.says):
                yield name, step.number
        for text in said.BENCH_TOOLS.get(step.kind, ()):
            yield room.text(text), step.number
    milled = next((step.number for step in plan.steps if step.kind == "mill"), None)
    if milled is not None and any(True for _ in as_planned(plan)):
        yield room.text(said.BAND_SAW), milled
