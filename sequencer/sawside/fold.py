"""Events to state: what each tap and each reading means.

The state is what all events in their order make of the printed plan; nothing else is kept. The
same events give the same state, whatever happened to the program in between.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from fractions import Fraction
from typing import Any

from sequencer.facts import Fact, answers, cards, taps
from sequencer.records import replace
from sequencer.saw.fittings import SPACER
from sequencer.saw.operation import OperationId
from sequencer.saw.values import is_tested
from sequencer.sawside import instructed
from sequencer.sawside.cards import Card, Unit, mark_of, named
from sequencer.sawside.flow import flow_on
from sequencer.sawside.measurements import word_of
from sequencer.sawside.readings import (
    Taken,
    measurements_of,
    relied_on,
    take_measure,
    take_reading,
    widths_standing,
)
from sequencer.sawside.rebase import rebase
from sequencer.sawside.spoiled import put_again, settings_of, within
from sequencer.sawside.state import Planner, Reading, State, TapError, Took
from sequencer.sawside.store import Event
from sequencer.setups.halfway import Done, Held

SHORTEST, LONGEST = 3 * 1000, 30 * 60 * 1000
"""ms: in less nothing is set, but ticked after the fact; whoever is away longer has had a break;
ours."""

TAPS = ("tick", "skip", "read", "measure", "spoil", "decline")


def fold(events: Iterable[Event], planner: Planner) -> State:
    """The state after all events. The first is a base. What was undone is left out; what does not
    fit any more, after a change of the files, is passed over."""
    kept = list(events)
    undone = {event.body.get("of") for event in kept if event.body.get("kind") == "undo"}
    state: State | None = None
    for event in kept:
        if event.id in undone or event.body.get("kind") == "undo":
            continue
        try:
            state = apply(state, event, planner)
        except TapError:
            continue
    if state is None:
        raise ValueError("no base among the events")
    return state


def apply(state: State | None, event: Event, planner: Planner) -> State:
    """One event more. Raises `TapError`, the state then being as it was."""
    kind = event.body.get("kind")
    if kind == "base":
        return rebase(state, str(event.body.get("digest")), planner)
    if state is None:
        raise TapError(taps.NO_PLAN_YET())
    if kind not in TAPS:
        raise TapError(taps.NO_SUCH_TAP())
    says, state.says = state.says, []
    known = len(state.measurements)
    try:
        tap = _TAPS[kind](state, event, planner)
    except TapError:
        state.says = says
        raise
    state.found += [(event.id, event.at, seen) for seen in state.measurements[known:]]
    state.taps.append((event.id, tap))
    return state


def current(state: State) -> Card | None:
    return state.cards[state.now] if state.now < len(state.cards) else None


def _text(body: Mapping[str, Any], name: str) -> str:
    value = body.get(name)
    if not isinstance(value, str) or not value or len(value) > 100:
        raise TapError(taps.WITHOUT(key=name))
    return value


def _unit(state: State, body: Mapping[str, Any]) -> tuple[int, Card, Unit]:
    place, card = state.card(_text(body, "card"))
    name = _text(body, "unit")
    for unit in card.units:
        if unit.name == name:
            return place, card, unit
    raise TapError(taps.STEP_CHANGED())


def _tick(state: State, event: Event, _planner: Planner) -> Fact:
    place, card, unit = _unit(state, event.body)
    if unit.point is not None:
        raise TapError(taps.MEASURED_NOT_TICKED())
    _must_be_open(state, place, card, unit)
    _in_turn(state, card, unit)
    if card.kind == "remake":
        _made_again(state, place, card)
    state.units[card.key, unit.name] = "done"
    if unit.operations:
        _operations_done(state, unit)
    if card.kind in ("guard", "set"):
        _held(state, card, event)
    if card.kind in ("power", "leave"):
        state.since = event.at
    state.move_on()
    if unit.of:
        return taps.TICKED(piece=named(unit.of))
    return taps.CARD_TICKED(card=f"ticked.{card.kind}")


def _must_be_open(state: State, place: int, card: Card, unit: Unit) -> None:
    status = state.status(card, unit)
    if status == "done":
        raise TapError(taps.TICKED_ALREADY())
    if status == "spoiled":
        raise TapError(taps.IS_SPOILED(piece=named(unit.of)))
    found = state.missing(card, unit)
    if found:
        first, reason = found
        raise TapError(taps.WAITS(piece=named(unit.of), first=first, reason=reason))
    if place > state.now:
        raise TapError(taps.STEP_OPEN())


def _in_turn(state: State, card: Card, unit: Unit) -> None:
    """What the same card asks for first: the first piece measured, the stick's next piece."""
    for first, _, reason in state.before(unit.operations):
        if first not in state.done and first not in unit.operations:
            raise TapError(taps.COMES_FIRST(mark=mark_of(first), reason=reason))
    if card.kind not in ("work", "test"):
        return
    for other in card.units[: card.units.index(unit)]:
        if other.point is not None and state.status(card, other) == "open":
            raise TapError(taps.FIRST_PIECE_FIRST())


