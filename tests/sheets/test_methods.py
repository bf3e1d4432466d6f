"""What the first page says of other ways, where the search was not cut short and where it was."""

from __future__ import annotations

from fractions import Fraction

import pytest

from sequencer.facts import Fact, claims
from sequencer.plan import Compared
from sequencer.sheets.front import _cost


@pytest.mark.parametrize(
    ("minutes", "bound", "refused", "said"),
    [
        ("45", "45", False, claims.MORE(more=Fraction(5))),
        ("48", "89/2", False, claims.AT_LEAST_MORE(more=Fraction(9, 2))),
        (None, "89/2", False, claims.AT_LEAST_MORE(more=Fraction(9, 2))),
        ("40", "40", False, claims.NO_QUICKER()),
        ("43", "40", False, claims.NO_QUICKER()),
        ("43", "37", False, claims.MORE_AS_ORDERED(more=Fraction(3), less=Fraction(3))),
        ("40", "37", False, claims.NO_QUICKER_AS_ORDERED(less=Fraction(3))),
        (None, "37", False, claims.NOT_ORDERED(less=Fraction(3))),
        ("36", "36", True, claims.REFUSED()),
    ],
)
def test_by_how_much_another_way_lost(
    minutes: str | None, bound: str, refused: bool, said: Fact
) -> None:
    found = None if minutes is None else Fraction(minutes)
    way = Compared({"slot": "dado set"}, found, Fraction(bound), refused)
    assert _cost(way, Fraction(40)) == said
