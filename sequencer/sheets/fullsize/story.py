"""Story sticks: where the parts of a door begin and end along its height and its width, at full
size, a lane for each. Exact as the plan; what is drawn is not rounded."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from fractions import Fraction

from msgspec import Struct

from sequencer.instructions.figures import Scale
from sequencer.plan import Door, Plan
from sequencer.proof.grain import Grain, grain_of
from sequencer.proof.solid import bounds
from sequencer.sheets import svg
from sequencer.sheets.fullsize.paper import TILE, Drawing, Word, line
from sequencer.sheets.rounds.leaves import Member, leaf_members
from sequencer.wording import fullsize

_LANE = 11.0
_HEAD = 2.0

Lane = tuple[Fraction, ...]
"""Where a part begins, where its shoulders are, where it ends; in the plan's unit."""


class Stick(Struct, frozen=True):
    """One story stick of a leaf: the lanes with the parts that share each."""

    door: str
    upright: bool
    lanes: tuple[tuple[Lane, tuple[str, ...]], ...]


def story_sticks(plan: Plan, scale: Scale) -> Iterator[Drawing]:
    """Two of each leaf; leaves that have the same share theirs."""
    grain = grain_of(plan)
    found: dict[tuple[bool, tuple[Lane, ...]], list[Stick]] = {}
    for door in plan.doors:
        for stick in _of_door(plan, door, grain):
            key = (stick.upright, tuple(lane for lane, _ in stick.lanes))
            found.setdefault(key, []).append(stick)
    for sticks in found.values():
        yield _drawn(sticks, scale)


def _of_door(plan: Plan, door: Door, grain: Grain) -> Iterator[Stick]:
    members = leaf_members(plan, door, grain)
    if not members:
        return
    for axis in (1, 0):
        start = min(bounds(each.wood)[2 * axis] for each in members)
        lanes: dict[Lane, tuple[str, ...]] = {}
        for each in members:
            lane = tuple(
                Fraction(place - start) / grain.parts for place in _places(each, axis, plan)
            )
            lanes[lane] = (*lanes.get(lane, ()), each.mark)
        ordered = sorted(lanes.items(), key=lambda item: (item[0][0], -item[0][-1]))
        yield Stick(door.mark, axis == 1, tuple(ordered))


def _places(member: Member, axis: int, plan: Plan) -> list[int | Fraction]:
    """Its ends, and along its own length its shoulders."""
    box = bounds(member.wood)
    ends = [box[2 * axis], box[2 * axis + 1]]
    sizes = [box[2 * a + 1] - box[2 * a] for a in range(3)]
    if sizes[axis] < max(sizes):
        return ends
    part = next((part for part in plan.parts if part.mark == member.mark), None)
    cut = {feature.kind for feature in part.features} if part else set()
    if not cut & {"cheek", "edge-cheek"}:
        return ends
    # A shoulder is where the whole thickness begins: past the longest bits that reach an end.
    inner = sorted({bit[2 * axis + n] for bit in member.wood for n in (0, 1)} - set(ends))
    return [ends[0], *(inner[:1] + inner[-1:] if len(inner) > 1 else inner), ends[1]]


def _drawn(sticks: Sequence[Stick], scale: Scale) -> Drawing:
    first = sticks[0]
    mm = 25.4 if scale.unit == "in" else 1.0
    longest = max(lane[-1] for lane, _ in first.lanes)
    wide, high = float(longest) * mm, _HEAD + _LANE * len(first.lanes) + _HEAD
    shapes = [
        f'<path d="M0,0H{wide:.3f}V{high:.3f}H0Z" fill="none" stroke="#000" stroke-width="0.3"/>'
    ]
    words: list[Word] = []
    for n, (lane, _) in enumerate(first.lanes):
        top = _HEAD + n * _LANE
        marks = [mark for stick in sticks for mark in stick.lanes[n][1]]
        shapes += _lines(lane, top, mm)
        words += _words(lane, ", ".join(marks), top, mm, scale)
    doors = tuple(dict.fromkeys(stick.door for stick in sticks))
    told = fullsize.UPRIGHT if first.upright else fullsize.ACROSS
    name = scale.room.text(told, marks=doors)
    return Drawing(name, wide, high, tuple(shapes), tuple(words))


def _lines(lane: Lane, top: float, mm: float) -> Iterator[str]:
    foot = top + _LANE - 1
    yield line(float(lane[0]) * mm, foot, float(lane[-1]) * mm, foot, width=0.5)
    for place in lane:
        yield line(float(place) * mm, top + 1, float(place) * mm, top + _LANE, width=0.2)


def _words(lane: Lane, marks: str, top: float, mm: float, scale: Scale) -> Iterator[Word]:
    low, high = float(lane[0]) * mm, float(lane[-1]) * mm
    wide = float(svg.text_width(marks, 4, bold=True))
    x = low + 1.5
    yield Word(x, top + 4.2, marks, bold=True)
    # Once more on each tile that the lane runs over.
    x = (int(x / TILE[0]) + 1) * TILE[0] + 4
    while x + wide < high:
        yield Word(x, top + 4.2, marks, bold=True)
        x += TILE[0]
    for n, place in enumerate(lane):
        if place:
            at, start = float(place) * mm, n == 0
            yield Word(
                at + 1 if start else at - 1, top + 8.6, scale.text(place),
                anchor="start" if start else "end", size=3.2,
            )  # fmt: skip