def _operations_done(state: State, unit: Unit) -> None:
    states = {placed.operation: placed.state for placed in state.plan.ordering.order}
    for operation in unit.operations:
        at = states[operation]
        untested = frozenset(
            knob for knob, value in at.items()
            if is_tested(value) and not (knob in state.held and state.held[knob].passed)
        )  # fmt: skip
        state.done[operation] = Done(operation, at, untested)


def _held(state: State, card: Card, event: Event) -> None:
    """The saw as the card says: of a guard step the guard alone, else everything."""
    wanted = _wanted(state, card)
    costs = {knob.name: knob for knob in state.plan.ordering.knobs}
    changed: list[tuple[str, Fraction]] = []
    for knob, value in wanted.items():
        held = state.held.get(knob)
        if card.kind == "guard" and knob != "guard":
            continue
        if held is not None and held.value == value:
            continue
        state.held[knob] = Held(value, card.first, not is_tested(value))
        if card.setup is not None:
            state.set_to(knob, card.setup)
        known = None if card.setup is None else card.setup.knows(knob)
        cost = costs[knob].minutes if knob in costs else Fraction(0)
        by = knob if known is None or known.how == "scale" else known.how
        changed.append((by, cost))
    _timed(state, event, changed)


def _timed(state: State, event: Event, what: Sequence[tuple[str, Fraction]]) -> None:
    took = event.at - state.since
    if what and state.since and SHORTEST < took <= LONGEST:
        state.times.append(Took(tuple(what), took, event.id, event.at))
    state.since = event.at


def _wanted(state: State, card: Card) -> Mapping[str, str]:
    for placed in state.plan.ordering.order:
        if placed.operation == card.first:
            return placed.state
    return {}


def _skip(state: State, event: Event, planner: Planner) -> Fact:
    place, card, unit = _unit(state, event.body)
    if card.kind in ("standing", "guard", "set", "power", "leave", "remake"):
        raise TapError(taps.RELIED_ON())
    if place > state.now or state.status(card, unit) != "open":
        raise TapError(taps.ONLY_NOW())
    waits = _waiting(state, unit)
    if waits:
        mark, reason = waits
        raise TapError(taps.NEEDED(piece=named(unit.of), mark=mark, reason=reason))
    state.units[card.key, unit.name] = "skipped"
    _finish_readings(state, card, event, planner)
    state.move_on()
    return taps.SKIPPED(piece=named(unit.of)) if unit.of else taps.MEASURING_SKIPPED()


