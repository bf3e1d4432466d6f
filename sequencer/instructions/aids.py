"""Which aids come off before a setup: alike on paper and page. What goes on is ticked there."""

from __future__ import annotations

from collections.abc import Iterator

from sequencer.plan import Plan, Setup
from sequencer.wording import Room, aids


def taken_off(plan: Plan, setup: Setup, room: Room) -> Iterator[str]:
    """A line for each aid that the setup before needed and this one does not."""
    now = {aid.name for aid in plan.aids if setup.number in aid.setups}
    before = {aid.name: None for aid in plan.aids if setup.number - 1 in aid.setups}
    for name in before:
        if name not in now:
            yield room.text(aids.OFF, aid=room.term(f"aid.{name}"))
