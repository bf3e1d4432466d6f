"""How a leaf moves over the year."""

from __future__ import annotations

from fractions import Fraction

from msgspec import Struct

from sequencer.facts import Fact

Three = tuple[Fraction, Fraction, Fraction]
"""In the driest season, today, and in the wettest."""


class PanelSeason(Struct, frozen=True):
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


class BoardSeason(Struct, frozen=True):
    """The boards of one light, each held at its middle alone. `leave` is the gap between the two
    neighbours that move most, `hold` how far a tongue, `tongue` long as cut, is in its groove.
    `edge` is the air from an outer board's edge to the bottom of the stile's groove, `reach` how
    far it is in. `engagement` is to stay in every groove."""

    parts: tuple[str, ...]
    species: tuple[str, ...]
    tongue: Fraction
    depth: Fraction
    engagement: Fraction
    leave: Three
    hold: Three
    edge: Three
    reach: Three


class SlabSeason(Struct, frozen=True):
    """The width of a solid door with the mark `part`."""

    part: str
    species: tuple[str, ...]
    widths: Three


class GapSeason(Struct, frozen=True):
    """The gap on the free side, `lock` or `meeting`, as the wood of the stiles, or of a slab,
    moves: `stiles` is all of its width. It is never to be less than `air`."""

    side: str
    species: tuple[str, ...]
    stiles: Fraction
    air: Fraction
    gaps: Three


class Season(Struct, frozen=True):
    """A leaf's year. `moisture` is the wood's, in percent, and `source` where the room's figures
    come from. `panels`, `boards`, `slab` and `gap` are empty where the leaf has none, or the tables
    do not know its wood."""

    door: str
    sawn: str
    moisture: Three
    source: Fact
    gap: GapSeason | None
    notes: tuple[Fact, ...]
    panels: tuple[PanelSeason, ...] = ()
    boards: tuple[BoardSeason, ...] = ()
    slab: SlabSeason | None = None
