"""What was dialled in at the saw, kept for later jobs: every setup whose scrap cuts have passed."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from fractions import Fraction

from sequencer.facts import Fact
from sequencer.plan import SCRAP_STEPS, Plan
from sequencer.sawside.cards import Card
from sequencer.sawside.state import State


@dataclass(frozen=True, slots=True)
class Passed:
    """A setup whose scrap cut is done and whose every reading passed: by knob, what was measured
    last, and what the knob's scale shows after the corrections that were told."""

    setup: int
    measured: Mapping[str, Fraction]
    read: Mapping[str, Fraction]


Keep = Callable[[Plan, Passed], Fact | None]
"""Keeps what passed; what to say of it."""


def passed(state: State) -> dict[str, Passed]:
    """By the key of its card, everything that has passed so far."""
    found: dict[str, Passed] = {}
    for card in state.cards:
        if card.step is None or card.setup is None or card.step.kind not in SCRAP_STEPS:
            continue
        done = all(state.units.get((card.key, unit.name)) == "done" for unit in card.units)
        if done and card.points and card.setup in state.plan.setups:
            found[card.key] = _passed(card, state)
    return found


def _passed(card: Card, state: State) -> Passed:
    setup = card.setup
    assert setup is not None
    measured: dict[str, Fraction] = {}
    read: dict[str, Fraction] = {}
    for unit in card.units:
        point = None if unit.point is None else card.points[unit.point]
        if point is None or point.knob is None:
            continue
        readings = state.readings.get((card.key, unit.name), [])
        if readings and readings[-1].value is not None:
            measured[point.knob] = readings[-1].value
        moves = [r.answer.move for r in readings if r.answer.move is not None]
        stands = setup.height if point.knob == "height" else setup.reading
        if moves and stands is not None:
            read[point.knob] = stands + sum(moves)
    return Passed(setup.number, measured, read)
