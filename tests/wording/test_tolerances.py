"""What is said of what a plan says of its requirements: each sentence once."""

from __future__ import annotations

from fractions import Fraction

import pytest

from sequencer.facts import Fact, Value, tolerances
from sequencer.plan.requirements import What
from sequencer.wording import Room
from sequencer.wording.tolerances import TERMS
from tests.told import mm

AIR: dict[str, Value] = {"what": "required.tenon-in-slot", "pieces": ("A1", "A3")}
SAID: list[tuple[Fact, str]] = [
    (
        tolerances.MISSING(**AIR),
        "Air between tenon and slot, A1, A3: the plan does not say how it comes out",
    ),
    (
        tolerances.NOTHING_ASKED(**AIR),
        "Air between tenon and slot, A1, A3: nothing in the plan is held to that",
    ),
    (
        tolerances.OTHER_LIMITS(**AIR),
        "Air between tenon and slot, A1, A3: that is not what it is held to",
    ),
    (
        tolerances.OTHER_WORST(
            **AIR,
            least=mm("-0.1"),
            most=mm("0.5"),
            told_least=mm("0.2"),
            told_most=mm("0.4"),
        ),
        (
            "Air between tenon and slot, A1, A3: at the worst it comes out between -0.10 mm and "
            "0.50 mm, and the plan says 0.20 mm and 0.40 mm"
        ),
    ),
    (
        tolerances.OTHER_SHARE(**AIR),
        "Air between tenon and slot, A1, A3: what the plan says takes a share of it does not",
    ),
    (
        tolerances.OTHER_COUNT(**AIR, found=8, told=7),
        "Air between tenon and slot, A1, A3: there are 8 of them, and the plan says 7",
    ),
    (
        tolerances.OTHER_FIRST_TRY(**AIR, found=Fraction(3, 4), told=Fraction(4, 5)),
        (
            "Air between tenon and slot, A1, A3: a share of about 3/4 is right at the first try, "
            "and the plan says 4/5"
        ),
    ),
]


@pytest.mark.parametrize(("fact", "said"), SAID, ids=lambda each: getattr(each, "id", ""))
def test_it_is_said(fact: Fact, said: str) -> None:
    assert Room("UK").say(fact) == said


def test_every_requirement_has_its_words() -> None:
    names = {f"required.{what}" for what in What.__args__}  # type: ignore[attr-defined]  # a literal
    assert names == TERMS.keys()
