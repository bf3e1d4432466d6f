"""Aids on the night-before pages: what is made before, out of which wood, and what is at hand."""

from __future__ import annotations

from msgspec import Struct

from sequencer.instructions import words
from sequencer.instructions.figures import Scale
from sequencer.plan import Aid, Plan
from sequencer.sheets.stock import Figures, figures
from sequencer.wording import aids as said
from sequencer.wording import papers
from sequencer.wording.room import capitalised


class AidLine(Struct, frozen=True):
    """An aid to make: for which setups, how, and in how many minutes."""

    name: str
    setups: str
    how: str
    minutes: str


class AidWood(Struct, frozen=True):
    """Boards of one wood and size, and the aids that they are for."""

    count: int
    wood: str
    size: Figures
    aids: str


class Aids(Struct, frozen=True):
    """`at_hand` in a line each; the other two have nothing where all is at hand."""

    make: tuple[AidLine, ...]
    wood: tuple[AidWood, ...]
    at_hand: tuple[str, ...]


def aids(plan: Plan, scale: Scale) -> Aids:
    return Aids(
        make=tuple(_line(aid, scale) for aid in plan.aids if not aid.at_hand),
        wood=_wood(plan, scale),
        at_hand=tuple(
            scale.room.text(said.AT_HAND, aid=_name(aid, scale), setups=_setups(aid, scale))
            for aid in plan.aids
            if aid.at_hand
        ),
    )


def _line(aid: Aid, scale: Scale) -> AidLine:
    room = scale.room
    minutes = room.text(said.MINUTES, made=room.minutes(aid.made), fitted=room.minutes(aid.fitted))
    how = room.text(said.AIDS[aid.name].how)
    return AidLine(capitalised(_name(aid, scale)), words.runs(aid.setups), how, minutes)


def _wood(plan: Plan, scale: Scale) -> tuple[AidWood, ...]:
    found: dict[tuple[str, Figures], list[str]] = {}
    for aid in plan.aids:
        for board in () if aid.at_hand else aid.boards:
            wood = scale.room.term(f"wood.{board.wood}")
            found.setdefault((wood, figures(board.size, scale)), []).append(_name(aid, scale))
    return tuple(
        AidWood(len(names), wood, size, ", ".join(dict.fromkeys(names)))
        for (wood, size), names in found.items()
    )


def _name(aid: Aid, scale: Scale) -> str:
    return scale.room.term(f"aid.{aid.name}")


def _setups(aid: Aid, scale: Scale) -> str:
    return papers.setups(aid.setups, words.runs(aid.setups), scale.room)
