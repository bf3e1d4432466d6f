"""What aids are fitted before a setup, and which come off: alike on paper and page."""

from __future__ import annotations

from collections.abc import Iterator

from sequencer.plan import Aid, Plan, Setup
from sequencer.wording import Room, aids


def aid_turns(plan: Plan, setup: Setup, room: Room) -> Iterator[str]:
    """A line for each that was on for the setup before and is not needed now, and for each that
    this one needs and the one before did not."""
    before, now = (_on(plan, number) for number in (setup.number - 1, setup.number))
    for aid in plan.aids:
        if aid in before - now:
            yield _said(aids.OFF, aid, room)
    for aid in plan.aids:
        if aid in now - before:
            yield _said(aids.ON_FENCE if aids.AIDS[aid.name].shifts else aids.ON, aid, room)


def _said(text: str, aid: Aid, room: Room) -> str:
    return room.text(text, aid=room.term(f"aid.{aid.name}"))


def _on(plan: Plan, number: int) -> frozenset[Aid]:
    return frozenset(aid for aid in plan.aids if number in aid.setups)
