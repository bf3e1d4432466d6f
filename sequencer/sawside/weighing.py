"""What a reading that is kept would change of what is still to be done: before and after."""

from __future__ import annotations

from collections.abc import Collection, Iterator
from typing import Any

from sequencer.facts import Fact, answers
from sequencer.facts import cards as facts
from sequencer.sawside import view
from sequencer.sawside.cards import Card
from sequencer.sawside.state import State
from sequencer.wording import Room
from sequencer.wording.room import capitalised

Row = dict[str, str]
"""`what` is said, the number `before` and `after`."""

NOTHING = "–"


def weighed(before: State, after: State | tuple[Fact, ...], room: Room) -> dict[str, Any]:
    """A document of the page: what is said, each number that changes, whether it may be kept."""
    if not isinstance(after, State):
        return {"may": False, "words": view.all_said(after, room), "changes": []}
    if after.trouble:
        return {"may": False, "words": view.all_said(after.trouble, room), "changes": []}
    rows = list(changes(before, after, room))
    told = (
        answers.REST_FOLLOWS,
        answers.NO_LONGER_HOLD,
        *(() if rows else (answers.CHANGES_NOTHING,)),
    )
    says = [each for each in after.says if each.kind in told]
    return {"may": True, "words": view.all_said(says, room), "changes": rows}


def changes(before: State, after: State, room: Room) -> Iterator[Row]:
    """A row for each number of what is to come that changes; the card that is at hand has none."""
    here = {before.cards[before.now].key} if before.now < len(before.cards) else set()
    for old, new in pairs(before, after, here, room):
        if old is not None:
            for name, had, has in numbers(old, new):
                what = facts.HEADING(at=place(old, new), title=facts.PIECE(mark=name))
                yield {"what": capitalised(room.say(what)), "before": had, "after": has}


Numbered = tuple[Card, dict[str, str]]
"""A card with its numbers by their names."""


def pairs(
    before: State, after: State, without: Collection[str], room: Room
) -> Iterator[tuple[Numbered | None, Numbered]]:
    """Every card that is still to be done, as it was and as it will be; last those that are new.
    `without` are the keys of those that are left out."""
    old, new = _to_come(before, without, room), _to_come(after, without, room)
    same = old.keys() & new.keys()
    left = [found for key, found in new.items() if key not in same]
    had = {card.at for card in before.cards}
    for key, (card, told) in old.items():
        if key in same:
            yield (card, told), new[key]
        else:
            # By its own number; or what is done there is done elsewhere now: the next of its kind
            # that has a number which was not there before.
            alike = [each for each in left if _alike((card, told), each)]
            found = next((each for each in alike if each[0].at == card.at), None)
            found = found or next((each for each in alike if each[0].at not in had), None)
            if found is None:
                continue  # told among what no longer holds
            left.remove(found)
            yield (card, told), found
    for found in left:
        yield None, found


def _alike(one: Numbered, other: Numbered) -> bool:
    """Whether they ask for the same kind of thing, by the same numbers."""
    kinds = [(card.kind, card.step and card.step.kind, told.keys()) for card, told in (one, other)]
    return kinds[0] == kinds[1]


def _to_come(state: State, without: Collection[str], room: Room) -> dict[str, Numbered]:
    """By its key, every numbered card that is still to be done, with its numbers by their names."""
    faces = view.cards(state, room)["cards"]
    return {
        card.key: (card, _numbers(face))
        for place, (card, face) in enumerate(zip(state.cards, faces, strict=True))
        if place >= state.now and card.at is not None and card.key not in without
    }


def _numbers(face: dict[str, Any]) -> dict[str, str]:
    found = {}
    for each in face.get("big", ()) if face["kind"] == "set" else ():
        stacked = f"{each['top']}/{each['bottom']}" if each["top"] else ""
        found[each["name"]] = " ".join(filter(None, (each["whole"], stacked))) + each["unit"]
        if each["decimal"]:
            found[each["name"]] += f" ({each['decimal']}{each['unit']})"
    for point in face.get("points", ()):
        if not point["by_fit"]:
            found[point["name"]] = f"{point['target']} ({point['low']} … {point['high']})"
    return found


def place(old: Numbered, new: Numbered) -> Fact:
    """The printed place and, where it is another by then, the new one."""
    before, after = old[0].at, new[0].at
    assert before is not None
    assert after is not None
    return before if before == after else facts.NOW(before=before, after=after)


def numbers(old: Numbered | None, new: Numbered) -> Iterator[tuple[str, str, str]]:
    """Each number that changes: its name, as it was, as it will be."""
    had = {} if old is None else old[1]
    for name in {**had, **new[1]}:
        if had.get(name) != new[1].get(name):
            yield name, had.get(name, NOTHING), new[1].get(name, NOTHING)
