"""What fills a frame's lights: panels and boards in the grooves, panes in the rebates."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise

from msgspec import Struct

from sequencer.errors import InternalError
from sequencer.facts import Fact
from sequencer.facts import fits as told
from sequencer.plan import Door, Pane
from sequencer.proof.cells import Bit, Brick, Cell, Length
from sequencer.proof.covering import Outside
from sequencer.proof.grain import Grain
from sequencer.proof.hands import X, Y, Z
from sequencer.proof.placing import Put, misfit
from sequencer.proof.polygons import met, raised
from sequencer.proof.solid import (
    Solid,
    bounds,
    cropped,
    difference,
    faces,
    length,
    outline,
    overlap,
    pieces,
    touch,
)

FILLS = ("panel", "board")
"""Roles of what stands in a frame's grooves."""


class _Fill(Struct, frozen=True):
    """A panel, a board or a pane as it stands in its door; of a part, `put`."""

    mark: str
    solid: Solid
    put: Put | None = None

    @property
    def board(self) -> bool:
        return self.put is not None and self.put.part.role == "board"


def pane_of(pane: Pane, grain: Grain) -> Solid:
    return (grain.box(pane.box),)


class Filling:
    """Checks what fills the lights of one framed door."""

    def __init__(self, door: Door, outside: Outside, puts: Sequence[Put], grain: Grain) -> None:
        self.door = door
        self.outside = outside
        self.frame = outside.members
        self.grain = grain
        self.fills = [_Fill(p.mark, p.finished, p) for p in puts if p.part.role in FILLS]
        self.fills += [_Fill(pane.mark, pane_of(pane, grain)) for pane in door.panes]
        self.lights = outside.lights("show-face")
        self.behind = outside.lights("back")

    def check(self) -> None:
        """Every light is filled, and every fill is held on all sides, with room.

        Raises InternalError that names door, pieces and what is wrong.
        """
        filled: set[str] = set()
        for light in pieces(self.lights):
            there = [f for f in self.fills if _over(outline(f.solid, Z), light)]
            if not there:
                raise misfit(self.door, told.EMPTY_LIGHT(where=self.outside.where(light)))
            filled.update(fill.mark for fill in there)
            self.held_round(there, light)
        for fill in self.fills:
            if fill.mark not in filled:
                raise misfit(self.door, told.IN_NO_LIGHT(), fill.mark)
            self.between(fill)
            self.free(fill)
            if fill.put is not None:
                self.unhindered(fill)

    def held_round(self, there: Sequence[_Fill], light: Solid) -> None:
        """They reach behind the frame all round the light; panels and boards in front of it too.
        Boards are in each other's grooves."""
        boards = [fill for fill in there if fill.board]
        self.reach(there, light)
        if any(fill.put is None for fill in there):
            return
        for back in pieces(self.behind):
            if _over(back, light):
                self.reach(there, back)
        if len(boards) > 1:
            self.boards(boards)

    def reach(self, there: Sequence[_Fill], light: Solid) -> None:
        seen = tuple(bit for fill in there for bit in outline(fill.solid, Z))
        x0, x1, y0, y1, _, _ = bounds(light)
        around: Brick = (x0 - 1, x1 + 1, y0 - 1, y1 + 1, 0, 1)
        for bare in difference((around,), seen):
            for bit in light:
                if overlap(bare, bit) or touch(bare, bit):
                    at = _between(bare, bit)
                    fill = max(there, key=lambda f: _along(bounds(f.solid), at))
                    put = max(self.frame, key=lambda p: _along(bounds(p.finished), at))
                    out = told.OUT_OF_GROOVE if fill.put is not None else told.OUT_OF_REBATE
                    raise self.wrong(out(), fill, put)

    def between(self, fill: _Fill) -> None:
        """Where the frame covers it, it lies between the frame's faces."""
        front, back = self.outside.place[4:]
        held = fill.solid
        for bit in (*self.lights, *self.behind):
            held = difference(held, (raised(bit, (front - (1 << 80), back + (1 << 80))),))
        if fill.put is None:
            under = difference(outline(fill.solid, Z), self.behind)
            if under:
                raise self.wrong(told.NOT_FROM_BACK(where=self.outside.where(under)), fill)
            held = fill.solid
        z0, z1 = bounds(held)[4:] if held else (front, back)
        if z0 <= front or back <= z1:
            raise self.wrong(told.NOT_HELD(), fill)

    def free(self, fill: _Fill) -> None:
        """No edge of it stands against the frame."""
        for put in self.frame:
            wood = put.finished
            if any(_stands(a, b) for a in fill.solid for b in wood if touch(a, b)):
                what = told.NO_ROOM if fill.put is None else told.NO_PLAY
                raise self.wrong(what(), fill, put)

    def unhindered(self, fill: _Fill) -> None:
        """Before a straight edge, nothing is nearer than the groove's bottom."""
        place = bounds(fill.solid)
        for axis, other in ((X, Y), (Y, X)):
            for side in (-1, 1):
                edge = place[2 * axis + (side > 0)]
                lines = faces(fill.solid, axis, edge, -side)
                span = place[2 * other + 1] - place[2 * other]
                if length([(r[0], r[1]) for r in lines]) != span:
                    continue
                ahead = [*place[:4], *bounds(lines)[2:4]]
                ahead[2 * axis : 2 * axis + 2] = sorted((edge, edge + side * (1 << 80)))
                box = (ahead[0], ahead[1], ahead[2], ahead[3], ahead[4], ahead[5])
                bottoms = [
                    bit[2 * axis + (side > 0)] * side
                    for put in self.frame
                    for bit in put.lacks("groove")
                    if overlap(bit, box)
                ]
                for put in self.frame:
                    for bit in put.finished:
                        near = bit[2 * axis + (side < 0)] * side
                        if bottoms and near < min(bottoms) and overlap(bit, box):
                            raise self.wrong(told.WOOD_IN_PLAY(), fill, put)

    def boards(self, boards: Sequence[_Fill]) -> None:
        """Each board's tongue is in its neighbour's groove, with air at its bottom."""
        put = boards[0].put
        assert put is not None
        axis = Y if put.along == X else X
        ordered = sorted(boards, key=lambda fill: bounds(fill.solid)[2 * axis])
        for one, other in pairwise(ordered):
            limits = (bounds(other.solid)[2 * axis], bounds(one.solid)[2 * axis + 1])
            parts = [cropped(fill.solid, axis, limits) for fill in (one, other)]
            if limits[0] >= limits[1] or not all(parts):
                raise self.wrong(told.NO_TONGUE(), one, other)
            (low, high), (z0, z1) = (bounds(part)[4:] for part in parts)
            if z0 < low and high < z1:
                tip = limits[1]
            elif low < z0 and z1 < high:
                tip = limits[0]
            else:
                raise self.wrong(told.TONGUE_BESIDE(), one, other)
            if _over(faces(one.solid, axis, tip, -1), faces(other.solid, axis, tip, 1)):
                raise self.wrong(told.TONGUE_STUCK(), one, other)

    def wrong(self, what: Fact, *fills: _Fill | Put) -> InternalError:
        return misfit(self.door, what, *(fill.mark for fill in fills))


