"""What is done off the saw: milling, dry fit, finish, glue, planing flush, hanging."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from fractions import Fraction
from math import isqrt

from sequencer.cuts.context import Context
from sequencer.cuts.model import Check, Operation
from sequencer.doors import Leaf
from sequencer.facts import Fact, feels
from sequencer.operations.fill_cuts import between_boards, glaze
from sequencer.operations.filling import StickPlan, Stock
from sequencer.operations.shaping import rebate_meeting
from sequencer.plan import PanelSeason
from sequencer.saw.measures import Measure, What
from sequencer.saw.operation import OperationId
from sequencer.trade import fits


def mill(number: int, stock: Stock, sticks: Sequence[StickPlan], context: Context) -> Operation:
    """All stock of one thickness in one go, the test stick included."""
    spread = context.fact(fits.STOCK_SPREAD)
    marks = tuple(plan.stick.mark for plan in sticks)
    check = Check(
        measure=Measure(What.STOCK),
        target=stock.thickness,
        low=stock.thickness - spread / 2,
        high=stock.thickness + spread / 2,
        feel=feels.EVERY_STRIP(),
        marks=marks,
    )
    return Operation(
        OperationId(f"stock-{number}", "mill"), "mill", marks[0], checks=(check,), marks=marks
    )


def assemble(leaf: Leaf, context: Context) -> Iterator[Operation]:
    """A leaf's bench work in its order. Kinds: dry fit, trim, finish, glue-up, diagonals, flush,
    rebate meeting, glaze, hang."""
    mark = leaf.door.mark
    marks = (mark,)
    yield Operation(
        OperationId(mark, "dry-fit"), "dry fit", mark, checks=_dry(leaf, context), marks=marks
    )
    if leaf.trims:
        yield Operation(OperationId(mark, "trim"), "trim", mark, removes=leaf.trims, marks=marks)
    made = (mark, *(part.mark for part in leaf.fills))
    yield Operation(
        OperationId(mark, "finish"), "finish", mark, checks=_panel(leaf, context), marks=made
    )
    gaps = between_boards(leaf, context)
    yield Operation(OperationId(mark, "glue-up"), "glue-up", mark, checks=gaps, marks=marks)
    yield Operation(
        OperationId(mark, "diagonals"),
        "diagonals",
        mark,
        checks=_square(leaf, context),
        marks=marks,
    )
    yield Operation(OperationId(mark, "flush"), "flush", mark, removes=leaf.flush, marks=marks)
    yield from rebate_meeting(leaf, context)
    yield from glaze(leaf, context)
    yield Operation(
        OperationId(mark, "hang"), "hang", mark, checks=free_gap(leaf, context), marks=marks
    )


def diagonal(width: Fraction, height: Fraction) -> Fraction:
    """√(w² + h²) to the nearest thousandth below: irrational lengths end here, on the bench.

    >>> diagonal(Fraction(3), Fraction(4))
    Fraction(5, 1)
    """
    square = width**2 + height**2
    return Fraction(isqrt(square.numerator * 10**6 // square.denominator), 1000)


def _either_way(
    measure: Measure, target: Fraction, fact: fits.Datum, feel: Fact, leaf: Leaf, context: Context
) -> Check:
    band = context.fact(fact)
    return Check(measure, target, target - band, target + band, feel, (leaf.door.mark,))


def _dry(leaf: Leaf, context: Context) -> tuple[Check, ...]:
    joint = leaf.spec.joint
    stubs = "stub tenon" in (joint.kind, joint.bars if leaf.spec.bars else "")
    feel = feels.CLOSED_DRY_STUBS() if stubs else feels.CLOSED_DRY()
    openings = [*_openings(leaf), *_lights(leaf)]
    return (
        *(_either_way(name, size, fits.LIGHT_BAND, feel, leaf, context) for name, size in openings),
        _difference(leaf, context),
    )


def _openings(leaf: Leaf) -> Iterator[tuple[Measure, Fraction]]:
    """Inside the frame, where no bar stands in the way; below a shaped rail, at both stiles and
    where it is highest."""
    width, height = leaf.sight
    roles = {part.role for part in leaf.frame}
    if "mullion" not in roles:
        yield Measure(What.OPENING_WIDTH), width
    if "mid rail" in roles:
        return
    if leaf.shaped is None:
        yield Measure(What.OPENING_HEIGHT), height
        return
    curve = leaf.shaped.curve
    if curve.highest == "middle":
        yield Measure(What.OPENING_HEIGHT, "stiles"), height
        yield Measure(What.OPENING_HEIGHT, "middle"), height + curve.rise
        return
    for side in ("left", "right"):
        rise = curve.rise if curve.highest == side else Fraction(0)
        yield Measure(What.OPENING_HEIGHT, side), height + rise


def _lights(leaf: Leaf) -> Iterator[tuple[Measure, Fraction]]:
    """Each light that bars leave; alike ones together. Below a shaped rail a light is measured
    where it is lowest, which tells how far the rails are apart, and where it is highest."""
    if len(leaf.lights) < 2:
        return
    sizes = [(light.width, light.height) for light in leaf.lights]
    if len(set(sizes)) == 1 and leaf.shaped is None:
        yield Measure(What.EACH_WIDTH), sizes[0][0]
        yield Measure(What.EACH_HEIGHT), sizes[0][1]
        return
    for number, (width, height) in enumerate(sizes, 1):
        yield Measure(What.LIGHT_WIDTH, which=str(number)), width
        if number == 1 and leaf.shaped is not None:
            low = height - leaf.shaped.curve.rise
            yield Measure(What.LIGHT_HEIGHT, "lowest", "1"), low
            yield Measure(What.LIGHT_HEIGHT, "highest", "1"), height
        else:
            yield Measure(What.LIGHT_HEIGHT, which=str(number)), height


def _diagonal(leaf: Leaf) -> tuple[Measure, Fact, Fraction]:
    """What is measured from corner to corner, how, and what it is: the frame's opening, or below a
    shaped rail, whose corners may lie at unlike heights, the stiles' ends."""
    if leaf.shaped is None:
        return Measure(What.DIAGONAL, "inside"), feels.CORNERS_INSIDE(), diagonal(*leaf.sight)
    (stile, *_) = leaf.parts
    long = diagonal(leaf.door.size[0], stile.size.length)
    return Measure(What.DIAGONAL, "outside"), feels.CORNERS_OUTSIDE(), long


