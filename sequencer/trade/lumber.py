"""How lumber is measured and sold: board feet, surface measure, nominal and surfaced sizes.

All in inches and feet, the trade's own units. Thickness is measured before anything is cut: the
names below say only what a board of that name is graded to yield, and stock sold under one name
varies (4/4 comes at 15/16 and at 3/4 in too).
"""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction

from msgspec import Struct

from sequencer.lengths import Unit
from sequencer.trade.fits import RESAWING, RESAWN_PLANED, Datum
from sequencer.trade.species import find
from sequencer.units import converted

JOINTING = Datum(
    Fraction(1, 8), Fraction(3), "common practice: off a strip's two edges before it is glued up"
)

PLANED_AWAY = Datum(
    Fraction(1, 4), Fraction(6), "ours: more than this much thicker, a board is a last resort"
)


class Nominal(Struct, frozen=True):
    """A thickness as it is sold: its name, what it measures by that name, and what it yields
    surfaced on two sides."""

    name: str
    nominal: Fraction
    surfaced: Fraction


HARDWOOD: Sequence[Nominal] = (
    Nominal("4/4", Fraction(1), Fraction(13, 16)),
    Nominal("5/4", Fraction(5, 4), Fraction(17, 16)),
    Nominal("6/4", Fraction(3, 2), Fraction(21, 16)),
    Nominal("8/4", Fraction(2), Fraction(7, 4)),
    Nominal("12/4", Fraction(3), Fraction(11, 4)),
)
"""NHLA rules, standard thickness of surfaced lumber; published, a grading minimum."""

SOFTWOOD: Sequence[Nominal] = (
    Nominal("1", Fraction(1), Fraction(3, 4)),
    Nominal("2", Fraction(2), Fraction(3, 2)),
)
"""American Softwood Lumber Standard PS 20, dry; published."""

SOFTWOOD_WIDTHS: Sequence[Nominal] = (
    Nominal("2", Fraction(2), Fraction(3, 2)),
    Nominal("4", Fraction(4), Fraction(7, 2)),
    Nominal("6", Fraction(6), Fraction(11, 2)),
    Nominal("8", Fraction(8), Fraction(29, 4)),
)
"""PS 20, dry; published."""

_SOFT_GENERA = frozenset(
    {
        "Abies", "Callitropsis", "Calocedrus", "Chamaecyparis", "Cupressus", "Juniperus", "Larix",
        "Libocedrus", "Picea", "Pinus", "Pseudotsuga", "Sequoia", "Taxodium", "Taxus", "Thuja",
        "Tsuga",
    }
)  # fmt: skip
"""Conifers: a softwood is the wood of one, however hard it is."""


def board_feet(thickness: Fraction, width: Fraction, length: Fraction) -> Fraction:
    """Of a piece in inches, all three; what is under 1 in thick counts as 1 in.

    >>> board_feet(Fraction(3, 4), Fraction(12), Fraction(12))
    Fraction(1, 1)
    """
    return converted(max(thickness, Fraction(1)) * width * length, "inch ** 3", "board_foot")


def surface_measure(width: Fraction, length: Fraction) -> int:
    """Of a board `width` inches wide and `length` feet long: its face in square feet, to the
    nearest whole one (NHLA rule book, paragraph 16). Exactly half a foot goes alternately up and
    down in a tally; alone it goes to the even number.

    >>> surface_measure(Fraction(25, 4), Fraction(8))
    4
    """
    return round(width * length / 12)


def is_softwood(species: str) -> bool:
    """Whether all that the name may mean are conifers; an unknown name is taken for a hardwood."""
    found = find(species)
    return bool(found) and all(each.latin.split()[0] in _SOFT_GENERA for each in found)


def resawn_thickness(finished: Fraction, unit: Unit) -> Fraction:
    """How thick the piece is that yields two of `finished` thickness, its outer faces planed.

    >>> resawn_thickness(Fraction(1, 4), "in")
    Fraction(11, 16)
    """
    return 2 * (finished + RESAWN_PLANED.of(unit)) + RESAWING.of(unit)


def nominal_thickness(thickness: Fraction, *, softwood: bool = False) -> Nominal | None:
    """The thinnest that yields `thickness` inches when surfaced; `None` where none in the table
    does.

    >>> nominal_thickness(Fraction(3, 4)).name, nominal_thickness(Fraction(7, 8)).name
    ('4/4', '5/4')
    """
    return _least(SOFTWOOD if softwood else HARDWOOD, thickness)


def nominal_width(width: Fraction) -> Nominal | None:
    """The narrowest softwood board that is `width` inches wide when dressed.

    >>> nominal_width(Fraction(21, 8)).name
    '4'
    """
    return _least(SOFTWOOD_WIDTHS, width)


def _least(table: Sequence[Nominal], wanted: Fraction) -> Nominal | None:
    return next((each for each in table if each.surfaced >= wanted), None)
