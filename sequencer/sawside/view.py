"""The state as the page gets it: two documents of plain text and numbers, every word decided here.

`cards` changes only when the plan is made again; `stand` changes with every tap and stays small.
"""

from __future__ import annotations

from fractions import Fraction
from hashlib import sha256
from typing import Any

from sequencer.plan import Plan
from sequencer.saw.values import KnobValue
from sequencer.sawside.cards import Card, Unit
from sequencer.sawside.faces import face
from sequencer.sawside.mending import sentence
from sequencer.sawside.readings import measurable
from sequencer.sawside.state import State
from sequencer.sequencing.changes import changed_to
from sequencer.sequencing.halfway import cutters_of
from sequencer.sheets import words
from sequencer.sheets.figures import Scale
from sequencer.wording import for_plan
from sequencer.wording.changes import change_words

Json = dict[str, Any]


def cards(state: State) -> Json:
    """Everything that stands on the cards, in their order."""
    return {
        "rev": _edition(state),
        "jobs": list(state.plan.jobs),
        "unit": state.plan.unit,
        "proven": _proven(state.plan),
        "cards": [face(card, place, state) for place, card in enumerate(state.cards)],
        "blanks": _blanks(state),
    }


def _proven(plan: Plan) -> str:
    room = for_plan(plan, "page")
    return " ".join(room.sentence(shown) for shown in plan.proven)


def _blanks(state: State) -> list[Json]:
    """Sticks and test pieces, with what each is for."""
    plan = state.plan
    tests = {piece.mark for piece in plan.scrap}
    sticks = [
        {"mark": stick.mark, "says": f"stick for {', '.join(p.mark for p in stick.pieces)}"}
        for stick in plan.sticks
    ]
    return [*sticks, *({"mark": mark, "says": "test piece"} for mark in sorted(tests))]


def _edition(state: State) -> str:
    """Tells one set of cards from another."""
    said = [f"{card.key} {card.label}" for card in state.cards]
    said += [state.base.digest, *state.spoiled]
    return sha256("\n".join(said).encode()).hexdigest()[:12]


def stand(state: State) -> Json:
    """What is done, where it stands, and what may be undone."""
    now = state.cards[state.now] if state.now < len(state.cards) else None
    return {
        "rev": _edition(state),
        "now": now.key if now else None,
        "units": _units(state),
        "readings": _readings(state),
        "moves": _moves(state),
        "undo": state.taps[-1] if state.taps else None,
        "trouble": state.trouble,
        "gone": list(state.gone),
        "spoiled": [
            {"mark": s.mark, "at": s.label, "card": s.card} for s in state.spoiled.values()
        ],
        "measurable": [
            {"what": what, "name": name, "says": _measure_name(what, name, state),
             "taken": state.scale.decimal(value)}
            for what, name, value in measurable(state)
        ],
    }  # fmt: skip


def _measure_name(what: str, name: str, state: State) -> str:
    if what == "kerf":
        return f"kerf of the {words.blade(name)}"
    return f"panel of {state.scale.decimal(Fraction(name))} {state.plan.unit}"


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


def _readings(state: State) -> dict[str, dict[str, Json]]:
    found: dict[str, dict[str, Json]] = {}
    for (key, unit), readings in state.readings.items():
        last = readings[-1]
        found.setdefault(key, {})[unit] = {
            "said": last.answer.words,
            "verdict": last.answer.verdict,
            "value": _value(last.value, state.scale),
            "before": [_value(reading.value, state.scale) for reading in readings[:-1]],
        }
    return found


def _value(value: Fraction | None, scale: Scale) -> str:
    return "by feel" if value is None else scale.decimal(value)


def _moves(state: State) -> Json | None:
    """The next setting as a change from where everything stands now."""
    for card in state.cards[state.now :]:
        if card.kind in ("set", "guard"):
            return {"card": card.key, "words": _changes(card, state)}
    return None


def _changes(card: Card, state: State) -> list[str]:
    wanted = next((p.state for p in state.plan.ordering.order if p.operation == card.first), {})
    cutters = cutters_of(state.plan)
    tilt = Fraction(0) if card.setup is None else card.setup.tilt
    found: list[str] = []
    for knob, value in wanted.items():
        held = state.held.get(knob)
        if (card.kind == "guard") != (knob == "guard") or (held and held.value == value):
            continue
        due = KnobValue.read(value, cutters)
        stood = KnobValue.read(held.value, cutters) if held else None
        # It is set anew with another cutter or tilt.
        before = stood.number if stood and due and stood.alike(due) else None
        number = None if due is None else due.number
        change = changed_to(
            knob, held.value if held else None, value, before, number, state.base.given.shop, tilt
        )
        found.append(sentence(change_words(change, state.plan, for_plan(state.plan, "page"))))
    return found
