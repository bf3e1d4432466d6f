"""The risk sheet: each hazard that the plan meets, what it may do, what is done about it, where it
is met, and whose rule that is."""

from __future__ import annotations

from collections.abc import Iterator

from msgspec import Struct

from sequencer.instructions import words
from sequencer.plan import Caution, Plan
from sequencer.sheets.warned import signal
from sequencer.wording import Room, papers
from sequencer.wording.cautions import parts


class Risk(Struct, frozen=True):
    rule: str
    word: str
    hazard: str
    harm: str
    who: str
    done: str
    where: str
    source: str


def risks(plan: Plan, room: Room) -> tuple[Risk, ...]:
    """A row a hazard as it is told, those that always hold first. Figures that differ make rows of
    their own."""
    always = room.text(papers.ALWAYS)
    setups: dict[tuple[str, ...], list[int]] = {}
    steps: dict[tuple[str, ...], list[int]] = {}
    standing: dict[tuple[str, ...], None] = {}
    for caution in plan.standing:
        standing[_told(caution, room)] = None
    for number, told in _met(plan):
        setups.setdefault(_told(told, room), []).append(number)
    for step in plan.steps:
        for told in step.cautions if step.setup is None else ():
            steps.setdefault(_told(told, room), []).append(step.number)
    at_saw, at_bench = room.text(papers.AT_SAW), room.text(papers.AT_BENCH)
    rows = [_row(each, always, room.text(papers.IN_ROOM)) for each in standing]
    for each, numbers in setups.items():
        rows.append(_row(each, papers.setups(numbers, words.runs(numbers), room), at_saw))
    for each, numbers in steps.items():
        where = room.counted(papers.STEPS, len(numbers), numbers=words.runs(numbers))
        rows.append(_row(each, where, at_bench))
    return tuple(rows)


def _met(plan: Plan) -> Iterator[tuple[int, Caution]]:
    for setup in plan.setups:
        for told in setup.cautions:
            yield setup.number, told


def _told(caution: Caution, room: Room) -> tuple[str, ...]:
    said = parts(room, caution)
    word = signal(caution.word, room)
    return caution.rule, word, said.hazard, said.consequence, said.avoidance, caution.source


def _row(told: tuple[str, ...], where: str, who: str) -> Risk:
    rule, word, hazard, harm, done, source = told
    return Risk(rule, word, hazard, harm, who, done, where, source)
