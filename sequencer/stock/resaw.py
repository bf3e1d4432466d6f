"""Panels that match like the pages of a book: two sticks resawn from one thicker piece."""

from __future__ import annotations

from collections.abc import Sequence

from msgspec import Struct

from sequencer.facts import Fact, stocks
from sequencer.job.rack import Rack
from sequencer.plan import Blank, Plan, Size, Stick
from sequencer.trade.lumber import resawn_thickness


class Resawn(Struct, frozen=True):
    """Two sticks and the one `blank` they come from, which is told by both their marks."""

    first: Stick
    second: Stick
    blank: Blank


def resawn(plan: Plan, rack: Rack | None = None) -> tuple[Resawn, ...]:
    """The sticks that are resawn from one piece, in stick order. Where boards are known, only those
    that one of them is thick, long and wide enough for."""
    by_mark = {stick.mark: stick for stick in plan.sticks}
    found = []
    for first in plan.sticks:
        if first.twin is None or first.twin not in by_mark:
            continue
        second = by_mark[first.twin]
        size = first.blank
        thick = Size(size.length, size.width, resawn_thickness(first.size.thickness, plan.unit))
        mark = f"{first.mark}+{second.mark}"
        made = Resawn(first, second, Blank(mark, first.mark, first.material, thick))
        if (
            rack is None
            or not rack.boards
            or rack.holds(first.material, size.length, size.width, thick.thickness)
        ):
            found.append(made)
    return tuple(found)


def as_planned(plan: Plan) -> tuple[Resawn, ...]:
    """The same read off a plan that has its layout: where there are boards, those blanks that the
    layout knows."""
    placed = {blank.mark for board in plan.boards for blank in board.blanks}
    placed |= {blank.mark for blank in plan.missing}
    return tuple(each for each in resawn(plan) if not plan.boards or each.blank.mark in placed)


def not_resawn(plan: Plan, done: Sequence[Resawn]) -> tuple[Fact, ...]:
    """A line for each pair that was to be resawn and cannot be."""
    able = {each.blank.mark for each in done}
    return tuple(
        stocks.NOT_RESAWN(first=each.first.mark, second=each.second.mark)
        for each in resawn(plan)
        if each.blank.mark not in able
    )
