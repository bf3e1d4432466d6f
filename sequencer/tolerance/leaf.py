"""What is required of a leaf whole: it goes into its opening all year, laps over, and is square."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from itertools import pairwise

from sequencer.plan import Door, Plan
from sequencer.saw.measures import What as Measured
from sequencer.tolerance.cases import ZERO, Case, Limits, known
from sequencer.tolerance.forms import total
from sequencer.tolerance.standing import Piece, Standing
from sequencer.trade import requirements as asked


def leaf_cases(plan: Plan, door: Door, leaf: Standing) -> Iterator[Case]:
    """What is required of the leaf whole: it goes into its opening, and is square."""
    nothing = Limits(ZERO, None, asked.NOUGHT.source)
    season = leaf.season
    for number, check in enumerate(plan.checkpoints):
        if door.mark not in check.marks or check.knob is not None:
            continue
        read = leaf.errors.read(number)
        match check.measure.what:
            case Measured.GAP:
                closes = ZERO
                if season is not None and season.gap is not None:
                    closes = season.gap.gaps[1] - min(season.gap.gaps)
                yield Case("gap-open", (door.mark,), check.exact - closes, read, nothing)
            case Measured.LAP:
                yield Case("lap-covers", (door.mark,), check.exact, read, nothing)
    yield from _square(plan, door, leaf)
    yield from _height(door, leaf)


def _square(plan: Plan, door: Door, leaf: Standing) -> Iterator[Case]:
    marks = {door.mark, *(place.mark for place in door.places)}
    found = [
        number
        for number, check in enumerate(plan.checkpoints)
        if check.measure.what is Measured.DIAGONALS and marks & set(check.marks)
    ]
    if found:
        most = asked.DIAGONALS.of(plan.unit)
        limits = Limits(None, most, asked.DIAGONALS.source)
        target = plan.checkpoints[found[-1]].exact
        yield Case("square", (door.mark,), target, leaf.errors.read(found[-1]), limits)


def _height(door: Door, leaf: Standing) -> Iterator[Case]:
    """The gaps above and below together, rails grown over the year. A leaf is no higher than its
    stiles, whose ends are planed to the rails' edges and never beyond; and as high as its rails and
    the lights between them. What tells it closer counts."""
    gaps = door.gaps.get("top", ZERO) + door.gaps.get("bottom", ZERO)
    if min(door.gaps.get("top", ZERO), door.gaps.get("bottom", ZERO)) < 0:
        return
    upright = [p for p in leaf.pieces if p.part.role in ("stile", "slab")]
    forms = known(*(leaf.floor.length(piece.part.mark) for piece in upright))
    ways = []
    if forms:
        long = upright[0].part.size.length
        ways.append((gaps - (long - door.size[1]), forms[0] * -1))
    rails = leaf.column()
    lights = known(*(leaf.light_height(*two) for two in pairwise(rails)))
    widths = known(*(leaf.floor.width(rail.part.mark) for rail in rails))
    if len(rails) > 1 and lights is not None and widths is not None:
        ways.append((gaps - _grown(leaf, rails), total((*lights, *widths)) * -1))
    if ways:
        nominal, off = max(ways, key=lambda way: way[0] + leaf.errors.range(way[1])[0])
        limits = Limits(ZERO, None, asked.NOUGHT.source)
        yield Case("height-in-opening", (door.mark,), nominal, off, limits)


def _grown(leaf: Standing, rails: list[Piece]) -> Fraction:
    """What rails grow across the grain, as stiles do."""
    gap = leaf.season.gap if leaf.season is not None else None
    if gap is None or not gap.stiles:
        return ZERO
    swells = (gap.gaps[1] - min(gap.gaps)) / gap.stiles
    return swells * sum((rail.part.size.width for rail in rails), ZERO)
