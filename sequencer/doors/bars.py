"""Mid rails and mullions: parts, places, and what they take from the pieces they are let into.

A mid rail lies like the top rail, its inside edge below; a mullion like the right stile, its inside
edge to the left. Both edges hold what fills the lights.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from fractions import Fraction

from msgspec import Struct, field

from sequencer.doors.measure import ZERO, Frame
from sequencer.doors.members import along_edges
from sequencer.facts import Fact
from sequencer.facts import parts as called
from sequencer.job.bars import Division, Placed
from sequencer.job.schema import Door
from sequencer.joints import BAR_JOINTS, BarJoint, JointSizes, Tee
from sequencer.plan import Feature, Part, Place, Size

_EDGES = ("inside-edge", "outside-edge")


class Bars(Struct, frozen=True):
    """`let_in` is what stiles and rails lack for them, by mark."""

    parts: tuple[Part, ...] = ()
    places: tuple[Place, ...] = ()
    let_in: Mapping[str, Sequence[Feature]] = field(default_factory=dict)


class _Across(Struct, frozen=True):
    """A crosspiece that a bar's end meets: `start` is where in the door its x begins, and it runs
    that way or, of a stile, downward from there."""

    mark: str
    width: Fraction
    edge: str
    start: Fraction


class _Bar(Struct, frozen=True):
    """A bar between the crosspieces at its ends A and B; `at` is where it crosses them."""

    mark: str
    placed: Placed
    ends: tuple[_Across, _Across]
    reaches: tuple[Fraction, Fraction]
    length: Fraction

    @property
    def upright(self) -> bool:
        return self.placed.bar.kind == "mullion"

    def tees(self) -> tuple[Tee, Tee]:
        first, last = (
            Tee(
                bar=self.mark,
                bar_end=end,
                bar_length=self.length,
                bar_width=self.placed.bar.width,
                across=across.mark,
                across_width=across.width,
                at=self._at(across),
                edge=across.edge,
                reach=reach,
            )
            for end, across, reach in zip("AB", self.ends, self.reaches, strict=True)
        )
        return first, last

    def _at(self, across: _Across) -> tuple[Fraction, Fraction]:
        room = self.placed.room
        if self.upright:
            return room.left - across.start, room.left + room.width - across.start
        return across.start - room.bottom - room.height, across.start - room.bottom

    def place(self) -> Place:
        room = self.placed.room
        if self.upright:
            top = room.bottom + room.height + self.reaches[0]
            return Place(self.mark, (room.left, top, ZERO), ("-y", "+x", "+z"))
        origin = (room.left - self.reaches[0], room.bottom, ZERO)
        return Place(self.mark, origin, ("+x", "+y", "+z"))


def make_bars(
    spec: Door, mark: str, first: int, frame: Frame, division: Division, sizes: JointSizes
) -> Bars:
    """The bars of the leaf `mark`, numbered from `first`: mid rails from the top, then mullions row
    by row from the left. Raises `Refusal` where a joint cannot be made."""
    if not spec.bars:
        return Bars()
    joint = BAR_JOINTS[spec.joint.bars]
    mid_rails = [
        _mid_rail(spec, f"{mark}{number}", mark, frame, placed, joint)
        for number, placed in enumerate(division.mid_rails, first)
    ]
    mullions = [
        _mullion(spec, f"{mark}{number}", mark, frame, placed, mid_rails, joint)
        for number, placed in enumerate(division.mullions, first + len(mid_rails))
    ]
    made = [*mid_rails, *mullions]
    let_in: dict[str, list[Feature]] = {}
    for bar in made:
        for tee in bar.tees():
            let_in.setdefault(tee.across, []).extend(joint.in_crosspiece(tee, sizes))
    return Bars(
        parts=(
            *_parts(spec, mark, mid_rails, joint, sizes, let_in),
            *_parts(spec, mark, mullions, joint, sizes, let_in),
        ),
        places=tuple(bar.place() for bar in made),
        let_in=let_in,
    )


def _mid_rail(
    spec: Door, own: str, leaf: str, frame: Frame, placed: Placed, joint: BarJoint
) -> _Bar:
    ends = (
        _Across(f"{leaf}1", frame.left, "inside-edge", frame.above),
        _Across(f"{leaf}2", frame.right, "inside-edge", frame.above),
    )
    return _between(spec, own, placed, ends, placed.room.width, joint)


def _mullion(
    spec: Door,
    own: str,
    leaf: str,
    frame: Frame,
    placed: Placed,
    mid_rails: Sequence[_Bar],
    joint: BarJoint,
) -> _Bar:
    above, below = placed.row - 2, placed.row - 1
    ends = (
        _mid_across(mid_rails[above], "inside-edge")
        if above >= 0
        else _Across(f"{leaf}3", frame.top, "inside-edge", frame.rail_start),
        _mid_across(mid_rails[below], "outside-edge")
        if below < len(mid_rails)
        else _Across(f"{leaf}4", frame.bottom, "inside-edge", frame.rail_start),
    )
    return _between(spec, own, placed, ends, placed.room.height, joint)


def _mid_across(rail: _Bar, edge: str) -> _Across:
    start = rail.placed.room.left - rail.reaches[0]
    return _Across(rail.mark, rail.placed.bar.width, edge, start)


def _between(
    spec: Door,
    own: str,
    placed: Placed,
    ends: tuple[_Across, _Across],
    clear: Fraction,
    joint: BarJoint,
) -> _Bar:
    first, last = (joint.reach(spec, across.width) for across in ends)
    return _Bar(own, placed, ends, (first, last), first + clear + last)


def _called(kind: str, number: int | None) -> Fact:
    name = kind.replace(" ", "-")
    return called.NAMED(name=name) if number is None else called.NUMBERED(name=name, n=number)


def _parts(
    spec: Door,
    leaf: str,
    bars: Sequence[_Bar],
    joint: BarJoint,
    sizes: JointSizes,
    let_in: Mapping[str, Sequence[Feature]],
) -> list[Part]:
    parts: list[Part] = []
    for number, bar in enumerate(bars, 1):
        kind, width = bar.placed.bar.kind, bar.placed.bar.width
        own = [feature for tee in bar.tees() for feature in joint.in_bar(tee, sizes)]
        edges = along_edges(spec, bar.length, width, sizes, _EDGES)
        parts.append(
            Part(
                mark=bar.mark,
                door=leaf,
                role=kind,
                name=_called(bar.placed.bar.called(spec.fill), number if len(bars) > 1 else None),
                material=spec.species,
                size=Size(bar.length, width, sizes.thickness),
                features=(*own, *let_in.get(bar.mark, ()), *edges),
            )
        )
    return parts
