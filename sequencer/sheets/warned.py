"""What setups and bench steps warn of on paper: every hazard where it is met, in full or in one
line."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence

from msgspec import Struct

from sequencer.facts import cautions
from sequencer.instructions.signs import PICTOGRAMS
from sequencer.plan import Caution, Plan, Setup, in_full
from sequencer.wording import Room, papers
from sequencer.wording.cautions import parts


class Line(Struct, frozen=True):
    """One hazard: its `sign`, if it has one; `lead` is printed bold, nothing where it is told in
    its one line, `rest`."""

    rule: str
    sign: str
    lead: str
    rest: str


Warned = tuple[tuple[str, str, tuple[Line, ...]], ...]
"""Each signal word of a setup or step, the worst first, with what it is called and its hazards:
those in full before others."""


def boxes(plan: Plan, room: Room) -> Mapping[int, Warned]:
    """Each setup's box by its number; nothing in it where the setup warns of nothing."""
    return _boxes({setup.number: setup.cautions for setup in plan.setups}, plan, room)


def bench_boxes(plan: Plan, room: Room) -> Mapping[int, Warned]:
    """The same of each bench step, by the step's number."""
    steps = {step.number: step.cautions for step in plan.steps if step.setup is None}
    return _boxes(steps, plan, room)


def _boxes(
    cautions: Mapping[int, Sequence[Caution]], plan: Plan, room: Room
) -> Mapping[int, Warned]:
    told = in_full(cautions.values(), plan.standing)
    return {
        number: _warned(each, full, room)
        for (number, each), full in zip(cautions.items(), told, strict=True)
    }


def to_tick(plan: Plan, setup: Setup, room: Room) -> Iterator[tuple[str, str]]:
    """What is confirmed before the setup, each with the rule that asks for it; shorter where an
    earlier setup has asked for it and the same is to be written again."""
    for warning in plan.warnings:
        if setup.number not in warning.setups:
            continue
        again = warning.tick.kind is cautions.TICK_COVER and setup.number != min(warning.setups)
        yield (
            room.text(papers.COVERED_BY) if again else room.say(warning.tick),
            warning.caution.rule,
        )


def _warned(cautions: Sequence[Caution], full: Sequence[bool], room: Room) -> Warned:
    by_word: dict[str, list[tuple[bool, Line]]] = {}
    for caution, whole in zip(cautions, full, strict=True):
        by_word.setdefault(caution.word, []).append((whole, _line(caution, whole, room)))
    return tuple(
        (
            word,
            signal(word, room),
            tuple(line for _, line in sorted(each, key=lambda one: not one[0])),
        )
        for word, each in by_word.items()
    )


def _line(caution: Caution, full: bool, room: Room) -> Line:
    said = parts(room, caution)
    sign = PICTOGRAMS.get(caution.rule, "")
    if full:
        return Line(caution.rule, sign, said.hazard, f"{said.consequence} {said.avoidance}")
    return Line(caution.rule, sign, "", said.brief)


def signal(word: str, room: Room) -> str:
    """What a signal word is called."""
    return room.term(f"signal.{word}")


def standing(cautions: Sequence[Caution], room: Room) -> tuple[tuple[str, Line], ...]:
    """What the first page says once, each with its signal word."""
    return tuple((signal(each.word, room), _line(each, True, room)) for each in cautions)
