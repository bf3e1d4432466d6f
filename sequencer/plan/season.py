"""How a leaf moves over the year."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

Three = tuple[Fraction, Fraction, Fraction]
"""In the driest season, today, and in the wettest."""


@dataclass(frozen=True, slots=True)
class PanelSeason:
    """The panel with the mark `part` between stiles `sight` apart, in grooves `depth` deep.
    `species` are those that its wood's name may mean; of several, the widths are of the one that
    moves most. `leave` is the air from its edge to the groove's bottom at each side, and
    `reach` how far it is in, both while it stands in the middle."""

    part: str
    species: tuple[str, ...]
    sight: Fraction
    depth: Fraction
    engagement: Fraction
    widths: Three
    leave: Three
    reach: Three


@dataclass(frozen=True, slots=True)
class GapSeason:
    """The gap on the free side, `lock` or `meeting`, as the stiles move; it is never to be less
    than `air`."""

    side: str
    species: tuple[str, ...]
    stiles: Fraction
    air: Fraction
    gaps: Three


@dataclass(frozen=True, slots=True)
class Season:
    """A leaf's year. `moisture` is the wood's, in percent, and `source` where the room's figures
    come from. `panel` or `gap` is `None` where the tables do not know its wood."""

    door: str
    sawn: str
    moisture: Three
    source: str
    panel: PanelSeason | None
    gap: GapSeason | None
    notes: tuple[str, ...]
