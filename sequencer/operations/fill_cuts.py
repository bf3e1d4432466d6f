"""What fills a frame: a raised panel's bevels; at the bench, glass bedded and held by its stops,
and the gaps between boards."""

from __future__ import annotations

from collections.abc import Collection, Iterator
from fractions import Fraction
from itertools import pairwise

from sequencer.cuts.bevel import cut_bevels
from sequencer.cuts.context import Context
from sequencer.cuts.model import Check, Operation, ScrapPieces
from sequencer.doors import Leaf
from sequencer.doors.fills import Fitting, wedge_of
from sequencer.facts import feels
from sequencer.job.kinds import Raised
from sequencer.plan import Pane, Part
from sequencer.saw.measures import Measure, What
from sequencer.saw.operation import OperationId
from sequencer.trade import fits
from sequencer.trade.glass import CUT_BAND, PANE_OVER


def cut_fill(
    leaf: Leaf, part: Part, tests: ScrapPieces | None, context: Context
) -> Iterator[Operation]:
    """What is cut on a fill once it has its size."""
    if isinstance(leaf.spec.fill, Raised) and tests is not None:
        wedge = wedge_of(leaf.spec, Fitting(leaf.sizes, context.kerf, context.unit))
        yield from cut_bevels(part, wedge.reach, tests.stick, context)


def glaze(leaf: Leaf, context: Context) -> Iterator[Operation]:
    """Panes into the finished frame. Kind: glaze."""
    mark = leaf.door.mark
    checks = tuple(check for pane in leaf.door.panes for check in _pane(pane, context))
    if checks:
        yield Operation(OperationId(mark, "glaze"), "glaze", mark, checks=checks, marks=(mark,))


def between_boards(leaf: Leaf, context: Context) -> tuple[Check, ...]:
    """The gaps to leave today, equal ones once."""
    parts = {part.mark: part for part in leaf.parts if part.role == "board"}
    found: dict[Fraction, list[str]] = {}
    placed = [place for place in leaf.door.places if place.mark in parts]
    for place, after in pairwise(placed):
        part = parts[place.mark]
        tongue = [f.box[1][0] for f in part.features if f.at == "outside-edge"]
        if tongue:  # else it is the last of its light
            gap = after.origin[0] - place.origin[0] - tongue[0]
            found.setdefault(gap, []).extend((place.mark, after.mark))
    by_rule = leaf.season is None or not leaf.season.boards
    feel = feels.SPACERS_BY_RULE() if by_rule else feels.SPACERS()
    most = context.fact(fits.LEAST_AIR)
    checks = []
    for gap, marks in found.items():
        band = min(most, _spared(leaf, marks, context))
        low, high = gap - band, gap + band
        on = tuple(dict.fromkeys(marks))
        checks.append(Check(Measure(What.BOARD_GAP), gap, low, high, feel, on))
    return tuple(checks)


def _spared(leaf: Leaf, marks: Collection[str], context: Context) -> Fraction:
    """By how much a gap may be less, and still be there when its boards are at their widest and it
    was read half a mark too wide; or, where a mark is too coarse for that, half of what is left."""
    years = leaf.season.boards if leaf.season is not None else ()
    left = [min(year.leave) for year in years if not set(marks).isdisjoint(year.parts)]
    if not left:
        return context.fact(fits.LEAST_AIR)
    return max(min(left) - context.shop.tools.rule / 2, min(left) / 2)


def _pane(pane: Pane, context: Context) -> Iterator[Check]:
    """As it comes from the glazier, before it is bedded: one that is much larger may not go in."""
    under, over = context.fact(CUT_BAND), context.fact(PANE_OVER)
    sides = ((What.PANE_WIDTH, pane.box[0]), (What.PANE_HEIGHT, pane.box[1]))
    for what, (low, high) in sides:
        size = high - low
        yield Check(
            measure=Measure(what, which=pane.mark),
            target=size,
            low=size - under,
            high=size + over,
            feel=feels.PANE_AS_CUT(),
            marks=(pane.mark,),
        )
