"""The sawn parts put together as the plan places them: does the door go together, and fit?

In the door's frame x is to the right, y up, z toward the cabinet, from its lower left front corner.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction
from itertools import combinations

from sequencer.errors import InternalError
from sequencer.lengths import Unit
from sequencer.plan import Door, Feature, Part, Place, Plan
from sequencer.proof.cells import Bit, Brick, Length
from sequencer.proof.compare import Pieces
from sequencer.proof.grain import Grain
from sequencer.proof.solid import (
    Solid,
    bounds,
    cropped,
    difference,
    faces,
    length,
    overlap,
)
from sequencer.proof.solid import placed as carry

X, Y, Z = 0, 1, 2

WIDEST_CLEARANCE: Mapping[Unit, Fraction] = {"mm": Fraction(1, 2), "in": Fraction(1, 50)}
"""A looser tenon neither slides by hand pressure nor holds by itself; ours."""


@dataclass(frozen=True, slots=True)
class _Placed:
    """A part in its door, as it left the saw and after the bench."""

    part: Part
    sawn: Solid
    finished: Solid


class _Assembly:
    def __init__(self, door: Door, placed: Sequence[_Placed], grain: Grain, widest: int) -> None:
        self.door = door
        self.grain = grain
        self.widest = widest
        self.stiles = [p for p in placed if p.part.role == "stile"]
        self.rails = [p for p in placed if p.part.role == "rail"]
        self.panels = [p for p in placed if p.part.role == "panel"]
        self.frame = [*self.stiles, *self.rails]
        self.placed = placed

    def wrong(self, what: str, *placed: _Placed) -> InternalError:
        marks = " and ".join(p.part.mark for p in placed)
        where = f"piece {marks}, " if marks else ""
        return InternalError(f"assembly, {where}door {self.door.mark}: {what}")

    def check(self) -> Length:
        """All of it; the tenons' clearance in their slots is returned."""
        if len(self.stiles) != 2 or len(self.rails) < 2:
            raise self.wrong("a framed door has two stiles, and rails between them")
        for one, other in combinations(self.placed, 2):
            if _clash(one.sawn, other.sawn):
                raise self.wrong("they would have to be in the same place", one, other)
        self.faces_flush()
        clearances = {self.joint(rail, stile) for rail in self.rails for stile in self.stiles}
        if len(clearances) > 1:
            raise self.wrong("its tenons have unlike clearances")
        (clearance,) = clearances
        self.outline(clearance)
        for panel in self.panels:
            self.panel(panel)
        return clearance

    def faces_flush(self) -> None:
        depth = bounds(self.stiles[0].sawn)[4:]
        for piece in self.frame:
            if bounds(piece.sawn)[4:] != depth:
                raise self.wrong("its faces are not flush with the stile's", piece, self.stiles[0])

    def joint(self, rail: _Placed, stile: _Placed) -> Length:
        """The shoulder is closed on both faces, and the tenon is in its slot; its clearance."""
        there, here = bounds(stile.sawn), bounds(rail.sawn)
        left = there[0] + there[1] < here[0] + here[1]
        side = 1 if left else -1
        plane = there[1] if left else there[0]
        wood = faces(rail.sawn, X, plane, side)
        # The tenon goes on beyond the shoulder's plane: what is left is the shoulder itself.
        shoulder = difference(wood, faces(rail.sawn, X, plane, -side))
        closed = difference(shoulder, difference(shoulder, faces(stile.sawn, X, plane, -side)))
        height = here[3] - here[2]
        for edge, face in ((2, "show face"), (3, "back")):
            at = here[4 + edge - 2]
            met = length([(r[0], r[1]) for r in closed if r[edge] == at])
            if met != height:
                raise self.wrong(f"the shoulder is not closed on the {face}", rail, stile)
        limits = (plane - _FAR, plane) if left else (plane, plane + _FAR)
        tenon = cropped(rail.sawn, X, limits)
        if not tenon:
            raise self.wrong("no tenon reaches into the slot", rail, stile)
        return self.clearance(bounds(tenon), rail, stile)

    def clearance(self, tenon: Brick, rail: _Placed, stile: _Placed) -> Length:
        """Room between tenon and slot through the thickness, both sides together."""
        across = (*tenon[:4], *bounds(stile.sawn)[4:])
        beside = [box for box in stile.sawn if overlap(across, box)]
        below = [box[5] for box in beside if box[5] <= tenon[4]]
        above = [box[4] for box in beside if box[4] >= tenon[5]]
        if not below or not above:
            raise self.wrong("the tenon has no slot about it", rail, stile)
        room = min(above) - max(below) - (tenon[5] - tenon[4])
        stated = self.stated(rail, stile)
        if stated is not None and room != stated:
            found, wanted = self.grain.text(room), self.grain.text(stated)
            raise self.wrong(f"the tenon has {found} of clearance, not {wanted}", rail, stile)
        if room > self.widest:
            loose = self.grain.text(room)
            raise self.wrong(f"the tenon is {loose} thinner than its slot", rail, stile)
        return room

    def stated(self, rail: _Placed, stile: _Placed) -> int | None:
        """The clearance that slot and cheeks were designed with, where each names its mate."""
        slots = [f for f in stile.part.features if f.kind == "slot" and _mate(f) == rail.part.mark]
        cheeks = [
            f for f in rail.part.features if f.kind == "cheek" and _mate(f) == stile.part.mark
        ]
        if not slots or not cheeks:
            return None
        slot = slots[0].box[2]
        taken = sum((f.box[2][1] - f.box[2][0] for f in cheeks), Fraction(0))
        return self.grain.of(slot[1] - slot[0] - rail.part.size.thickness + taken)

    def outline(self, clearance: Length) -> None:
        """The trimmed frame fills the door's size, and no void but the clearance shows outside."""
        wood = [box for piece in self.frame for box in piece.finished]
        place = bounds(tuple(wood))
        size = [self.grain.of(value) for value in self.door.size]
        if place[:4] != (0, size[0], 0, size[1]):
            found = " × ".join(self.grain.text(place[i + 1] - place[i]) for i in (0, 2))
            corner = ", ".join(self.grain.text(place[i]) for i in (0, 2))
            wanted = " × ".join(str(value) for value in self.door.size)
            raise self.wrong(f"after trimming it is {found} from {corner}, not {wanted}")
        for axis, at, side, name in (
            (X, 0, 1, "left edge"),
            (X, size[0], -1, "right edge"),
            (Y, 0, 1, "bottom edge"),
            (Y, size[1], -1, "top edge"),
        ):
            along = size[1 - axis]
            outside: Brick = (0, along, place[4], place[5], 0, 1)
            void = difference([outside], faces(tuple(wood), axis, at, side))
            if length([(r[2], r[3]) for r in void]) > clearance:
                where = ", ".join(self.grain.text(value) for value in tuple(void[0])[:4])
                raise self.wrong(f"a void shows at its {name} ({where})")
        for plane, side, name in ((place[4], 1, "show face"), (place[5], -1, "back")):
            front: Brick = (0, size[0], 0, size[1], 0, 1)
            for r in difference([front], faces(tuple(wood), Z, plane, side)):
                if any(_over(r, bounds(piece.finished)) for piece in self.frame):
                    where = ", ".join(self.grain.text(value) for value in tuple(r)[:4])
                    raise self.wrong(f"a void shows on its {name} ({where})")

    def panel(self, panel: _Placed) -> None:
        """The panel is held in a groove on each side, with play before the groove's bottom, and
        passes between the groove's cheeks."""
        place = bounds(panel.finished)
        for axis, side, neighbours in (
            (X, -1, self.stiles),
            (X, 1, self.stiles),
            (Y, -1, self.rails),
            (Y, 1, self.rails),
        ):
            edge = place[2 * axis] if side < 0 else place[2 * axis + 1]
            wood = [p for p in neighbours if _beyond(p.sawn, place, axis, side)]
            if not wood:
                raise self.wrong("it has no groove on one side", panel)
            inner = min(_inside_edge(p, axis, side) for p in wood)
            if edge * side <= inner:
                raise self.wrong("it does not reach into the groove", panel, wood[0])
            # Whatever lies straight beyond the edge, over the panel's whole length or width.
            ahead = list(place)
            ahead[2 * axis : 2 * axis + 2] = (edge, _FAR) if side > 0 else (-_FAR, edge)
            box: Brick = (ahead[0], ahead[1], ahead[2], ahead[3], ahead[4], ahead[5])
            for piece in self.frame:
                for other in piece.sawn:
                    if overlap(box, other) and other[2 * axis + (side < 0)] * side <= edge * side:
                        raise self.wrong("it has no play in the groove", panel, piece)