def _waiting(state: State, unit: Unit) -> tuple[str, Fact] | None:
    """Another piece's cut that could not be made without the unit, with the reason: at once, or
    after more cuts of the same stick."""
    own = set(unit.operations)
    cuts = {o for c in state.cards if c.kind == "work" and c.step for o in c.step.operations}
    edges = [edge for edge in state.plan.ordering.before if mark_of(edge[0]) == unit.of]
    for _ in edges:
        after = {later for first, later, _ in edges if first in own and mark_of(later) == unit.of}
        if after <= own:
            break
        own |= after
    for first, later, reason in edges:
        if first in own and later in cuts and mark_of(later) != unit.of:
            return mark_of(later), reason
    return None


def _read(state: State, event: Event, planner: Planner) -> Fact:
    place, card, unit = _unit(state, event.body)
    if unit.point is None:
        raise TapError(taps.TICKED_NOT_MEASURED())
    before = state.status(card, unit)
    if place > state.now or before in ("waits", "spoiled"):
        raise TapError(taps.STEP_OPEN())
    cut = next((u for u in card.units if u.point is None), None)
    if cut is not None and card.kind in ("test", "work") and state.status(card, cut) == "open":
        raise TapError(taps.CUT_FIRST())
    taken = take_reading(event.body, card, unit, state)
    if not taken.passes and before == "done" and relied_on(state, place):
        raise TapError(*taken.answer.says, taps.CUTS_SINCE())
    shown = dict(state.shown) if _still_set(state, card) else {}
    state.readings.setdefault((card.key, unit.name), []).append(
        Reading(event.id, taken.value, taken.answer, event.at, shown)
    )
    state.tried_by.setdefault(card.key, state.plan)
    moved = card.points[unit.point].knob
    if taken.answer.move is not None and moved in state.shown and shown:
        state.shown[moved] += taken.answer.move
    state.says += taken.answer.says
    if taken.passes:
        state.units[card.key, unit.name] = "done"
        for name in taken.also_open:
            state.units.pop((card.key, name), None)
        _finish_readings(state, card, event, planner)
    else:
        _reopen(state, place, card, unit, taken)
    state.move_on()
    return taps.ENTERED(measure=instructed.measured(card.points[unit.point].measure))


def _reopen(state: State, place: int, card: Card, unit: Unit, taken: Taken) -> None:
    """A reading that is not good: the place is open, with what has to be measured anew."""
    for name in (unit.name, *taken.also_open):
        state.units.pop((card.key, name), None)
    if card.kind == "test" and _still_set(state, card):
        for point in card.points:
            if point.knob in state.held:
                state.held[point.knob] = replace(state.held[point.knob], passed=False)
    state.now = min(state.now, place)


def _finish_readings(state: State, card: Card, event: Event, planner: Planner) -> None:
    """Once everything on a card is measured: its settings are good, and what differs from the
    plan flows on."""
    readings = [unit for unit in card.units if unit.point is not None]
    if not readings or any(state.status(card, unit) == "open" for unit in readings):
        return
    if card.kind == "test":
        _tried(state, card, readings)
        if card is current(state):
            checked = card.step is not None and card.step.kind == "check cut"
            _timed(state, event, [("check_cut" if checked else "test_cut", Fraction(0))])
    measurements = [
        seen
        for seen in measurements_of(card, state, widths_standing(state))
        if seen.measured != seen.planned
    ]
    if measurements:
        flow_on(state, measurements, planner)


def _tried(state: State, card: Card, readings: Iterable[Unit]) -> None:
    """The knobs of a test cut have passed or not: as they stand, where the saw is still set so,
    and for what has been cut with them."""
    stands = _still_set(state, card)
    passed: set[str] = set()
    for unit in readings:
        knob = card.points[unit.point or 0].knob
        good = state.units.get((card.key, unit.name)) == "done"
        if knob is None:
            continue
        # With a block behind the piece, jig and block are tried together.
        block = {SPACER} if card.setup and card.setup.spacer and knob != "height" else set()
        if good:
            passed |= {knob, *block}
        for each in {knob, *block} & state.held.keys() if stands else ():
            state.held[each] = replace(state.held[each], passed=good)
    same = [other for other in state.cards if other.setup is card.setup and other.step]
    for operation in [o for other in same if other.step for o in other.step.operations]:
        done = state.done.get(operation)
        if done is not None and done.untested & passed:
            state.done[operation] = replace(done, untested=done.untested - passed)


