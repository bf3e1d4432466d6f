"""Wide strips that are glued up: from how many boards, and the bench work of it."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from sequencer.cuts.model import Operation
from sequencer.job.rack import Rack
from sequencer.lengths import Unit
from sequencer.operations.filling import StickPlan
from sequencer.plan import AS_THE_STOCK, Part
from sequencer.records import replace
from sequencer.saw.operation import OperationId
from sequencer.trade.lumber import JOINTING, PLANED_AWAY, resawn_thickness

WIDE = frozenset({"panel", "slab"})
"""Roles whose parts may be glued up from several boards."""


def with_boards(
    sticks: Sequence[StickPlan],
    parts: Mapping[str, Part],
    stated: Mapping[str, int],
    rack: Rack,
    unit: Unit,
) -> tuple[StickPlan, ...]:
    """The sticks, each with how many boards it is glued up from; `parts` by their
    marks, and how many the job has `stated` for them. Halves of one resawn piece are whole."""
    whole = {mark for plan in sticks for mark in _resawn(plan, rack, unit)}
    return tuple(
        plan
        if plan.stick.mark in whole
        else replace(
            plan, stick=replace(plan.stick, boards=_count(plan, parts, stated, rack, unit))
        )
        for plan in sticks
    )


def as_glued(sticks: Sequence[StickPlan], boards: Mapping[str, int]) -> tuple[StickPlan, ...]:
    """The sticks as another plan of them has them glued up, by their marks."""
    return tuple(
        replace(plan, stick=replace(plan.stick, boards=boards.get(plan.stick.mark)))
        for plan in sticks
    )


def glue_up(plan: StickPlan) -> Operation:
    """The boards of a stick made one blank, before it is ripped."""
    mark = plan.stick.mark
    return Operation(OperationId(mark, "edge-glue-up"), "edge glue-up", mark, marks=(mark,))


def _resawn(plan: StickPlan, rack: Rack, unit: Unit) -> tuple[str, ...]:
    """The marks of a stick and its twin, where one piece yields both."""
    stick, size = plan.stick, plan.stick.blank
    if stick.twin is None:
        return ()
    thick = resawn_thickness(stick.size.thickness, unit)
    held = not rack.boards or rack.holds(stick.material, size.length, size.width, thick)
    return (stick.mark, stick.twin) if held else ()


def _count(
    plan: StickPlan,
    parts: Mapping[str, Part],
    stated: Mapping[str, int],
    rack: Rack,
    unit: Unit,
) -> int | None:
    """The number that the job states, or that the boards ask for where that is more: the fewest
    of equal width that the widest of the thinnest of them takes."""
    stick, size = plan.stick, plan.stick.blank
    made = [parts[piece.mark] for piece in stick.pieces if piece.mark in parts]
    if not made or any(part.role not in WIDE for part in made):
        return None
    # Stock that was measured is as thick as its boards yielded, whatever its scale then said.
    thicknesses = {plan.stock.nominal, stick.size.thickness}
    taking = [
        (board.thickness, board.usable[1])
        for board in rack.boards
        if board.usable[0] >= size.length
        and any(board.yields(stick.material, thick, rack.milling) for thick in thicknesses)
    ]
    wanted = stated.get(made[0].mark)
    if not taking:
        return AS_THE_STOCK if wanted is None and _solid(made) else _several(wanted)
    jointing, planed_away = JOINTING.of(unit), PLANED_AWAY.of(unit)
    thickest = min(thick for thick, _ in taking) + planed_away
    widest = max(width for thick, width in taking if thick <= thickest)
    count = wanted or 1
    if size.width > widest > jointing:
        count = max(count, int(-(-size.width // (widest - jointing))))
    return _several(count)


def _several(count: int | None) -> int | None:
    return None if count == 1 else count


def _solid(parts: Sequence[Part]) -> bool:
    return all(part.role == "slab" for part in parts)
