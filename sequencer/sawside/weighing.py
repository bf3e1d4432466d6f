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
    here = {before.cards[before.now].key} if before.now < len(before.cards) else set()
    old, new = _to_come(before, here, room), _to_come(after, here, room)
    same = old.keys() & new.keys()
    left = [found for key, found in new.items() if key not in same]
    had = {card.at for card in before.cards}
    for key, (card, numbers) in old.items():
        if key in same:
            other = new[key]
        else:
            # By its own number; or what is done there is done elsewhere now: the next of its kind
            # that has a number which was not there before.
            alike = [each for each in left if _alike((card, numbers), each)]
            found = next((each for each in alike if each[0].at == card.at), None)
            found = found or next((each for each in alike if each[0].at not in had), None)
            if found is None:
                continue  # told among what no longer holds
            left.remove(found)
            other = found
        yield from _between(card, numbers, *other, room)


def _alike(one: tuple[Card, dict[str, str]], other: tuple[Card, dict[str, str]]) -> bool:
    """Whether they ask for the same kind of thing, by the same numbers."""
    kinds = [
        (card.kind, card.step and card.step.kind, numbers.keys()) for card, numbers in (one, other)
    ]
    return kinds[0] == kinds[1]


def _to_come(
    state: State, here: Collection[str], room: Room
) -> dict[str, tuple[Card, dict[str, str]]]:
    """By its key, every numbered card that is still to be done, with its numbers by their names."""
    faces = view.cards(state, room)["cards"]
    return {
        card.key: (card, _numbers(face))
        for place, (card, face) in enumerate(zip(state.cards, faces, strict=True))
        if place >= state.now and card.at is not None and card.key not in here
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


def _between(
    card: Card, had: dict[str, str], other: Card, has: dict[str, str], room: Room
) -> Iterator[Row]:
    """A row for each number that changes, at its printed place and, where that has another number
    by then, at the new one."""
    assert card.at is not None
    assert other.at is not None
    at = card.at if card.at == other.at else facts.NOW(before=card.at, after=other.at)
    for name in {**had, **has}:
        if had.get(name) != has.get(name):
            what = facts.HEADING(at=at, title=facts.PIECE(mark=name))
            yield {
                "what": capitalised(room.say(what)),
                "before": had.get(name, NOTHING),
                "after": has.get(name, NOTHING),
            }
