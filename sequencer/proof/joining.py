"""The joints of a frame: which bar's end goes into which crosspiece, and how it fits there."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from fractions import Fraction
from itertools import pairwise

from msgspec import Struct

from sequencer.facts import fits as told
from sequencer.lengths import Unit
from sequencer.plan import Door
from sequencer.proof.cells import Bit, Length
from sequencer.proof.grain import Grain
from sequencer.proof.hands import X, Y, Z
from sequencer.proof.placing import Put, edge_toward, misfit
from sequencer.proof.polygons import raised, shadow
from sequencer.proof.solid import (
    Solid,
    bounds,
    cropped,
    difference,
    moved,
    outline,
    shared,
)

WIDEST_CLEARANCE: Mapping[Unit, Fraction] = {"mm": Fraction(1, 2), "in": Fraction(1, 50)}
"""A looser tenon neither slides by hand pressure nor holds by itself; ours."""


class Joint(Struct, frozen=True):
    """A bar's end, `A` or `B`, in a crosspiece whose edge toward the bar stands at `plane` along
    `axis`; the crosspiece lies from there on `side`, 1 up the axis or -1 down."""

    bar: Put
    end: str
    across: Put
    axis: int
    plane: Length
    side: int


def joints(door: Door, frame: Sequence[Put]) -> Iterator[Joint]:
    """Both ends of every rail and bar. Raises InternalError for an end that meets nothing."""
    for bar in frame:
        if bar.part.role == "stile":
            continue
        axis, forward = bar.axes[X]
        here = bounds(bar.sawn)
        for side in (-1, 1):
            end = here[2 * axis + (side > 0)]
            met = [
                (abs(plane - end), n, plane, other)
                for n, other in enumerate(frame)
                if other.along != axis and _alongside(bar, other, other.along)
                for plane, way in (edge_toward(other, bar, axis),)
                if way == side
            ]
            if not met:
                raise misfit(door, told.MEETS_NOTHING(), bar.mark)
            _, _, plane, other = min(met, key=lambda found: found[:2])
            yield Joint(bar, "B" if side == forward else "A", other, axis, plane, side)


def _alongside(bar: Put, other: Put, along: int) -> bool:
    """Whether the other goes on past more than half of the bar's width."""
    here, there = bounds(bar.sawn), bounds(other.sawn)
    low, high = here[2 * along], here[2 * along + 1]
    met = min(high, there[2 * along + 1]) - max(low, there[2 * along])
    return 2 * met > high - low


class Joiner:
    """Checks joints; what was found of one serves all that are alike."""

    def __init__(self, unit: Unit, grain: Grain) -> None:
        self.grain = grain
        self.widest = WIDEST_CLEARANCE[unit] * grain.parts
        self.known: dict[tuple[Solid, Solid, Length], Length | None] = {}

    def room(self, door: Door, joint: Joint) -> Length:
        """The air through the thickness where bar and crosspiece lie in each other.

        Raises InternalError where they do not.
        """
        plane = joint.plane
        far = plane + joint.side * (1 << 80)
        limits = (plane, far) if joint.side > 0 else (far, plane)
        tenon = cropped(joint.bar.sawn, joint.axis, limits)
        room = self._air(_beside_grooves(tenon, joint.across), joint.across.sawn)
        if room is None:
            room = self._air(tenon, joint.across.sawn)
        if room is None:
            raise misfit(door, told.NO_TENON(), joint.bar.mark, joint.across.mark)
        return room

    def check(self, door: Door, joint: Joint, room: Length) -> None:
        """Raises InternalError where that is not as stated, or too much."""
        marks = joint.bar.mark, joint.across.mark
        stated = _stated(joint)
        if stated is not None and room != self.grain.of(stated):
            found, wanted = (self.grain.told(air) for air in (room, self.grain.of(stated)))
            raise misfit(door, told.OTHER_CLEARANCE(found=found, wanted=wanted), *marks)
        if room > self.widest:
            raise misfit(door, told.LOOSE_TENON(by=self.grain.told(room)), *marks)

    def _air(self, tenon: Solid, across: Solid) -> Length | None:
        """Air in the joint; `None` where nothing of one lies over the other."""
        if not tenon:
            return None
        x0, x1, y0, y1, _, _ = bounds(tenon)
        _, _, _, _, z0, z1 = bounds(across)
        about = cropped(cropped(across, X, (x0, x1)), Y, (y0, y1))
        back = (-x0, -y0, -z0)
        key = (moved(tenon, back), moved(about, back), z1 - z0)
        if key not in self.known:
            self.known[key] = air(*key)
        return self.known[key]


def air(one: Solid, other: Solid, thickness: Length) -> Length | None:
    """How much of the thickness, from 0 on, neither of two solids fills where they lie over each
    other; where that differs, the most. `None` where they never do.

    >>> air(((0, 4, 0, 4, 2, 4),), ((0, 4, 0, 4, 0, 1), (0, 4, 0, 4, 5, 6)), 6)
    2
    """
    met: Solid = ()
    for bit in shared(outline(one, Z), outline(other, Z)):
        met = (*met, *difference((bit,), met))
    columns: list[tuple[Bit, Length]] = [(bit, 0) for bit in met]
    both = (*one, *other)
    levels = {0, thickness, *(bit[4] for bit in both), *(bit[5] for bit in both)}
    for low, high in pairwise(sorted(z for z in levels if 0 <= z <= thickness)):
        filled = outline(tuple(bit for bit in both if bit[4] <= low and high <= bit[5]), Z)
        columns = [column for bit, found in columns
                   for column in _layer(bit, found, filled, high - low)]  # fmt: skip
    return max((found for _, found in columns), default=None)


def _layer(bit: Bit, found: Length, filled: Solid, height: Length) -> Iterator[tuple[Bit, Length]]:
    empty = difference((bit,), filled)
    if not empty:
        yield bit, found
        return
    yield from ((part, found + height) for part in empty)
    yield from ((part, found) for part in difference((bit,), empty))


def _beside_grooves(tenon: Solid, across: Put) -> Solid:
    """What of a tenon is not over the crosspiece's groove or rebate: that may be a hair wider than
    the slot, and there the tenon has other room."""
    far = 1 << 80
    return difference(
        tenon, (raised(shadow(bit, Z), (-far, far)) for bit in across.lacks("groove", "rebate"))
    )


def _stated(joint: Joint) -> Fraction | None:
    """The clearance that the joint was designed with: what its features take off the bar's end and
    out of the crosspiece, less the thickness; `None` where they do not name each other."""
    bar, across = joint.bar.part, joint.across.part
    ends = [f for f in bar.features if f.at == joint.end and f.kind in ("cheek", "slot", "mitre")]
    if not any(f.mate_mark == across.mark for f in ends):
        return None
    lost = sum((f.box[2][1] - f.box[2][0] for f in ends), Fraction(0))
    channels = [
        f
        for f in across.features
        if f.kind in ("slot", "housing") and f.mate == f"{bar.mark}/{joint.end}"
    ] or [f for f in across.features if f.kind == "groove"][:1]
    if not channels:
        return None
    return lost + sum((f.box[2][1] - f.box[2][0] for f in channels), -bar.size.thickness)
