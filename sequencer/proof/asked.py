"""The plan against the jobs it was made for: their leaves, how these hang, what is bought for them.

Of the jobs only what the user wrote is read; nothing that was worked out from it.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Iterator, Mapping, Sequence
from fractions import Fraction

from msgspec import Struct

from sequencer.errors import InternalError
from sequencer.facts import Fact, parts
from sequencer.facts import promises as told
from sequencer.job.schema import Door as Asked
from sequencer.job.schema import Job
from sequencer.lengths import Unit
from sequencer.plan import Door, Plan

TWO_CARRY: Mapping[Unit, Fraction] = {"in": Fraction(40), "mm": Fraction(1000)}
"""How high a leaf two hinges carry, and each more as much again. Common practice."""


def check_asked(plan: Plan, jobs: Sequence[Job]) -> None:
    """Raises InternalError, with the leaf, for the first thing that is not as the jobs ask; without
    jobs nothing was asked."""
    if not jobs:
        return
    wanted = {leaf.mark: leaf for job in jobs for door in job.doors for leaf in _leaves(door)}
    doors = {door.mark: door for door in plan.doors}
    for mark in wanted:
        if mark not in doors:
            raise InternalError(told.NO_LEAF(door=mark))
    for mark, door in doors.items():
        if mark not in wanted:
            raise InternalError(told.NOT_ASKED(door=mark))
        _check(door, wanted[mark])
    if plan.orders:
        _bought(plan, wanted.values())


class _Leaf(Struct, frozen=True):
    """A leaf as its job asks for it: number `index` of its door's, from the left."""

    mark: str
    index: int
    door: Asked

    @property
    def hinge(self) -> str:
        return self.door.hinge if len(self.door.marks) == 1 else ("left", "right")[self.index]

    @property
    def gaps(self) -> dict[str, Fraction]:
        asked = self.door.gaps
        found = {"top": asked.top, "bottom": asked.bottom, "hinge": asked.hinge}
        if len(self.door.marks) > 1:
            assert asked.meeting is not None
            return found | {"meeting": asked.meeting}
        return found | {"lock": asked.lock}


def _leaves(door: Asked) -> Iterator[_Leaf]:
    for index, mark in enumerate(door.marks):
        yield _Leaf(mark, index, door)


def _check(door: Door, leaf: _Leaf) -> None:
    asked = leaf.door
    if door.hinge != leaf.hinge:
        raise InternalError(told.OTHER_HINGE(door=door.mark, side=leaf.hinge))
    if door.face_side != asked.face_side:
        raise InternalError(told.OTHER_FACE(door=door.mark))
    if door.opening != (asked.opening.width, asked.opening.height):
        raise InternalError(told.OTHER_OPENING(door=door.mark))
    if (door.pair or (door.mark,)) != asked.marks:
        raise InternalError(told.OTHER_PAIR(door=door.mark))
    for side, gap in leaf.gaps.items():
        if door.gaps.get(side) != gap:
            edge = "free" if side in ("lock", "meeting") else side
            raise InternalError(told.OTHER_GAP(door=door.mark, side=f"edge.{edge}"))


def _bought(plan: Plan, leaves: Iterable[_Leaf]) -> None:
    wanted: Counter[Fact] = Counter()
    doors = {door.mark: door for door in plan.doors}
    for leaf in leaves:
        asked = leaf.door.hardware
        high = doors[leaf.mark].size[1]
        hinges = 2 + int(max(0, -(-high // TWO_CARRY[plan.unit]) - 1))
        wanted[parts.BOUGHT(what=asked.hinge)] += asked.hinges or hinges
        wanted[parts.BOUGHT(what=asked.pull)] += 1
        if asked.catch is not None and leaf.index == 0:
            wanted[parts.BOUGHT(what=asked.catch)] += 1
    found: Counter[Fact] = Counter()
    for order in plan.orders:
        if order.what.kind is parts.BOUGHT:
            found[order.what] += order.count
    for what in wanted.keys() | found.keys():
        if wanted[what] != found[what]:
            raise InternalError(told.OTHER_COUNT(what=what, found=found[what], wanted=wanted[what]))
