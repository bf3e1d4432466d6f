"""Window glass by its name, and what it measures.

Least thicknesses: ASTM C1036, published; the most: from memory. A pane is measured all the same.
"""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction

from msgspec import Struct

from sequencer.lengths import Unit, convert
from sequencer.trade.fits import Datum

CUT_BAND = Datum(
    Fraction(5, 64), Fraction(2), "glazier's guidance, published: panes come 2 mm over or under"
)
PANE_OVER = Datum(
    Fraction(1, 32), Fraction(4, 5), "ours: as much larger it goes in however its rebates came out"
)


class Sheet(Struct, frozen=True):
    """Glass as it is sold, in millimetres."""

    name: str
    least: Fraction
    most: Fraction


def _sheet(name: str, least: str, most: str) -> Sheet:
    return Sheet(name, Fraction(least), Fraction(most))


SHEETS: Sequence[Sheet] = (
    _sheet("2.5 mm", "2.16", "2.57"),
    _sheet("3 mm", "2.92", "3.40"),
    _sheet("4 mm", "3.78", "4.19"),
    _sheet("5 mm", "4.57", "5.05"),
    _sheet("6 mm", "5.56", "6.20"),
)


def sold_as(thickness: Fraction, unit: Unit) -> str | None:
    """What a pane that measures `thickness` is sold as; `None` where none in the table is.

    >>> sold_as(Fraction(1, 8), "in"), sold_as(Fraction(9, 2), "mm")
    ('3 mm', None)
    """
    mm = convert(thickness, unit, "mm")
    return next((each.name for each in SHEETS if each.least <= mm <= each.most), None)
