"""What is turned on entering a setup, and which aids come off: alike on paper and page. What goes
on is ticked there."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from sequencer.plan import Change, Plan, Setup
from sequencer.records import replace
from sequencer.saw.fittings import CARRIERS, SPACER
from sequencer.saw.values import AWAY
from sequencer.wording import Room, aids
from sequencer.wording.changes import change_words


def entered(
    changes: Sequence[Change], setup: Setup, plan: Plan, room: Room
) -> Iterator[tuple[str, str]]:
    """By its knob each change on entering a setup, in words. Where another aid than before stands
    between fence and piece, or one no more, the fence is set anew: how far it would go by the scale
    means nothing."""
    along = plan.before_fence(setup.number)
    other = along != plan.before_fence(setup.number - 1)
    stays = not any(change.knob == "fence" for change in changes)
    if other and stays and CARRIERS[setup.carrier].body == "fence":
        changes = (*changes, Change("fence", None, "", number=setup.reading))
    for change in changes:
        if change.knob == SPACER and change.before is None and change.after == AWAY:
            continue  # there was none yet
        if not other or change.knob != "fence" or change.after == AWAY:
            yield change.knob, change_words(change, plan, room)
            continue
        words = change_words(replace(change, stood=None), plan, room)
        if along:
            words = room.text(aids.FROM, set=words, aid=room.text(aids.ALONG[along]))
        yield change.knob, words


def taken_off(plan: Plan, setup: Setup, room: Room) -> Iterator[str]:
    """A line for each aid that the setup before needed and this one does not."""
    now = {aid.name for aid in plan.aids if setup.number in aid.setups}
    before = {aid.name: None for aid in plan.aids if setup.number - 1 in aid.setups}
    for name in before:
        if name not in now:
            yield room.text(aids.OFF, aid=room.term(f"aid.{name}"))