def _over(one: Solid, other: Solid) -> bool:
    """Whether two flat solids share an area."""
    return any(overlap(a, b) for a in one for b in other)


def _stands(a: Bit, b: Bit) -> bool:
    """Whether two bits that touch do so on a side that is not flat in the door."""
    if isinstance(a, Cell) or isinstance(b, Cell):
        return any(plane[X] or plane[Y] for plane in met(a, b))
    return not (a[5] == b[4] or b[5] == a[4])


def _between(a: Bit, b: Bit) -> Brick:
    """Where two flat bits meet, seen as one box, which may have no width."""
    x = sorted((max(a[0], b[0]), min(a[1], b[1])))
    y = sorted((max(a[2], b[2]), min(a[3], b[3])))
    return (x[0], x[1], y[0], y[1], 0, 1)


def _apart(box: Brick, at: Brick) -> Length:
    """How far a place is from a box, seen from the front."""
    return sum(
        max(box[2 * axis] - at[2 * axis + 1], at[2 * axis] - box[2 * axis + 1], 0)
        for axis in (X, Y)
    )


def _along(box: Brick, at: Brick) -> Length:
    """How much of a place lies on a box or at its side; below 0 where it is off it."""
    if _apart(box, at):
        return -_apart(box, at)
    return sum(
        min(box[2 * axis + 1], at[2 * axis + 1]) - max(box[2 * axis], at[2 * axis])
        for axis in (X, Y)
    )
