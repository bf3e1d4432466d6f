"""A spoiled piece, stick or test piece: where making it again costs the fewest minutes of setting
up.

The passes it had are made again in one go between two setups that are still to come, and before
anything that waits for the piece; what it had not had yet, it gets with the others.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from fractions import Fraction

from msgspec import Struct

from sequencer.facts import Fact, taps
from sequencer.plan import Knob, Plan, ProblemOperation, Setup
from sequencer.saw.operation import OperationId
from sequencer.saw.values import is_tested
from sequencer.sawside.cards import Card, mark_of
from sequencer.sawside.state import Spoiled, State, TapError


class Again(Struct, frozen=True):
    """`after` is the place among the cards, `operations` what is made again there in order, and
    `minutes` the setting up that it adds."""

    after: int
    operations: tuple[str, ...]
    minutes: Fraction


def cheapest_place(
    mark: str, cards: Sequence[Card], now: int, done: frozenset[str], plan: Plan
) -> Again:
    """Where `mark`, a piece, a stick or a test piece, is made again. `now` is the current card's
    place; `done` what has been done.

    Ties go to the earliest place. Raises `TapError` where `mark` is no part of the plan, or
    nothing is to be made of it any more.
    """
    own = _own(mark, plan)
    blank = all(part.mark != mark for part in plan.parts)
    _must_be_wanted(mark, cards[now:], done, plan)
    needs = {operation.id: operation for operation in plan.ordering.operations}
    order = [placed.operation for placed in plan.ordering.order]
    states = {placed.operation: placed.state for placed in plan.ordering.order}
    knobs = {knob.name: knob for knob in plan.ordering.knobs}
    wanted = [o for o in order if mark_of(o) in own]
    best: Again | None = None
    passed = set(done)
    for place in range(now, len(cards)):
        card = cards[place]
        if blank:
            if _made_of(card, mark, done, plan):
                break
        elif _waits(card, mark, done, plan):
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
        # What waits for it is next: now, before it.
        again = tuple(o for o in wanted if o in done)
        here = _state_after(cards[:now], states)
        then = _state_before(cards[now:], states) if blank else None
        best = Again(now - 1, again, _cost(again, here, then, needs, states, knobs))
    return best


def put_again(state: State, mark: str, at: Fact, card: Card) -> int:
    """Put the card for `mark`, spoiled at that step or setup, among the others; its place.
    Raises `TapError` as `cheapest_place` does."""
    again = cheapest_place(mark, state.cards, state.now, frozenset(state.done), state.plan)
    place = again.after + 1
    state.spoiled[mark] = Spoiled(mark, at, card.key, again.operations, again.minutes)
    state.cards.insert(place, card)
    state.now = min(state.now, place)
    return place


def within(cards: Sequence[Card], place: int) -> Setup | None:
    """The setup that the card at `place` stands in the middle of."""
    after = next((card for card in cards[place + 1 :] if card.kind != "remake"), None)
    return after.setup if after is not None and after.kind not in ("guard", "set") else None


def settings_of(plan: Plan, operation: str) -> Mapping[str, str]:
    """The knobs that an operation needs, each with the value that the plan cuts it at."""
    state = next((p.state for p in plan.ordering.order if p.operation == operation), {})
    needs = next((o for o in plan.ordering.operations if o.id == operation), None)
    wanted = needs.alternatives[0].needs if needs else {}
    return {knob: state[knob] for knob in wanted if knob in state}


def disturbed(operations: Sequence[str], rest: Sequence[Card], plan: Plan) -> list[str]:
    """The knobs that had been tried out for the next setup, which does not try them again, and
    that making the piece again moves."""
    following = [card for card in rest if card.setup is not None]
    if not following:
        return []
    setup = following[0].setup
    here = [card for card in following if card.setup is setup]
    tried = {point.knob for card in here if card.kind == "test" for point in card.points}
    first = next((o for card in here if card.step for o in card.step.operations), "")
    stands = settings_of(plan, first)
    moved: dict[str, None] = {}
    for operation in operations:
        for knob, value in settings_of(plan, operation).items():
            if is_tested(stands.get(knob, "")) and value != stands[knob]:
                moved[knob] = None
    return [knob for knob in moved if knob not in tried]


def _own(mark: str, plan: Plan) -> frozenset[str]:
    """What has to be cut for `mark`: itself, and the stick that it comes from."""
    if any(stick.mark == mark for stick in plan.sticks):
        return frozenset({mark})
    for stick in plan.sticks:
        if any(piece.mark == mark for piece in stick.pieces):
            return frozenset({mark, stick.mark})
    raise TapError(taps.NO_PART(mark=mark))


def _must_be_wanted(mark: str, rest: Sequence[Card], done: frozenset[str], plan: Plan) -> None:
    leaf = next((part.door for part in plan.parts if part.mark == mark), None)
    if leaf is not None:
        if str(OperationId(leaf, "glue-up")) in done:
            raise TapError(taps.GLUED_UP(door=leaf, mark=mark))
    elif not any(_made_of(card, mark, done, plan) for card in rest):
        raise TapError(taps.NOT_NEEDED(mark=mark))


def _made_of(card: Card, mark: str, done: frozenset[str], plan: Plan) -> bool:
    """Whether a cut is tried on the stick or test piece there, or a piece comes from it."""
    if card.step is None:
        return False
    if card.kind == "test":
        return mark in card.step.marks
    pieces = {p.mark for s in plan.sticks if s.mark == mark for p in s.pieces}
    return any(o not in done and mark_of(o) in pieces for o in card.step.operations)


def _waits(card: Card, mark: str, done: frozenset[str], plan: Plan) -> bool:
    """Whether anything on the card, other than the piece's own cuts, waits for the piece at the
    bench."""
    operations = card.step.operations if card.step else ()
    return card.kind == "bench" and any(
        later in operations
        and later not in done
        and mark_of(first) == mark
        and mark_of(later) != mark
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
