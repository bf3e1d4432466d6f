"""The year of each leaf, as far as the plan's own figures tie it down: what is told of a panel or a
gap in the driest and the wettest season adds up with the pieces, and nothing binds or comes out."""

from __future__ import annotations

from fractions import Fraction

from sequencer.errors import InternalError
from sequencer.facts import promises as told
from sequencer.plan import BoardSeason, GapSeason, PanelSeason, Plan, Season, Three
from sequencer.proof.follow import Made
from sequencer.proof.standing import Standing, groove_depth

LINEAR = (Fraction(6), Fraction(14))
"""Moisture, in percent, within which wood's width changes in proportion: Wood Handbook (2010), Eq.
13-2, p. 13-15."""


def check_seasons(plan: Plan, made: Made = frozenset()) -> None:
    """Raises InternalError, with leaf and piece, for the first figure that does not add up. A leaf
    whose dry fit is `made` already was measured: its panels stand in the opening that it has."""
    leaves = {door.mark: Standing.of(plan, door) for door in plan.doors}
    measured = {
        mark
        for step in plan.steps
        if step.kind == "dry fit"
        for mark in step.marks
        if (step.number, mark) in made
    }
    for season in plan.seasons:
        leaf = leaves.get(season.door)
        if leaf is None:
            continue
        if season.gap is not None:
            _gap(season, season.gap, leaf)
        for panel in season.panels:
            _panel(season, panel, leaf, measured=season.door in measured)
        for boards in season.boards:
            _boards(season, boards)


def _gap(season: Season, gap: GapSeason, leaf: Standing) -> None:
    shrunk, today, swollen = gap.gaps
    width = leaf.door.gaps.get(gap.side)
    steady = _in_proportion(season, (-shrunk, -today, -swollen))
    if today != width or not steady or min(gap.gaps) < gap.air:
        raise InternalError(told.OTHER_GAP_SEASON(door=season.door))


def _panel(season: Season, panel: PanelSeason, leaf: Standing, *, measured: bool) -> None:
    piece = next((p for p in leaf.pieces if p.part.mark == panel.part), None)
    names = {"door": season.door, "piece": panel.part}
    widths = {light[0] for light in leaf.lights()} if leaf.framed else set()
    reach = tuple((width - panel.sight) / 2 for width in panel.widths)
    same = (
        piece is not None
        and panel.widths[1] == piece.part.size.width
        and (measured or panel.sight in widths)
        and groove_depth(leaf) in (None, panel.depth)
        and panel.reach == reach
        and panel.leave == tuple(panel.depth - each for each in reach)
        and _in_proportion(season, panel.widths)
    )
    if not same:
        raise InternalError(told.OTHER_SEASON(**names))
    if min(panel.leave) < 0 or min(panel.reach) < panel.engagement:
        raise InternalError(told.BINDS(**names))


def _boards(season: Season, boards: BoardSeason) -> None:
    names = {"door": season.door, "piece": boards.parts[0]}
    if boards.leave[1] + boards.hold[1] != boards.tongue:
        raise InternalError(told.OTHER_SEASON(**names))
    if any(
        air + reach != boards.depth for air, reach in zip(boards.edge, boards.reach, strict=True)
    ):
        raise InternalError(told.OTHER_SEASON(**names))
    if min(*boards.leave, *boards.edge) < 0 or min(*boards.hold, *boards.reach) < boards.engagement:
        raise InternalError(told.BINDS(**names))


def _in_proportion(season: Season, widths: Three) -> bool:
    """Whether wood grows with its moisture, and within the range of the handbook's rule in
    proportion to it."""
    dry, today, wet = season.moisture
    narrow, now, wide = widths
    ordered = [(b - a) * (y - x) >= 0 for a, b, x, y in (
        (dry, today, narrow, now), (today, wet, now, wide), (dry, wet, narrow, wide))]  # fmt: skip
    if not all(ordered):
        return False
    if not all(LINEAR[0] <= each <= LINEAR[1] for each in season.moisture):
        return True
    return (now - narrow) * (wet - today) == (wide - now) * (today - dry)
