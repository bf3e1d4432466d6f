"""The state as the page gets it: two documents of plain text and numbers, every word said here.

`cards` changes only when the plan is made again; `stand` changes with every tap and stays small.
"""

from __future__ import annotations

from collections.abc import Iterable
from fractions import Fraction
from hashlib import sha256
from typing import Any

from sequencer.facts import Fact, Length, Words, answers
from sequencer.facts import cards as facts
from sequencer.instructions.figures import Scale
from sequencer.plan import Change
from sequencer.saw.values import KnobValue
from sequencer.sawside import instructed
from sequencer.sawside.cards import Card, Unit
from sequencer.sawside.faces import face
from sequencer.sawside.flow import together
from sequencer.sawside.readings import accepted, mates, measurable
from sequencer.sawside.state import State
from sequencer.setups.changes import changed_to
from sequencer.setups.halfway import cutters_of
from sequencer.wording import Room, for_plan
from sequencer.wording.numbers import SIGNS, decimal
from sequencer.wording.room import capitalised, sentence

Json = dict[str, Any]

SENTENCES = {"how", "moves", "feel", "tick", "hazard", "consequence", "avoidance", "gone", "hint",
             "proven"}  # fmt: skip
CAPITALISED = {"title", "heading", "checks"}
"""Keys whose words are sentences, and whose words begin with a capital."""


UNDOS = 20
"""Taps, the last one first, that a page may undo one after another without an answer."""


def cards(state: State, room: Room | None = None) -> Json:
    """Everything that stands on the cards, in their order. `room` stands in for the plan's own."""
    room = room or for_plan(state.plan)
    found = {
        "rev": _edition(state),
        "jobs": list(state.plan.jobs),
        "unit": state.plan.unit,
        "sign": SIGNS[state.plan.unit],
        "proven": list(state.plan.proven),
        "cards": [face(card, place, state, room) for place, card in enumerate(state.cards)],
        "blanks": _blanks(state),
    }
    return {name: in_words(each, room, name) for name, each in found.items()}


def in_words(found: Any, room: Room, key: str = "") -> Any:
    """The document with every fact said: as a sentence, with a capital or as it is, by its key."""
    if isinstance(found, dict):
        return {name: in_words(each, room, name) for name, each in found.items()}
    if isinstance(found, list | tuple):
        return [in_words(each, room, key) for each in found]
    if isinstance(found, Fact):
        said = room.say(found)
    elif isinstance(found, Words):
        said = found.text
    else:
        return found
    if key in SENTENCES:
        return sentence(said)
    return capitalised(said) if key in CAPITALISED else said


def all_said(says: Iterable[Fact], room: Room) -> str:
    """One sentence after another."""
    return " ".join(map(room.sentence, says))


def _blanks(state: State) -> list[Json]:
    """Sticks and test pieces, with what each is for."""
    plan = state.plan
    tests = {piece.mark for piece in plan.scrap}
    sticks = [
        {"mark": stick.mark, "says": facts.STRIP_FOR(marks=tuple(p.mark for p in stick.pieces))}
        for stick in plan.sticks
    ]
    return [*sticks, *({"mark": mark, "says": facts.TEST_PIECE()} for mark in sorted(tests))]


def _edition(state: State) -> str:
    """Tells one set of cards from another: also by numbers that move with what was measured."""
    said = [f"{card.key} {card.label}" for card in state.cards]
    said += [
        f"{mate.card} {mate.unit} {mate.measured}"
        for card in state.cards
        for point in card.points
        for mate in mates(point, state)
    ]
    said += [f"{each.what} {each.name} {each.measured}" for each in state.measurements]
    said += [f"{card} {unit}" for card, unit in accepted(state)]
    said += [state.base.digest, *state.spoiled]
    return sha256("\n".join(said).encode()).hexdigest()[:12]