_FAR = 1 << 80


def _mate(feature: Feature) -> str | None:
    return None if feature.mate is None else feature.mate.rpartition("/")[0]


def _over(rect: Bit, box: Bit) -> bool:
    """Whether a rectangle seen from the front lies over a piece."""
    return rect[0] < box[1] and box[0] < rect[1] and rect[2] < box[3] and box[2] < rect[3]


def _clash(one: Solid, other: Solid) -> bool:
    return overlap(bounds(one), bounds(other)) and any(overlap(a, b) for a in one for b in other)


def _beyond(solid: Solid, panel: Brick, axis: int, side: int) -> bool:
    place = bounds(solid)
    middle = place[2 * axis] + place[2 * axis + 1]
    return (middle - panel[2 * axis] - panel[2 * axis + 1]) * side > 0


def _inside_edge(piece: _Placed, axis: int, side: int) -> Length:
    """Where a frame piece's edge toward the panel stands, measured outward."""
    place = bounds(piece.sawn)
    return place[2 * axis] if side > 0 else -place[2 * axis + 1]


def put(solid: Solid, place: Place, grain: Grain) -> Solid:
    """A part's solid in its door's frame. Raises ValueError where the axes are no frame."""
    axes = [("xyz".find(text[-1:]), -1 if text[:1] == "-" else 1) for text in place.axes]
    if sorted(axis for axis, _ in axes) != [X, Y, Z]:
        raise ValueError(f"the axes {', '.join(place.axes)} are no frame")
    origin = [grain.of(value) for value in place.origin]
    return carry(solid, axes, (origin[0], origin[1], origin[2]))


