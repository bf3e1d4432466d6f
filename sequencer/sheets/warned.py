"""What setups warn of on paper: every hazard at its setup, and once before all setups in full."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from sequencer.plan import Caution, Plan


@dataclass(frozen=True, slots=True)
class Warned:
    """A setup's hazards: the worst, told in full, as it says what is on and what is off; the
    others by signal word."""

    worst: Caution
    others: tuple[tuple[str, tuple[Caution, ...]], ...]


def warned(cautions: Sequence[Caution]) -> Warned | None:
    """A setup's cautions, the worst first, as its box has them; `None` where there are none."""
    if not cautions:
        return None
    by_word: dict[str, list[Caution]] = {}
    for caution in cautions[1:]:
        by_word.setdefault(caution.word, []).append(caution)
    return Warned(cautions[0], tuple((word, tuple(each)) for word, each in by_word.items()))


def told_in_full(plan: Plan) -> tuple[tuple[Caution, tuple[int, ...]], ...]:
    """What is told at setups by its hazard alone, each thing to do once, with their numbers. The
    hazard's figures are those of the first."""
    found: dict[tuple[str, str, str], tuple[Caution, list[int]]] = {}
    for setup in plan.setups:
        for caution in setup.cautions[1:]:
            same = (caution.rule, caution.consequence, caution.avoidance)
            numbers = found.setdefault(same, (caution, []))[1]
            if setup.number not in numbers:
                numbers.append(setup.number)
    return tuple((caution, tuple(numbers)) for caution, numbers in found.values())
