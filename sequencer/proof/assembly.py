"""The sawn parts put together as the plan places them: does the door go together, and fit?"""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction
from itertools import combinations, pairwise

from sequencer.facts import fits as told
from sequencer.plan import Door, Plan
from sequencer.proof.cells import Length
from sequencer.proof.compare import Pieces
from sequencer.proof.covering import Outside
from sequencer.proof.filling import Filling, pane_of
from sequencer.proof.grain import Grain
from sequencer.proof.hanging import hang, lap, lapped
from sequencer.proof.joining import Joiner, joints
from sequencer.proof.placing import FRAME, Put, misfit, misplaced, put_all, wood
from sequencer.proof.solid import Solid, bounds, overlap


def assemble(plan: Plan, pieces: Pieces, grain: Grain) -> Fraction:
    """Put every door together and into its opening. Returns the largest clearance of a tenon.

    Raises InternalError that names door, pieces and what is wrong.
    """
    parts = {part.mark: part for part in plan.parts}
    placed_in = {place.mark: door.mark for door in plan.doors for place in door.places}
    for part in plan.parts:
        if part.mark not in plan.again and placed_in.get(part.mark) != part.door:
            raise misplaced(part.mark, told.NO_PLACE(door=part.door))
    puts = {door.mark: put_all(door, parts, pieces, grain) for door in plan.doors}
    airs = _airs(plan.doors, {mark: wood(there) for mark, there in puts.items()}, grain)
    joiner = Joiner(plan.unit, grain)
    clearance: Length = 0
    for door in plan.doors:
        left, right = (grain.of(by) for by in lapped(door, plan.doors, airs))
        room = _assemble(door, puts[door.mark], (left, right), joiner)
        clearance = max(clearance, room)
    hang(plan.doors, plan.unit, airs)
    return Fraction(clearance) / grain.parts


def _assemble(
    door: Door, puts: Sequence[Put], laps: tuple[Length, Length], joiner: Joiner
) -> Length:
    """One door; the clearance of its tenons is returned."""
    grain = joiner.grain
    frame = sorted((p for p in puts if p.part.role in FRAME), key=_rank)
    slabs = [p for p in puts if p.part.role == "slab"]
    roles = [p.part.role for p in frame]
    if (slabs and frame) or (not slabs and (roles.count("stile") != 2 or roles.count("rail") < 2)):
        raise misfit(door, told.FRAME_LACKS())
    _no_clash(door, puts, grain)
    members = frame or slabs
    _flush(door, members)
    outside = Outside(door, members, laps, grain)
    met = [(joint, joiner.room(door, joint)) for joint in list(joints(door, frame))]
    for joint, _ in met:
        outside.check_shoulder(joint)
    outside.check_size()
    outside.check_edges(max((room for _, room in met), default=0))
    outside.check_faces()
    for put in puts:
        outside.check_bench(put)
    for joint, room in met:
        joiner.check(door, joint, room)
    if len({room for joint, room in met if joint.bar.part.role == "rail"}) > 1:
        raise misfit(door, told.UNLIKE_CLEARANCES())
    if frame:
        Filling(door, outside, puts, grain).check()
    return max((room for _, room in met), default=0)


def _rank(put: Put) -> int:
    return FRAME.index(put.part.role)


def _no_clash(door: Door, puts: Sequence[Put], grain: Grain) -> None:
    solids = [(put.mark, put.sawn) for put in puts]
    solids += [(pane.mark, pane_of(pane, grain)) for pane in door.panes]
    boxes = [bounds(solid) for _, solid in solids]
    for n, m in combinations(range(len(solids)), 2):
        if not overlap(boxes[n], boxes[m]):
            continue
        if any(overlap(a, b) for a in solids[n][1] for b in solids[m][1]):
            raise misfit(door, told.SAME_PLACE(), solids[n][0], solids[m][0])


def _flush(door: Door, members: Sequence[Put]) -> None:
    depth = bounds(members[0].sawn)[4:]
    for put in members:
        if bounds(put.sawn)[4:] != depth:
            raise misfit(door, told.NOT_FLUSH(), put.mark, members[0].mark)


def _airs(
    doors: Sequence[Door], leaves: dict[str, Solid], grain: Grain
) -> dict[tuple[str, str], Fraction]:
    """The air between leaves that lap over each other."""
    by_mark = {door.mark: door for door in doors}
    found: dict[tuple[str, str], Fraction] = {}
    for door in doors:
        there = [by_mark[mark] for mark in door.pair if mark in by_mark]
        for left, right in pairwise(there):
            if right.at[0] < left.at[0] + left.size[0] and (left.mark, right.mark) not in found:
                found[left.mark, right.mark] = lap(left, right, leaves, grain)
    return found
