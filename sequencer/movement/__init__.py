"""How wide a board is at another moisture.

Source: *Wood Handbook*, FPL-GTR-190 (2010), Eq. 13-2 (p. 13-15) from 6 to 14 % of moisture, and
Eq. 13-3 (p. 13-17; formula from memory) outside. Both overstate the change of boards that are
neither truly flat- nor truly quartersawn (p. 13-17).
"""

from __future__ import annotations

from fractions import Fraction
from functools import cache

from msgspec import Struct

from sequencer.facts import Fact
from sequencer.trade.species import Sawn, Species, find

LINEAR = (Fraction(6), Fraction(14))
"""The range of moisture, in percent, in which width changes in proportion."""


class Year(Struct, frozen=True):
    """Moisture in percent: of the wood on the bench today, and over the year in its room. `source`
    says where the room's figures come from."""

    today: Fraction
    driest: Fraction
    wettest: Fraction
    source: Fact


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


class Moves(Struct, frozen=True):
    """What a board becomes over the year, as shares of its width today. Of several species that a
    name may mean, the one that moves most in each direction; `species` are their names."""

    species: tuple[str, ...]
    driest: Fraction
    wettest: Fraction

    @property
    def narrowest(self) -> Fraction:
        """Today counts too: the wood on the bench may be drier than its room will ever be."""
        return min(self.driest, self.wettest, Fraction(1))

    @property
    def widest(self) -> Fraction:
        return max(self.driest, self.wettest, Fraction(1))


@cache
def moves(name: str, sawn: Sawn, year: Year) -> Moves | None:
    """How the wood called `name` moves; `None` where the tables know no such wood.

    >>> from sequencer.facts import seasons
    >>> year = Year(Fraction(8), Fraction(6), Fraction(10), seasons.AS_JOB_SAYS())
    >>> moves("cherry", "flat", year)
    Moves(species=('cherry, black',), driest=Fraction(6219, 6250), wettest=Fraction(6281, 6250))
    >>> moves("chipboard", "flat", year) is None
    True
    """
    known = [each for each in find(name) if each.moves(sawn)]
    if not known:
        return None
    return Moves(
        tuple(each.name for each in known),
        _farthest(known, sawn, year.today, year.driest),
        _farthest(known, sawn, year.today, year.wettest),
    )


def _farthest(candidates: list[Species], sawn: Sawn, today: Fraction, then: Fraction) -> Fraction:
    """The width at `then`, or on the way there where Eq. 13-2 gives more at the end of its range
    than Eq. 13-3 does beyond: for grouped and imported woods they disagree."""
    on_the_way = min(max(then, LINEAR[0]), LINEAR[1])
    moistures = [then, on_the_way] if LINEAR[0] <= today <= LINEAR[1] else [then]
    widths = [
        width_at(Fraction(1), each, sawn, today, moisture)
        for each in candidates
        for moisture in moistures
    ]
    return max(widths) if then >= today else min(widths)
