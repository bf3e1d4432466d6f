"""What setups warn of on paper: every hazard at its setup, in full or in one line."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from sequencer.plan import Caution
from sequencer.wording import Room
from sequencer.wording.cautions import parts


@dataclass(frozen=True, slots=True)
class Line:
    """One hazard: `lead` is printed bold, nothing where it is told in its one line, `rest`."""

    rule: str
    lead: str
    rest: str


Warned = tuple[tuple[str, tuple[Line, ...]], ...]
"""Each signal word of a setup, the worst first, with its hazards: those in full before others."""


def warned(cautions: Sequence[Caution], in_full: Sequence[bool], room: Room) -> Warned:
    """A setup's cautions as its box has them; nothing where there are none."""
    by_word: dict[str, list[tuple[bool, Line]]] = {}
    for caution, full in zip(cautions, in_full, strict=True):
        by_word.setdefault(caution.word, []).append((full, _line(caution, full, room)))
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
