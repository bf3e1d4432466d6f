"""What is wanted of the boards: a blank a stick, or the strips it is glued up from, and which of
them are to come from one board."""

from __future__ import annotations

from collections.abc import Mapping

from msgspec import Struct

from sequencer.facts import Fact
from sequencer.job.rack import Rack
from sequencer.plan import Blank, Plan
from sequencer.stock.glued import strips
from sequencer.stock.resaw import resawn


class Demand(Struct, frozen=True):
    """All blanks in stick order. `glued` gives a stick's number for each strip of a glued-up one;
    `matched` a common number for blanks whose pieces are to match, as the top rails of a pair."""

    blanks: tuple[Blank, ...]
    glued: Mapping[str, int]
    matched: Mapping[str, int]


def demand(plan: Plan, rack: Rack) -> Demand:
    """The blanks of every stick: those of a stick that is glued up are as wide as each other."""
    blanks: list[Blank] = []
    glued: dict[str, int] = {}
    matched: dict[str, int] = {}
    groups = _matching(plan)
    whole = {each.first.mark: each for each in resawn(plan, rack)}
    halves = {each.second.mark for each in whole.values()}
    for number, stick in enumerate(plan.sticks):
        if stick.mark in halves:
            continue
        if stick.mark in whole:
            blanks.append(whole[stick.mark].blank)
            continue
        made = strips(stick, plan.unit)
        for blank in made:
            if len(made) > 1:
                glued[blank.mark] = number
            if stick.mark in groups:
                matched[blank.mark] = groups[stick.mark]
        blanks += made
    return Demand(tuple(blanks), glued, matched)


def _matching(plan: Plan) -> dict[str, int]:
    """Sticks whose pieces are to match, by a number a group: a pair's rails and its panels, where
    they did not all come from one stick."""
    stick_of = {piece.mark: stick.mark for stick in plan.sticks for piece in stick.pieces}
    pair_of = {door.mark: door.pair for door in plan.doors if len(door.pair) > 1}
    order = [stick.mark for stick in plan.sticks]
    sets: dict[tuple[tuple[str, ...], Fact], list[str]] = {}
    for part in plan.parts:
        if part.door in pair_of and part.role != "stile" and part.mark in stick_of:
            key = (pair_of[part.door], part.name)
            sets.setdefault(key, []).append(stick_of[part.mark])
    leader = {mark: mark for mark in order}

    def root(mark: str) -> str:
        while leader[mark] != mark:
            mark = leader[mark]
        return mark

    for marks in sets.values():
        roots = sorted({root(mark) for mark in marks}, key=order.index)
        for other in roots[1:]:
            leader[other] = roots[0]
    members = [mark for mark in order if root(mark) != mark]
    return {
        mark: order.index(root(mark)) for mark in order if root(mark) != mark
        or any(root(other) == mark for other in members)
    }  # fmt: skip
