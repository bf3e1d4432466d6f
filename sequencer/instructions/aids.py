"""What aids are fitted before a setup, and which come off: alike on paper and page."""

from __future__ import annotations

from collections.abc import Iterator

from sequencer.plan import Aid, Plan, Setup
from sequencer.wording import Room, aids


def aid_turns(plan: Plan, setup: Setup, room: Room) -> Iterator[str]:
    """A line for each that was on for the setup before and is not needed now, and for each that
    this one needs and the one before did not."""
    before, now = (_on(plan, number) for number in (setup.number - 1, setup.number))
    for texts, changed in ((aids.OFF, before - now), (aids.ON, now - before)):
        for aid in plan.aids:
            if aid in changed:
                yield room.text(texts, aid=room.term(f"aid.{aid.name}"))


def _on(plan: Plan, number: int) -> frozenset[Aid]:
    return frozenset(aid for aid in plan.aids if number in aid.setups)
