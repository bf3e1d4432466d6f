"""What setups warn of on paper: every hazard at its setup, in full or in one line."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

from sequencer.plan import Caution, Plan, Setup, in_full
from sequencer.wording import Room, for_plan
from sequencer.wording.cautions import parts


@dataclass(frozen=True, slots=True)
class Line:
    """One hazard: `lead` is printed bold, nothing where it is told in its one line, `rest`."""

    rule: str
    lead: str
    rest: str


Warned = tuple[tuple[str, tuple[Line, ...]], ...]
"""Each signal word of a setup, the worst first, with its hazards: those in full before others."""


def boxes(plan: Plan) -> Mapping[int, Warned]:
    """Each setup's box by its number; nothing in it where the setup warns of nothing."""
    room = for_plan(plan, "paper")
    told = in_full(plan.setups, plan.standing)
    return {
        setup.number: _warned(setup.cautions, full, room)
        for setup, full in zip(plan.setups, told, strict=True)
    }


def to_tick(plan: Plan, setup: Setup) -> Iterator[tuple[str, str]]:
    """What is confirmed before the setup, each with the rule that asks for it."""
    room = for_plan(plan, "paper")
    for warning in plan.warnings:
        if setup.number in warning.setups:
            yield room.say(warning.tick), warning.caution.rule


def _warned(cautions: Sequence[Caution], full: Sequence[bool], room: Room) -> Warned:
    by_word: dict[str, list[tuple[bool, Line]]] = {}
    for caution, whole in zip(cautions, full, strict=True):
        by_word.setdefault(caution.word, []).append((whole, _line(caution, whole, room)))
    return tuple(
        (word, tuple(line for _, line in sorted(each, key=lambda one: not one[0])))
        for word, each in by_word.items()
    )


def _line(caution: Caution, full: bool, room: Room) -> Line:
    said = parts(room, caution)
    if full:
        return Line(caution.rule, said.hazard, f"{said.consequence} {said.avoidance}")
    return Line(caution.rule, "", said.brief)


def standing(cautions: Sequence[Caution], room: Room) -> tuple[tuple[str, Line], ...]:
    """What the first page says once, each with its signal word."""
    return tuple((caution.word, _line(caution, True, room)) for caution in cautions)
