"""How wide a board is at another moisture.

Source: *Wood Handbook*, FPL-GTR-190 (2010), Eq. 13-2 (p. 13-15) from 6 to 14 % of moisture, and
Eq. 13-3 (p. 13-17; formula from memory) outside. Both overstate the change of boards that are
neither truly flat- nor truly quartersawn (p. 13-17).
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from sequencer.trade.species import Sawn, Species

LINEAR = (Fraction(6), Fraction(14))
"""The range of moisture, in percent, in which width changes in proportion."""


@dataclass(frozen=True, slots=True)
class Year:
    """Moisture in percent: of the wood on the bench today, and over the year in its room."""

    today: Fraction
    driest: Fraction
    wettest: Fraction


def width_at(
    width: Fraction, species: Species, sawn: Sawn, today: Fraction, then: Fraction
) -> Fraction:
    """The width of a board, now `width` at `today` percent, at `then` percent.

    Raises `ValueError` where the tables have no figure for the species.

    >>> from sequencer.trade.species import find
    >>> cherry = find("black cherry")[0]
    >>> float(width_at(Fraction(300), cherry, "flat", Fraction(6), Fraction(11)))
    303.72
    """
    shrinkage = species.shrinkage(sawn)
    inside = all(LINEAR[0] <= moisture <= LINEAR[1] for moisture in (today, then))
    if inside or shrinkage is None:
        return width * (1 + species.coefficient(sawn) * (then - today))
    begins = species.dry_below
    return width * (1 + (then - today) / (begins * 100 / shrinkage - begins + today))


def widest_and_narrowest(
    width: Fraction, candidates: tuple[Species, ...], sawn: Sawn, year: Year
) -> tuple[Fraction, Fraction]:
    """The width in the wettest and the driest season; of several species that a name may mean, the
    one that moves most."""
    widths = [
        width_at(width, each, sawn, year.today, then)
        for each in candidates
        for then in (year.driest, year.wettest)
    ]
    return max(*widths, width), min(*widths, width)
