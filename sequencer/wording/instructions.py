"""How a piece lies for a cut, in words: verb first, one thing each."""

from __future__ import annotations

from collections.abc import Iterable

from sequencer.facts import Fact, instructions
from sequencer.wording import saws
from sequencer.wording.catalogue import Table, _
from sequencer.wording.room import Room


def _bears(room: Room, fact: Fact) -> str:
    side = room.term(str(fact.given["side"]))
    bears = saws.carrier(str(fact.given["carrier"]), room).bears
    return room.text(_("{side} {bears}"), side=side, bears=bears)


TEXTS: Table = {
    instructions.LIES: _("{down} down, {bearing}"),
    instructions.LIES_SLANTED: _("{down} down, outside edge along the 45° fence, {bearing}"),
    instructions.OFF_STRIP: _("{down} down, inside edge away from you, squared end at the stop"),
    instructions.TRIMMED: _(
        "{down} down, inside edge away from you; just clean the end on the stop's side"
    ),
    instructions.BEARS: _bears,
    instructions.BEARS_ON_BLOCK: _("{side} against the block"),
    instructions.BACK_TO_FIRST: _("then slide away from it pass by pass, back to the first kerf"),
    instructions.SWEPT: _("then slide away from it pass by pass until all the waste is gone"),
    instructions.FAR_PART: _("the part is the strip on the open side"),
    instructions.FIT_STRIP: _("when all are cut so, blade still, fit the bearing strip"),
    instructions.TURN_ROUND: _("turn round, {bearing}"),
    instructions.TURN_OVER: _("turn over, {down} down"),
    instructions.OTHER_END: _("then the other end the same way"),
    instructions.OTHER_FENCE: _("then the other end on the other fence"),
    instructions.SAME_AS_STEP: _("same way as step {step}"),
    instructions.ONE_END_AS_STEP: _("one end, same way as step {step}"),
    instructions.SAW_OFF_TRIED: _("saw off first the end that was tried in the jig"),
    instructions.FRESH_EDGE: _("along an edge that was not tried yet"),
    instructions.AT_STOP: _("{end} at the stop"),
}


def in_turn(facts: Iterable[Fact], room: Room) -> str:
    """What is done one after another, in one line."""
    return "; ".join(room.say(fact) for fact in facts)