def _still_set(state: State, card: Card) -> bool:
    """Whether nothing has been set since the card."""
    place = state.cards.index(card)
    return all(other.kind not in ("guard", "set") for other in state.cards[place + 1 : state.now])


def _measure(state: State, event: Event, planner: Planner) -> Fact:
    seen, said = take_measure(event.body, state, widths_standing(state))
    state.says.append(said)
    if seen.measured != seen.planned or state.trouble:
        flow_on(state, [seen], planner)
    state.move_on()
    return taps.MEASURED(what=word_of(seen.what))


def _spoil(state: State, event: Event, _planner: Planner) -> Fact:
    mark = _text(event.body, "mark")
    if mark in state.spoiled:
        raise TapError(taps.AGAIN_ALREADY(mark=mark))
    at = current(state)
    where = at.where if at else cards.THE_END()
    begun = _cut_by_now(state, at, mark)
    card = Card(f"again-{event.id[:12]}", "remake", "", (Unit("made", mark),))
    place = put_again(state, mark, where, card)
    if at is not None and begun is not None:
        # It was cut, if badly: what is cut from the same stick next need not wait for it.
        state.units[at.key, begun.name] = "done"
        _operations_done(state, begun)
    state.move_on()
    before = state.cards[place + 1] if place + 1 < len(state.cards) else None
    if place == state.now:
        state.says.append(answers.AGAIN_NOW(mark=mark))
    elif before is not None and before.at is not None:
        state.says.append(answers.AGAIN_BEFORE(mark=mark, before=before.at))
    else:
        state.says.append(answers.AGAIN_LATER(mark=mark))
    return taps.SPOILT(mark=mark)


def _decline(state: State, event: Event, _planner: Planner) -> Fact:
    state.declined |= {_text(event.body, "digest")}
    return taps.FILES_LEFT()


def _cut_by_now(state: State, at: Card | None, mark: str) -> Unit | None:
    """The unit of the current card that cuts `mark` and is still open. Raises `TapError` where the
    piece does not exist yet."""
    crosscut = str(OperationId(mark, "crosscut"))
    stick = any(stick.mark == mark for stick in state.plan.sticks)
    for unit in at.units if at is not None and at.kind == "work" else ():
        if at is None or unit.of != mark or state.status(at, unit) != "open":
            continue
        first = {edge[0] for edge in state.before(unit.operations)} - set(unit.operations)
        if first <= state.done.keys():
            return unit
    if not stick and crosscut not in state.done:
        source = next(
            (s.mark for s in state.plan.sticks if any(p.mark == mark for p in s.pieces)), None
        )
        if source is not None:
            raise TapError(taps.NOT_CUT_YET(mark=mark, strip=source))
    return None


def _made_again(state: State, place: int, card: Card) -> None:
    """What it was passed over for is done, too. Between two setups, the saw stands as the last of
    its cuts left it; within one, it has been brought back."""
    spoiled = state.spoiled.pop(card.units[0].of)
    states = {placed.operation: placed.state for placed in state.plan.ordering.order}
    for operation in spoiled.operations:
        if operation not in state.done and operation in states:
            state.done[operation] = Done(operation, states[operation])
    if within(state.cards, place) is not None:
        return
    for operation in spoiled.operations:
        for knob, value in settings_of(state.plan, operation).items():
            state.held[knob] = Held(value, operation, not is_tested(value))


_TAPS = {"tick": _tick, "skip": _skip, "read": _read, "measure": _measure, "spoil": _spoil,
         "decline": _decline}  # fmt: skip
