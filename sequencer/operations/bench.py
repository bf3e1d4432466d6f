"""What is done off the saw: milling, dry fit, finish, glue, planing flush, hanging."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from fractions import Fraction
from math import isqrt

from sequencer.cuts.context import Context
from sequencer.cuts.model import Check, Operation
from sequencer.doors import Leaf
from sequencer.operations.fill_cuts import glaze
from sequencer.operations.sticks import StickPlan, Stock
from sequencer.plan import PanelSeason
from sequencer.trade import fits


def mill(number: int, stock: Stock, sticks: Sequence[StickPlan], context: Context) -> Operation:
    """All stock of one thickness in one go, the test stick included."""
    spread = context.fact(fits.STOCK_SPREAD)
    marks = tuple(plan.stick.mark for plan in sticks)
    check = Check(
        measure="thickness, thinnest to thickest",
        target=stock.thickness,
        low=stock.thickness - spread / 2,
        high=stock.thickness + spread / 2,
        feel="caliper at both ends and the middle of every stick",
        marks=marks,
    )
    return Operation(f"stock-{number}/mill", "mill", marks[0], checks=(check,), marks=marks)


def assemble(leaf: Leaf, context: Context) -> Iterator[Operation]:
    """A leaf's bench work in its order. Kinds: dry fit, trim, finish, glue-up, diagonals, flush,
    glaze, hang."""
    mark = leaf.door.mark
    marks = (mark,)
    yield Operation(f"{mark}/dry-fit", "dry fit", mark, checks=_dry(leaf, context), marks=marks)
    if leaf.trims:
        yield Operation(f"{mark}/trim", "trim", mark, removes=leaf.trims, marks=marks)
    made = (mark, *(part.mark for part in leaf.fills))
    yield Operation(f"{mark}/finish", "finish", mark, checks=_panel(leaf, context), marks=made)
    yield Operation(f"{mark}/glue-up", "glue-up", mark, marks=marks)
    yield Operation(
        f"{mark}/diagonals", "diagonals", mark, checks=_square(leaf, context), marks=marks
    )
    yield Operation(f"{mark}/flush", "flush", mark, removes=leaf.flush, marks=marks)
    yield from glaze(leaf, context)
    yield Operation(f"{mark}/hang", "hang", mark, checks=free_gap(leaf, context), marks=marks)


def diagonal(width: Fraction, height: Fraction) -> Fraction:
    """√(w² + h²) to the nearest thousandth below: irrational lengths end here, on the bench.

    >>> diagonal(Fraction(3), Fraction(4))
    Fraction(5, 1)
    """
    square = width**2 + height**2
    return Fraction(isqrt(square.numerator * 10**6 // square.denominator), 1000)


def _either_way(
    measure: str, target: Fraction, fact: fits.Fact, feel: str, leaf: Leaf, context: Context
) -> Check:
    band = context.fact(fact)
    return Check(measure, target, target - band, target + band, feel, (leaf.door.mark,))


def _dry(leaf: Leaf, context: Context) -> tuple[Check, ...]:
    feel = "together without force, every shoulder closed; write down what it really is"
    width, height = leaf.sight
    return (
        _either_way("opening between the stiles", width, fits.OPENING_BAND, feel, leaf, context),
        _either_way("opening between the rails", height, fits.OPENING_BAND, feel, leaf, context),
        _difference(leaf, context),
    )


def _difference(leaf: Leaf, context: Context) -> Check:
    band = context.fact(fits.DIAGONAL_BAND)
    zero = Fraction(0)
    feel = "corner to corner inside the frame, both ways"
    return Check("difference of the diagonals", zero, zero, band, feel, (leaf.door.mark,))


def _square(leaf: Leaf, context: Context) -> tuple[Check, ...]:
    feel = "in the clamps, before the glue grabs: shift a clamp until both are equal"
    target = diagonal(*leaf.sight)
    return (
        _either_way("diagonal inside the frame", target, fits.DIAGONAL_BAND, feel, leaf, context),
        _difference(leaf, context),
    )


def _panel(leaf: Leaf, context: Context) -> tuple[Check, ...]:
    """How wide the panel may be today, where its movement is known: no wider than swells to the
    grooves' bottoms less a little air, no narrower than stays in them in the driest season."""
    return tuple(_width(season, context) for season in leaf.season.panels) if leaf.season else ()


def _width(season: PanelSeason, context: Context) -> Check:
    today = season.widths[1]
    most = season.sight + 2 * (season.depth - context.fact(fits.PANEL_AIR))
    return Check(
        measure="panel width, today",
        target=today,
        low=min(today, (season.sight + 2 * season.engagement) * today / min(season.widths)),
        high=max(today, most * today / max(season.widths)),
        feel="across the grain, before finish; a wider one is planed down",
        marks=(season.part,),
    )


def free_gap(leaf: Leaf, context: Context) -> tuple[Check, ...]:
    """The free side's gap today; where the stiles' movement is known, no less than leaves air in
    the wettest season."""
    side = "meeting" if "meeting" in leaf.door.gaps else "lock"
    name = "gap between the leaves" if side == "meeting" else "gap on the lock side"
    season = leaf.season and leaf.season.gap
    if not season:
        feel = "even from top to bottom; wood gains and loses width with the season"
        target = leaf.door.gaps[side]
        return (_either_way(name, target, fits.OPENING_BAND, feel, leaf, context),)
    today = season.gaps[1]
    band = context.fact(fits.OPENING_BAND)
    least = min(today, season.air + today - min(season.gaps))
    feel = "even from top to bottom; a narrower one closes in the wettest season"
    return (Check(name, today, max(today - band, least), today + band, feel, (leaf.door.mark,)),)
