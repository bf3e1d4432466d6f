"""What the year of a leaf asks for at glue-up and at hanging."""

from __future__ import annotations

from collections.abc import Sequence

from sequencer.facts import Length
from sequencer.instructions.figures import Scale
from sequencer.plan import Plan
from sequencer.wording import benches


def at_glue_up(plan: Plan, marks: Sequence[str], scale: Scale) -> tuple[str, ...]:
    """What to leave beside the panels and between the boards of these leaves, equal ones
    together."""
    room = scale.room
    found: dict[str, list[str]] = {}
    between: dict[str, list[str]] = {}
    for season in plan.seasons:
        if season.door in marks:
            for panel in season.panels:
                found.setdefault(scale.length(panel.leave[1]), []).append(panel.part)
            for boards in season.boards:
                ends = room.text(benches.BOARD_SET, first=boards.parts[0], last=boards.parts[-1])
                between.setdefault(scale.length(boards.leave[1]), []).append(ends)
    lines = [
        room.text(benches.LEAVE_PANELS, gap=gap, parts=room.listed(parts))
        for gap, parts in found.items()
    ]
    if lines:
        lines.append(room.text(benches.PIN))
    lines += (
        room.text(benches.LEAVE_BOARDS, gap=gap, sets=room.listed(sets))
        for gap, sets in between.items()
    )
    return tuple(lines)


def at_hanging(plan: Plan, marks: Sequence[str], scale: Scale) -> tuple[str, ...]:
    """What the free side's gap becomes, equal ones together."""
    room = scale.room
    found: dict[tuple[str, Length, Length], list[str]] = {}
    for season in plan.seasons:
        if season.door in marks and season.gap is not None:
            driest, _, wettest = (Length(gap, scale.unit) for gap in season.gap.gaps)
            found.setdefault((season.gap.side, wettest, driest), []).append(season.door)
    return tuple(
        room.text(
            benches.GAP_TURNS,
            doors=room.listed(doors),
            side=room.term(f"gap.{side}"),
            wettest=wettest,
            driest=driest,
        )
        for (side, wettest, driest), doors in found.items()
    )
