"""What an edited job would make of what was done: what holds, what is lost, what is cut again and
which numbers change, to be taken or left."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from sequencer.facts import answers, cards
from sequencer.sawside import view
from sequencer.sawside.cards import Card, named
from sequencer.sawside.state import State
from sequencer.sawside.weighing import changes
from sequencer.wording import Room
from sequencer.wording.room import capitalised


def compared(before: State, after: State, digest: str, room: Room) -> dict[str, Any]:
    """A document of the page. `digest` names the files that `after` is made by; neither state is
    changed."""
    return {
        "digest": digest,
        "words": view.all_said(after.says, room),
        "lost": [capitalised(room.say(each)) for each in _lost(before, after)],
        "changes": list(changes(before, after, room)),
    }


def same(before: State, after: State) -> bool:
    """Whether nobody at the saw would see a difference."""
    return (
        [(card.key, card.label) for card in before.cards]
        == [(card.key, card.label) for card in after.cards]
        and before.units == after.units
        and before.now == after.now
        and before.spoiled.keys() == after.spoiled.keys()
    )


def _lost(before: State, after: State) -> Iterator[Any]:
    """A line for each card on which something was done that does not hold any more."""
    for card in before.cards:
        marks = _gone(card, before, after)
        if card.at is not None and marks:
            yield cards.HEADING(at=card.at, title=answers.LOST(pieces=marks))


def _gone(card: Card, before: State, after: State) -> tuple[Any, ...]:
    """The pieces of a card whose ticks and readings are lost, each once."""
    found = (
        named(unit.of)
        for unit in card.units
        if unit.of
        and before.units.get((card.key, unit.name)) == "done"
        and after.units.get((card.key, unit.name)) != "done"
    )
    return tuple(dict.fromkeys(found))
