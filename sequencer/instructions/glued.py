"""Of which boards strips are glued up: told where the boards are laid out, milled and glued."""

from __future__ import annotations

from collections.abc import Callable, Hashable, Iterator, Sequence

from sequencer.facts import Length
from sequencer.instructions.figures import Scale
from sequencer.plan import AS_THE_STOCK, Blank, Plan, Size, Stick
from sequencer.stock.glued import strips
from sequencer.trade.lumber import JOINTING
from sequencer.wording import Room, benches, papers


def milled_words(marks: Sequence[str], plan: Plan, scale: Scale) -> tuple[str, ...]:
    """The boards to mill in place of each strip that is glued up, strips of like boards together;
    then how they are matched."""
    room = scale.room
    told = []
    for alike in _alike(marks, plan, lambda stick: (stick.boards, _board(stick, plan).size)):
        stick, number = alike[0], len(alike)
        of = tuple(each.mark for each in alike)
        size = _told(_board(stick, plan).size, scale)
        if stick.boards == AS_THE_STOCK:
            more = scale.told(JOINTING.of(plan.unit))
            told.append(room.counted(benches.BOARDS_OPEN, number, strips=of, more=more, **size))
            continue
        boards = tuple(run for each in alike for run in _run(strips(each, plan.unit), room))
        said = room.counted(
            benches.BOARDS, number, strips=of, number=stick.boards, marks=boards, **size
        )
        told.append(said)
    return (*told, room.text(benches.MATCH_BOARDS)) if told else ()


def boards_words(stick: Stick, plan: Plan, scale: Scale) -> str:
    """Of how many boards a strip is, beside what is laid out for it; empty where it is of one."""
    if stick.boards is None:
        return ""
    if stick.boards == AS_THE_STOCK:
        return scale.room.text(papers.OF_BOARDS_OPEN)
    width = scale.told(_board(stick, plan).size.width)
    return scale.room.text(papers.OF_BOARDS, count=stick.boards, width=width)


def glued_words(marks: Sequence[str], plan: Plan, scale: Scale) -> tuple[str, ...]:
    """How large what is glued up has to be, like strips together."""
    return tuple(
        scale.room.text(
            benches.GLUED_TO,
            strips=tuple(each.mark for each in alike),
            **_told(alike[0].blank, scale),
        )
        for alike in _alike(marks, plan, lambda stick: stick.blank)
    )


def _alike(
    marks: Sequence[str], plan: Plan, kind: Callable[[Stick], Hashable]
) -> Iterator[list[Stick]]:
    found: dict[Hashable, list[Stick]] = {}
    for stick in plan.sticks:
        if stick.mark in marks and stick.boards is not None:
            found.setdefault(kind(stick), []).append(stick)
    yield from found.values()


def _run(boards: Sequence[Blank], room: Room) -> tuple[str, ...]:
    """The marks of a strip's boards, more than two as a run."""
    first, *_, last = (board.mark for board in boards)
    if len(boards) == 2:
        return first, last
    return (room.text(benches.FROM_TO, first=first, last=last),)


def _board(stick: Stick, plan: Plan) -> Blank:
    return strips(stick, plan.unit)[0]


def _told(size: Size, scale: Scale) -> dict[str, Length]:
    return {"length": scale.told(size.length), "width": scale.told(size.width)}
