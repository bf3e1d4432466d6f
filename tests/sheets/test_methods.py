"""What the first page says of other ways, where the search was not cut short and where it was."""

from __future__ import annotations

from fractions import Fraction

import pytest

from sequencer.plan import Compared
from sequencer.sheets.front import _cost


@pytest.mark.parametrize(
    ("minutes", "bound", "refused", "said"),
    [
        ("45", "45", False, "5 minutes more"),
        ("48", "89/2", False, "at least 4½ minutes more"),
        (None, "89/2", False, "at least 4½ minutes more"),
        ("40", "40", False, "no quicker"),
        ("43", "40", False, "no quicker"),
        ("43", "37", False, "3 minutes more as ordered, 3 minutes less at the very most"),
        ("40", "37", False, "no quicker as ordered, 3 minutes less at the very most"),
        (None, "37", False, "not ordered; 3 minutes less at the very most"),
        ("36", "36", True, "refused as unsafe"),
    ],
)
def test_by_how_much_another_way_lost(
    minutes: str | None, bound: str, refused: bool, said: str
) -> None:
    found = None if minutes is None else Fraction(minutes)
    way = Compared({"slot": "dado set"}, found, Fraction(bound), refused)
    assert _cost(way, Fraction(40)) == said