def _difference(leaf: Leaf, context: Context) -> Check:
    band = context.fact(fits.DIAGONAL_BAND)
    zero = Fraction(0)
    _, feel, _ = _diagonal(leaf)
    return Check(Measure(What.DIAGONALS), zero, zero, band, feel, (leaf.door.mark,))


def _square(leaf: Leaf, context: Context) -> tuple[Check, ...]:
    feel = feels.IN_CRAMPS()
    name, _, target = _diagonal(leaf)
    return (
        _either_way(name, target, fits.CORNERS_BAND, feel, leaf, context),
        _difference(leaf, context),
    )


def _panel(leaf: Leaf, context: Context) -> tuple[Check, ...]:
    """How wide the panel is to be today, where its movement is known; what its air and its hold
    leave for that is in its size."""
    return tuple(_width(panel, context) for panel in leaf.season.panels) if leaf.season else ()


def _width(season: PanelSeason, context: Context) -> Check:
    today, band = season.widths[1], context.fact(fits.PANEL_BAND)
    return Check(
        measure=Measure(What.PANEL_WIDTH),
        target=today,
        low=today - band,
        high=today + band,
        feel=feels.ACROSS_GRAIN(),
        marks=(season.part,),
    )


def free_gap(leaf: Leaf, context: Context) -> tuple[Check, ...]:
    """The free side's gap today; where the stiles' movement is known, no less than leaves half of
    its air in the wettest season. Where a side laps over the case instead, how far."""
    return (*_laps(leaf, context), *_free(leaf, context))


def _laps(leaf: Leaf, context: Context) -> Iterator[Check]:
    feel = feels.EVEN_LAP()
    for side, gap in leaf.door.gaps.items():
        if gap < 0:
            yield _either_way(Measure(What.LAP, side), -gap, fits.OPENING_BAND, feel, leaf, context)


def _free(leaf: Leaf, context: Context) -> Iterator[Check]:
    side = "meeting" if "meeting" in leaf.door.gaps else "lock"
    target = leaf.door.gaps[side]
    if target < 0:
        return
    name = Measure(What.GAP, side)
    season = leaf.season and leaf.season.gap
    if not season:
        feel = feels.EVEN_GAP()
        yield _either_way(name, target, fits.OPENING_BAND, feel, leaf, context)
        return
    today = season.gaps[1]
    band = context.fact(fits.OPENING_BAND)
    least = min(today, season.air / 2 + today - min(season.gaps))
    feel = feels.EVEN_GAP_CLOSES()
    yield Check(name, today, max(today - band, least), today + band, feel, (leaf.door.mark,))
