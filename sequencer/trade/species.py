"""Species and how much they move across the grain (`species.csv`).

Source: *Wood Handbook*, Forest Products Laboratory, FPL-GTR-190 (2010), reissued as FPL-GTR-282
(2021): coefficients of dimensional change, Table 13-5 (p. 13-16); shrinkage from green to ovendry,
Tables 4-3 and 4-4. Each row says which of its figures were seen and which are from memory.
`dust_is` marks what stands, by its kind's name, on the UK Health and Safety Commission's list of
timbers implicated with effects on health (dermatitis, respiratory effects, nasal cancer; Hansard,
written answers, 2 August 1978), of which about the first half was seen: an unmarked wood may harm
as well.
"""

from __future__ import annotations

import csv
import re
from collections.abc import Sequence
from fractions import Fraction
from functools import cache
from pathlib import Path
from typing import Literal

from msgspec import Struct

Sawn = Literal["flat", "quarter"]
"""How a board is sawn: `flat` moves by the tangential figures, `quarter` by the radial ones."""

_FIBRE_SATURATION = Fraction(30)
_SHORT, _LONG = 3, 8
"""Letters: a shorter word has no slips, a longer one may have two."""


class Species(Struct, frozen=True):
    """Coefficients are the share of the width per percent of moisture, from 6 to 14 %; shrinkage
    is in percent, green to ovendry. `None` where the tables have no figure."""

    name: str
    latin: str
    radial: Fraction | None
    tangential: Fraction | None
    radial_shrinkage: Fraction | None
    tangential_shrinkage: Fraction | None
    mark: str
    dry_below: Fraction
    """The moisture from which the wood begins to shrink, in percent."""
    listed: bool = False
    """Whether its dust is on the list of those that are known to harm."""

    def coefficient(self, sawn: Sawn) -> Fraction:
        """The share of the width per percent of moisture; where Table 13-5 has none, what
        Eq. 13-3 gives at 10 %. Raises `ValueError` where the tables have neither."""
        listed = self.tangential if sawn == "flat" else self.radial
        shrinkage = self.shrinkage(sawn)
        if listed is not None:
            return listed
        if shrinkage is None:
            raise ValueError(f"no figure of movement for {self.name}, {sawn} sawn")
        return shrinkage / (100 * self.dry_below - (self.dry_below - 10) * shrinkage)

    def moves(self, sawn: Sawn) -> bool:
        """Whether the tables have a figure."""
        listed = self.tangential if sawn == "flat" else self.radial
        return listed is not None or self.shrinkage(sawn) is not None

    def shrinkage(self, sawn: Sawn) -> Fraction | None:
        return self.tangential_shrinkage if sawn == "flat" else self.radial_shrinkage


@cache
def species() -> tuple[Species, ...]:
    """All rows, in the file's order."""
    text = Path(__file__).with_suffix(".csv").read_text("utf-8")
    return tuple(_row(row) for row in csv.DictReader(text.splitlines()))


def find(name: str) -> tuple[Species, ...]:
    """The species that a name may mean: the one whose words it has, or all whose words include
    its own. Empty where none does.

    >>> [found.name for found in find("black cherry")]
    ['cherry, black']
    >>> len(find("hickory")), find("chipboard")
    (5, ())
    """
    wanted = _words(name)
    exact = tuple(each for each in species() if _words(each.name) == wanted)
    return exact or tuple(each for each in species() if wanted and wanted <= _words(each.name))


def meant_wood(name: str) -> str | None:
    """The name with the words mended that are spelt nearly like words of the tables, if that makes
    it a wood that they know.

    >>> meant_wood("chery"), meant_wood("White Oka"), meant_wood("rosewood"), meant_wood("oak")
    ('cherry', 'white oak', None, None)
    """
    known = sorted({word for each in species() for word in _words(each.name)})
    words = re.findall(r"[a-z]+", name.lower())
    mended = " ".join(word if word in known else _near(word, known) for word in words)
    return mended if mended != name.lower() and find(mended) else None


def _near(word: str, known: Sequence[str]) -> str:
    """The word that one slip, or of a long word two, made this of; itself where there is none."""
    slips = 2 if len(word) > _LONG else 1
    close = [(_slips(word, each), each) for each in known if abs(len(each) - len(word)) <= slips]
    least = min(close, default=(slips + 1, word))
    return least[1] if len(word) >= _SHORT and least[0] <= slips else word


def _slips(one: str, other: str) -> int:
    """How many letters are wrong, missing, too many or exchanged with their neighbours: the optimal
    string alignment distance."""
    rows = [list(range(len(other) + 1))]
    for i, a in enumerate(one, 1):
        row = [i]
        for j, b in enumerate(other, 1):
            least = min(rows[-1][j] + 1, row[-1] + 1, rows[-1][j - 1] + (a != b))
            if i > 1 and j > 1 and (a, one[i - 2]) == (other[j - 2], b):
                least = min(least, rows[-2][j - 2] + 1)
            row.append(least)
        rows.append(row)
    return rows[-1][-1]


def _words(name: str) -> frozenset[str]:
    return frozenset(re.findall(r"[a-z]+", name.lower()))


def _row(row: dict[str, str]) -> Species:
    begins = row["eq_13_3_agrees_at_fsp"]
    return Species(
        name=row["species"],
        latin=row["latin"],
        radial=_number(row["CR"]),
        tangential=_number(row["CT"]),
        radial_shrinkage=_number(row["shrink_radial_pct"]),
        tangential_shrinkage=_number(row["shrink_tangential_pct"]),
        mark=row["coefficients_are"] or row["shrinkage_is"],
        dry_below=Fraction(begins) if begins.isdigit() else _FIBRE_SATURATION,
        listed=row["dust_is"] == "listed",
    )


def _number(text: str) -> Fraction | None:
    return Fraction(text) if text else None
