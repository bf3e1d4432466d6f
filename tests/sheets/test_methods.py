"""What the first page says of other ways, where the search was not cut short and where it was."""

from __future__ import annotations

from fractions import Fraction

import pytest

from sequencer.plan import Method
from sequencer.sheets.front import _cost
from sequencer.wording import Room

CHOSEN = Method({"slot": "turned"}, Fraction(40), exact=False, chosen=True)


@pytest.mark.parametrize(
    ("minutes", "exact", "refused", "said"),
    [
        ("45", True, False, "5 minutes more"),
        ("89/2", False, False, "at least 4½ minutes more"),
        ("40", True, False, "no quicker"),
        ("40", False, False, "no quicker"),
        ("37", False, False, "not tried; 3 minutes less at the very most"),
        ("36", True, True, "refused as unsafe"),
    ],
)
def test_by_how_much_another_way_lost(minutes: str, exact: bool, refused: bool, said: str) -> None:
    other = Method({"slot": "dado set"}, Fraction(minutes), exact, chosen=False, refused=refused)
    assert _cost(other, CHOSEN, Room("UK")) == said
