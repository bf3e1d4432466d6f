"""A spoiled piece: where making it again costs the fewest minutes of setting up.

The passes it had are made again in one go between two setups that are still to come, and before
anything that waits for the piece; what it had not had yet, it gets with the others.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction

from sequencer.plan import Knob, Plan, ProblemOperation
from sequencer.sawside.cards import Card, mark_of


@dataclass(frozen=True, slots=True)
class Again:
    """`after` is the place among the cards, `operations` what is made again there in order, and
    `minutes` the setting up that it adds."""

    after: int
    operations: tuple[str, ...]
    minutes: Fraction


def cheapest_place(
    mark: str, cards: Sequence[Card], now: int, done: frozenset[str], plan: Plan
) -> Again:
    """Where `mark` is made again. `now` is the current card's place; `done` what has been done.

    Ties go to the earliest place. Raises `ValueError` where `mark` is no part of the plan.
    """
    if all(part.mark != mark for part in plan.parts):
        raise ValueError(f"{mark} is no part of the doors")
    needs = {operation.id: operation for operation in plan.ordering.operations}
    order = [placed.operation for placed in plan.ordering.order]
    states = {placed.operation: placed.state for placed in plan.ordering.order}
    knobs = {knob.name: knob for knob in plan.ordering.knobs}
    stick = next(s.mark for s in plan.sticks if any(p.mark == mark for p in s.pieces))
    wanted = [o for o in order if mark_of(o) == mark or mark_of(o) == stick]
    best: Again | None = None
    passed = set(done)
    for place in range(now, len(cards)):
        card = cards[place]
        if card.step is not None and place > now and _waits(card, mark, plan):
            break
        if card.step is not None:
            passed.update(card.step.operations)
        if not _a_gap(cards, place):
            continue
        again = tuple(o for o in wanted if o in passed)
        here = _state_after(cards[: place + 1], states)
        then = _state_before(cards[place + 1 :], states)
        minutes = _cost(again, here, then, needs, states, knobs)
        if best is None or minutes < best.minutes:
            best = Again(place, again, minutes)
    if best is None:
        # Everything but the waiting bench work is done: now, before it.
        again = tuple(o for o in wanted if o in done)
        here = _state_after(cards[:now], states)
        best = Again(now - 1, again, _cost(again, here, None, needs, states, knobs))
    return best


def _waits(card: Card, mark: str, plan: Plan) -> bool:
    """Whether anything on the card, other than the piece's own cuts, waits for the piece at the
    bench."""
    operations = card.step.operations if card.step else ()
    return card.kind == "bench" and any(
        later in operations and mark_of(first) == mark and mark_of(later) != mark
        for first, later, _ in plan.ordering.before
    )


def _a_gap(cards: Sequence[Card], place: int) -> bool:
    """Whether one setup ends with this card."""
    return cards[place].kind == "leave"


def _state_after(
    cards: Sequence[Card], states: Mapping[str, Mapping[str, str]]
) -> Mapping[str, str]:
    for card in reversed(cards):
        if card.step is not None and card.setup is not None and card.step.operations:
            return states[card.step.operations[-1]]
    return {}


def _state_before(
    cards: Sequence[Card], states: Mapping[str, Mapping[str, str]]
) -> Mapping[str, str] | None:
    for card in cards:
        if card.step is not None and card.setup is not None and card.step.operations:
            return states[card.step.operations[0]]
    return None


def _cost(
    again: Sequence[str],
    here: Mapping[str, str],
    then: Mapping[str, str] | None,
    needs: Mapping[str, ProblemOperation],
    states: Mapping[str, Mapping[str, str]],
    knobs: Mapping[str, Knob],
) -> Fraction:
    """Minutes of setting up for the passes made again and back to what follows, less the minutes
    from here to what follows without them."""
    state = dict(here)
    minutes = Fraction(0)
    for operation in again:
        for knob, accepted in needs[operation].alternatives[0].needs.items():
            if state.get(knob) not in accepted:
                state[knob] = states[operation][knob]
                minutes += _minutes(knobs[knob], state[knob])
    for knob, value in (then or {}).items():
        minutes += _minutes(knobs[knob], value) * (state.get(knob) != value)
        minutes -= _minutes(knobs[knob], value) * (here.get(knob) != value)
    return minutes


def _minutes(knob: Knob, value: str) -> Fraction:
    return knob.by_value.get(value, knob.minutes)