def assemble(plan: Plan, pieces: Pieces, grain: Grain) -> Fraction:
    """Put every door together and into its opening. Returns the largest clearance of a tenon.

    Raises InternalError that names door, pieces and what is wrong.
    """
    parts = {part.mark: part for part in plan.parts}
    placed_in = {place.mark: door.mark for door in plan.doors for place in door.places}
    for part in plan.parts:
        if part.mark not in plan.again and placed_in.get(part.mark) != part.door:
            raise InternalError(f"assembly, piece {part.mark}: it has no place in door {part.door}")
    widest = int(WIDEST_CLEARANCE[plan.unit] * grain.parts)
    clearance: Length = 0
    for door in plan.doors:
        placed: list[_Placed] = []
        for place in door.places:
            if place.mark not in parts:
                raise InternalError(f"assembly, door {door.mark}: there is no piece {place.mark}")
            try:
                sawn = put(pieces.sawn[place.mark], place, grain)
                finished = put(pieces.finished[place.mark], place, grain)
            except ValueError as error:
                raise InternalError(f"assembly, piece {place.mark}: {error}") from None
            placed.append(_Placed(parts[place.mark], sawn, finished))
        clearance = max(clearance, _Assembly(door, placed, grain, widest).check())
    hang(plan.doors)
    return Fraction(clearance) / grain.parts


def hang(doors: Sequence[Door]) -> None:
    """Every leaf in its opening: its gaps are as stated, on all sides and between leaves."""
    by_mark = {door.mark: door for door in doors}
    for door in doors:
        gaps = door.gaps
        if door.hinge not in ("left", "right"):
            raise InternalError(f"assembly, door {door.mark}: no door hangs on its {door.hinge}")
        leaves = [by_mark[mark] for mark in door.pair if mark in by_mark] or [door]
        (x, y), (width, height) = door.at, door.size
        right, above = door.opening[0] - x - width, door.opening[1] - y - height
        index = leaves.index(door) if door in leaves else 0
        before = leaves[index - 1] if index else None
        left = x if before is None else x - before.at[0] - before.size[0]
        if index + 1 < len(leaves):
            right = leaves[index + 1].at[0] - x - width
        hinge, free = (left, right) if door.hinge == "left" else (right, left)
        wanted = gaps.get("meeting" if len(leaves) > 1 else "lock", free)
        for name, found, gap in (
            ("top", above, gaps["top"]),
            ("bottom", y, gaps["bottom"]),
            ("hinge", hinge, gaps["hinge"]),
            ("free side", free, wanted),
        ):
            if found != gap or gap < 0:
                raise InternalError(
                    f"assembly, door {door.mark}: the gap at its {name} is {found}, not {gap}"
                )
