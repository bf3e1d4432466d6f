"""The cards of what is left to do, out of a plan made again, with the numbers they go by.

Done cards keep their numbers. A card that says what it said before keeps its printed number too, as
long as numbers still rise; any other is numbered after the last one: 12a, 12b …
"""

from __future__ import annotations

import re
from collections.abc import Collection, Iterable, Mapping, Sequence
from itertools import groupby
from string import ascii_lowercase

from msgspec import Struct

from sequencer.facts import Fact
from sequencer.plan import Plan
from sequencer.records import replace
from sequencer.saw.values import plain
from sequencer.sawside.cards import Card, rekeyed, trimmed, work_cards
from sequencer.setups.halfway import Held, standing

HALF = "~"
"""Ends the key of what is left of a card that is half done; it goes by the same number."""


class Numbered(Struct, frozen=True):
    """Cards with their numbers, the printed numbers that no longer hold, and the letters that are
    used up by now."""

    cards: tuple[Card, ...]
    gone: tuple[Fact, ...]
    letters: Mapping[str, int]


def rest_of(plan: Plan, done: Collection[str], held: Mapping[str, Held]) -> tuple[Card, ...]:
    """The cards of what is not done, without those for what already stands as it should. What is
    ticked before power is on stands before every setup."""
    states = {placed.operation: placed.state for placed in plan.ordering.order}
    at = standing(held, plan)
    found: list[Card] = []
    for number, group in groupby(work_cards(plan), lambda c: c.setup.number if c.setup else None):
        cards = list(group)
        if number is None:
            found += (kept for card in cards if (kept := _left(card, done)))
            continue
        first = next((o for card in cards for o in _operations(card) if o not in done), None)
        if first is None:
            continue
        state = states[first]
        found += _setup_cards(cards, first, done, state, at)
        at = {**at, **state}
    return tuple(found)


def _setup_cards(
    cards: Iterable[Card],
    first: str,
    done: Collection[str],
    state: Mapping[str, str],
    at: Mapping[str, str],
) -> Iterable[Card]:
    changed = {knob for knob, value in state.items() if at.get(knob) != value}
    # A setting that stands but was not tried out is not set again, only tried.
    turned = {knob for knob in changed if plain(at.get(knob, "")) != plain(state[knob])}
    for card in cards:
        if card.kind == "set":
            if turned:
                yield rekeyed(card, first)
        elif card.kind == "guard":
            if "guard" in turned:
                yield rekeyed(card, first)
        elif card.kind in ("power", "leave"):
            yield rekeyed(card, first)
        elif card.kind == "test":
            if any(point.knob in changed for point in card.points):
                yield card
        elif kept := _left(card, done):
            yield kept


def _operations(card: Card) -> tuple[str, ...]:
    return card.step.operations if card.step else ()


def _left(card: Card, done: Collection[str]) -> Card | None:
    left = [operation for operation in _operations(card) if operation not in done]
    if len(left) == len(_operations(card)):
        return card
    return trimmed(card, left)


def number(
    kept: Sequence[Card], before: Sequence[Card], rest: Sequence[Card], letters: Mapping[str, int]
) -> Numbered:
    """The rest with its numbers. `kept` are the cards that stay in front of it, `before` what the
    rest was until now."""
    used = dict(letters)
    last = {"step": "0", "setup": "0"}
    for card in kept:
        if card.numbered:
            last[card.numbered] = card.label
    places = {card.key: n for n, card in enumerate(before)}
    reached = -1
    stays: set[str] = set()
    made: list[Card] = []
    for card in rest:
        key = card.key.removesuffix(HALF)
        place = places.get(key, -1)
        what = card.numbered
        if place > reached and what:
            reached = place
            stays.add(key)
            label = before[place].label
        elif what:
            label = _next(last[what], what, used)
        else:
            label = last["setup"]
        if what:
            last[what] = label
        made.append(replace(card, label=label))
    gone = tuple(
        card.at
        for card in before
        if card.at is not None and card.key not in stays and card.label.isdigit()
    )
    return Numbered(tuple(made), gone, used)


def _next(last: str, what: str, used: dict[str, int]) -> str:
    """The next number after `last`: its figure and the first letter that was never used with it.

    >>> letters = {}
    >>> _next("12", "step", letters), _next("12a", "step", letters)
    ('12a', '12b')
    """
    match = re.match(r"\d+", last)
    figure = match.group() if match else "0"
    count = used.get(f"{what} {figure}", 0)
    used[f"{what} {figure}"] = count + 1
    more, letter = divmod(count, len(ascii_lowercase))
    return figure + ascii_lowercase[letter] * (more + 1)
