"""A leaf in the round, whole and pulled apart, seen from the room, from the left and above: its
parts where the plan places them, drawn shorter where all that runs there is alike."""

from __future__ import annotations

from collections.abc import Hashable, Sequence
from functools import partial

from msgspec import Struct

from sequencer.plan import Door, Plan
from sequencer.proof.cells import Length
from sequencer.proof.compare import taken
from sequencer.proof.grain import Grain, grain_of
from sequencer.proof.hands import axes_of
from sequencer.proof.solid import Solid, bounds, difference, moved, placed
from sequencer.sheets.rounds.breaks import Break, uncrossed
from sequencer.sheets.rounds.callouts import apart as marked
from sequencer.sheets.rounds.callouts import lettered
from sequencer.sheets.rounds.camera import Camera
from sequencer.sheets.rounds.flat import Point
from sequencer.sheets.rounds.ink import Layer, Mark, Sheet, fitted, layers, painted, seen_at, svg
from sequencer.sheets.rounds.lying import Shortened, shortened
from sequencer.sheets.rounds.order import ordered
from sequencer.sheets.rounds.parts import grain_mm
from sequencer.sheets.rounds.pose import broken, corners_of
from sequencer.sheets.rounds.surfaces import Spot, Surface, surfaces
from sequencer.wording import Room, pictures

_TALLEST = 300.0  # mm of the leaf
_APART = 42.0  # mm between parts that are pulled apart, at the outside
_CAMERA = Camera(-1, 0.42, 0.36)
_FIRST = ((0.5, 0.3), (0.5, 0.5), (0.3, 0.5), (0.7, 0.5), (0.5, 0.8), (0.5, 0.15))
_PLACES = (*_FIRST, *((a, b / 12) for a in (0.5, 0.3, 0.7, 0.15, 0.85) for b in range(1, 12)))
"""Of a mark on a part: shares of its width and height."""


class Member(Struct, frozen=True):
    """One part, in the leaf's frame as it is drawn: x right, y up, z toward the cabinet. `breaks`
    are in mm."""

    mark: str
    label: str
    wood: Solid
    breaks: tuple[Break, ...] = ()


def leaf_picture(
    plan: Plan, door: Door, room: Room, *, apart: bool, width: float = 70.0, height: float = 84.0
) -> str:
    """The leaf as SVG in mm, its parts pulled `apart` in its plane, as they are put together."""
    grain = grain_of(plan)
    mm = grain_mm(grain)
    members = _drawn(leaf_members(plan, door, grain), mm)
    if apart:
        members = [_pulled(each, members, mm) for each in members]
    into = partial(_standing, mm)
    skins: list[Surface] = []
    marks: list[Mark] = []
    for group in [[each] for each in members] if apart else [members]:
        bits = [(f"{each.label}:{each.mark}", bit) for each in group for bit in each.wood]
        whole = partial(uncrossed, breaks=group[0].breaks, mm=mm)
        skin = surfaces(bits, into, _CAMERA.toward, {}, whole=whole)
        skins += skin
        marks += broken(skin, group[0].breaks, mm, into)
    everything = bounds(tuple(bit for each in members for bit in each.wood))
    focus = [into(corner) for corner in corners_of(everything)]
    sheet = fitted(_CAMERA, focus, width, height, 1.0, 1.0)
    found = layers(ordered(skins), sheet)
    shapes = painted(found, marks, sheet)
    shown = [(each.mark, _shown(each, found, sheet, into)) for each in members]
    size, points = marked(shown, width, height)
    for mark, point in points.items():
        shapes += lettered(mark, point, size)
    says = room.text(
        pictures.DOOR_OF, mark=door.mark, hinge=room.term(door.hinge),
        marks=tuple(each.mark for each in members),
    )  # fmt: skip
    return svg(width, height, shapes, says)


def drawn_as(plan: Plan, door: Door, grain: Grain) -> Hashable:
    """What the leaf's picture shows of it, but for its marks: equal for leaves that differ only
    where they are drawn shorter."""
    members = _drawn(leaf_members(plan, door, grain), grain_mm(grain))
    return tuple((each.label, each.wood, each.breaks) for each in members)


def leaf_members(plan: Plan, door: Door, grain: Grain) -> list[Member]:
    """The parts of a leaf at their places, as long as they are."""
    parts = {part.mark: part for part in plan.parts}
    found = []
    for place in door.places:
        part, axes = parts.get(place.mark), axes_of(place)
        if part is None or axes is None:
            continue
        solid: Solid = (grain.block(part.size),)
        for feature in part.features:
            solid = difference(solid, taken(part, feature, grain))
        x, y, z = (grain.of(value) for value in place.origin)
        found.append(Member(part.mark, "wood", placed(solid, axes, (x, y, z))))
    found += [Member(pane.mark, "glass", (grain.box(pane.box),)) for pane in door.panes]
    return found


def _standing(mm: float, spot: Spot) -> Spot:
    """From the leaf's frame to the room: up is up, toward the cabinet is away from the person."""
    return spot[0] * mm, spot[2] * mm, spot[1] * mm


def _drawn(members: Sequence[Member], mm: float) -> list[Member]:
    """All drawn shorter at the same places."""
    bits = [bit for each in members for bit in each.wood]
    short = shortened(bits, (), int(_TALLEST / mm), int(30 / mm))
    breaks = tuple((each.axis, float(each.at) * mm) for each in short.breaks)
    return [Member(each.mark, each.label, _less(each.wood, short), breaks) for each in members]


def _less(wood: Solid, short: Shortened) -> Solid:
    moved_bits = short.bits([("", bit) for bit in wood])
    return tuple(bit for _, bit in moved_bits)


def _pulled(member: Member, members: Sequence[Member], mm: float) -> Member:
    """The part moved out from the middle of the leaf, those at its outside farthest."""
    by: list[Length] = [0, 0, 0]
    for axis in (0, 1):
        offs = [_off(each, members, axis) for each in members]
        most = max(abs(off) for off in offs)
        own = _off(member, members, axis)
        if most:
            by[axis] = round(own / most * _APART / mm)
    breaks = tuple((axis, at + float(by[axis]) * mm) for axis, at in member.breaks)
    return Member(member.mark, member.label, moved(member.wood, (by[0], by[1], by[2])), breaks)


def _off(member: Member, members: Sequence[Member], axis: int) -> float:
    """How far the middle of a part is from that of all."""
    own = bounds(member.wood)
    whole = bounds(tuple(bit for each in members for bit in each.wood))
    return float(own[2 * axis] + own[2 * axis + 1] - whole[2 * axis] - whole[2 * axis + 1]) / 2


def _shown(
    member: Member, found: Sequence[Layer], sheet: Sheet, into: partial[Spot]
) -> list[Point]:
    """Where the part's mark may stand: in the middle of its front, beside that or farther off,
    where the part is seen."""
    x0, x1, y0, y1, z0, _ = (float(value) for value in bounds(member.wood))
    points = []
    for a, b in _PLACES:
        point = sheet.at(into((x0 + a * (x1 - x0), y0 + b * (y1 - y0), z0)))
        surface = seen_at(found, point)
        if surface is not None and surface.label == f"{member.label}:{member.mark}":
            points.append(point)
    return points