def stand(state: State, room: Room | None = None) -> Json:
    """What is done, where it stands, and what may be undone. `room` as for the cards."""
    room = room or for_plan(state.plan)
    now = state.cards[state.now] if state.now < len(state.cards) else None
    found = {
        "rev": _edition(state),
        "now": now.key if now else None,
        "units": _units(state),
        "readings": _readings(state, room),
        "moves": _moves(state, room),
        "left": _minutes_left(state),
        "undo": state.taps[-1] if state.taps else None,
        "undos": state.taps[: -UNDOS - 1 : -1],
        # What opening the job said stands until the first tap.
        "news": "" if state.taps else all_said(state.says, room),
        "trouble": all_said(state.trouble, room),
        "changed": bool(state.gone) or state.plan is not state.base.plan,
        "gone": answers.NO_LONGER_HOLD(places=together(state.gone)) if state.gone else "",
        "spoiled": [
            {"mark": s.mark, "card": s.card, "hint": facts.SPOILED(mark=s.mark, at=s.at)}
            for s in state.spoiled.values()
        ],
        "measurable": [
            {"what": what, "name": name, "says": _measure_name(what, name, state, room),
             "taken": decimal(Length(value, state.plan.unit))}
            for what, name, value in measurable(state)
        ],
    }  # fmt: skip
    return {name: in_words(each, room, name) for name, each in found.items()}


def _minutes_left(state: State) -> int:
    """Setting up that is still to be done, in whole minutes."""
    left = (card.setup for card in state.cards[state.now :] if card.kind == "set")
    taking = state.plan.taking
    return round(sum((taking[setup.number] for setup in left if setup), Fraction(0)))


def _measure_name(what: str, name: str, state: State, room: Room) -> Fact:
    if what == "kerf":
        return facts.KERF_OF(blade=instructed.blade(name, state.plan, room))
    return facts.PANEL_OF(thickness=Length(Fraction(name), state.plan.unit))


def _units(state: State) -> dict[str, dict[str, str]]:
    """Every unit that is not open; of cards to come only those that were touched."""
    found: dict[str, dict[str, str]] = {}
    for place, card in enumerate(state.cards):
        stands = {
            unit.name: status
            for unit in card.units
            if (status := _status(state, place, card, unit)) != "open"
        }
        if stands:
            found[card.key] = stands
    return found


def _status(state: State, place: int, card: Card, unit: Unit) -> str:
    ahead = place > state.now
    if ahead:
        # What waits for the steps in between waits for nothing yet.
        spoiled = unit.of in state.spoiled and card.kind == "work"
        return state.units.get((card.key, unit.name)) or ("spoiled" if spoiled else "open")
    return state.status(card, unit)


def _readings(state: State, room: Room) -> dict[str, dict[str, Json]]:
    found: dict[str, dict[str, Json]] = {}
    for (key, unit), readings in state.readings.items():
        last = readings[-1]
        found.setdefault(key, {})[unit] = {
            "said": all_said(last.answer.says, room),
            "verdict": last.answer.verdict,
            "value": _value(last.value, state.scale, room),
            "before": [_value(reading.value, state.scale, room) for reading in readings[:-1]],
        }
    return found


def _value(value: Fraction | None, scale: Scale, room: Room) -> str:
    return room.say(facts.BY_FEEL()) if value is None else scale.decimal(value)


def _moves(state: State, room: Room) -> Json | None:
    """The next setting as a change from where everything stands now."""
    for card in state.cards[state.now :]:
        if card.kind in ("set", "guard"):
            return {"card": card.key, "moves": _changes(card, state, room)}
    return None


def _changes(card: Card, state: State, room: Room) -> list[Words]:
    wanted = next((p.state for p in state.plan.ordering.order if p.operation == card.first), {})
    cutters = cutters_of(state.plan)
    tilt = Fraction(0) if card.setup is None else card.setup.tilt
    found: list[Change] = []
    for knob, value in wanted.items():
        held = state.held.get(knob)
        if (card.kind == "guard") != (knob == "guard") or (held and held.value == value):
            continue
        due = KnobValue.read(value, cutters)
        stood = KnobValue.read(held.value, cutters) if held else None
        # It is set anew with another cutter or tilt.
        before = None
        if stood and due and stood.alike(due):
            before = state.told.get(knob, stood.number)
        number = None if due is None else due.number
        if number is not None and card.setup is not None:
            told = state.wanted_at(knob, card.setup)
            # What the setup does not guide by stands where it stood.
            number = number if told is None else told
        former = held.value if held else None
        shop = state.base.given.shop
        found.append(changed_to(knob, former, value, before, number, shop, tilt))
    if card.kind == "guard" or card.setup is None:
        return [instructed.change(change, state.plan, room) for change in found]
    return instructed.moves(found, card.setup, state.plan, room)
