"""Each leaf from the front: its pieces with their marks, hinges, glass, the field of a raised
panel, what is shaped or rebated, and the opening where the leaf laps over it.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from fractions import Fraction

from sequencer.plan import Box, Door, Feature, Part, Place, Plan
from sequencer.sheets import svg
from sequencer.wording import Room, pictures

_TYPE = 13
_SMALL = 10
PAD = Fraction(16)
_OVER = ("panel", "board", "slab", "mid rail", "mullion", "rail", "stile")
"""Roles from the back of the picture to its front: stiles run through."""

_THIN = Fraction(1, 2)
ZERO = Fraction(0)
Point = tuple[Fraction, Fraction]


def leaf_scale(plan: Plan) -> Fraction:
    """Points a unit, one for all leaves; larger where a leaf has many pieces."""
    many = max(len(door.places) + len(door.panes) for door in plan.doors) > 5
    wide, high = (Fraction(225), Fraction(250)) if many else (Fraction(150), Fraction(175))
    return min(min(wide / door.size[0], high / door.size[1]) for door in plan.doors)


def leaf_drawing(
    door: Door, parts: Mapping[str, Part], scale: Fraction, lapped: Mapping[str, Box], room: Room
) -> str:
    """The leaf with the triangle that is drawn across it. Ends that stand proud are not shown.
    `lapped` is what rebates on the finished leaves take off stiles, by their marks."""
    view = _View(door, scale)
    placed = sorted(door.places, key=lambda place: _rank(parts[place.mark]))
    shapes: list[str] = []
    for place in placed:
        shapes += view.piece(parts[place.mark], place)
        if place.mark in lapped:
            shapes.append(view.rebate(place, lapped[place.mark]))
    for place in placed:
        shapes += view.let_in(parts[place.mark], place)
    shapes += view.glass()
    shapes.append(svg.rect(PAD, PAD, view.wide, view.high))
    marks = _marks(view, door, parts, placed)
    marked = tuple(each.mark for each in door.places)
    hinge = room.term(door.hinge)
    says = room.text(pictures.DOOR_OF, mark=door.mark, hinge=hinge, marks=marked)
    size = (view.wide + 2 * PAD, view.high + 2 * PAD)
    across = [view.triangle()] if door.face_side == "out" else []  # else it is at the back
    shapes = [*shapes, *view.overlaid(), view.hinges(), *across, *marks]
    return svg.drawing(*size, shapes, says)


def _rank(part: Part) -> int:
    return _OVER.index(part.role) if part.role in _OVER else 0


class _View:
    """A leaf in points: `x` and `y` of the door's own lengths."""

    def __init__(self, door: Door, scale: Fraction) -> None:
        self.door, self.scale = door, scale
        self.wide, self.high = (extent * scale for extent in door.size)

    def at(self, x: Fraction, y: Fraction) -> Point:
        """What stands past the leaf is drawn at its edge."""
        x, y = (min(max(v, ZERO), most) for v, most in zip((x, y), self.door.size, strict=True))
        return PAD + x * self.scale, PAD + self.high - y * self.scale

    def seen(self, place: Place, x: Fraction, y: Fraction) -> Point:
        """A place on a piece's face, by its own x and y."""
        found = {"x": place.origin[0], "y": place.origin[1]}
        for value, axis in zip((x, y), place.axes, strict=False):
            if axis[1] in found:
                found[axis[1]] += value if axis[0] == "+" else -value
        return self.at(found["x"], found["y"])

    def piece(self, part: Part, place: Place) -> list[str]:
        """The piece's outline, what is shaped taken off; of a panel only its field."""
        if part.role == "panel":
            return self._field(part, place)
        fill = svg.WOOD if part.role in ("stile", "slab") else "#fff"
        corners = [self.seen(place, x, y) for x, y in _outline(part)]
        thin = _THIN if part.role == "board" else 1
        return [svg.path(corners, fill=fill, closed=True, stroke=thin)]

    def _field(self, part: Part, place: Place) -> list[str]:
        found = {f.at: f.box for f in part.features if f.kind == "bevel"}
        if not found:
            return []
        size = part.size
        left = found["A"][0][1] if "A" in found else ZERO
        right = found["B"][0][0] if "B" in found else size.length
        low = found["inside-edge"][1][1] if "inside-edge" in found else ZERO
        high = found["outside-edge"][1][0] if "outside-edge" in found else size.width
        inner = [(left, low), (right, low), (right, high), (left, high)]
        outer = [(ZERO, ZERO), (size.length, ZERO), (size.length, size.width), (ZERO, size.width)]
        corners = [self.seen(place, x, y) for x, y in inner]
        lines = [
            svg.line(*self.seen(place, *one), *self.seen(place, *other), width=_THIN)
            for one, other in zip(inner, outer, strict=True)
        ]
        return [svg.path(corners, fill="#fff", closed=True, stroke=_THIN), *lines]

    def rebate(self, place: Place, box: Box) -> str:
        """Where leaves lap: a line, dashed where the rebate is at the back."""
        x, y, z = box
        inner = y[1] if y[0] <= 0 else y[0]
        ends = (self.seen(place, x[0], inner), self.seen(place, x[1], inner))
        return svg.line(*ends[0], *ends[1], dash="" if z[0] <= 0 else "3 2")

    def let_in(self, part: Part, place: Place) -> list[str]:
        """What lies before the piece: the corner of a mitred rail, the end of a bar."""
        shapes: list[str] = []
        for feature in part.features:
            if feature.kind == "housing" and feature.at == "face":
                (x0, x1), (y0, y1), _ = feature.box
                corners = [(x0, y0), (x1, y0), (x1, y1), (x0, y1)]
                points = [self.seen(place, *corner) for corner in corners]
                shapes.append(svg.path(points, fill="#fff", closed=True, stroke=0))
                shapes.append(_white(points[0], points[1]))
                shapes += [svg.line(*points[1], *points[2]), svg.line(*points[3], *points[0])]
            elif feature.kind == "mitre" and part.role == "stile" and feature.prism is not None:
                shapes += self._mitred(feature, place)
        return shapes

    def _mitred(self, feature: Feature, place: Place) -> list[str]:
        assert feature.prism is not None
        corners = feature.prism.corners
        points = [self.seen(place, *corner) for corner in corners]
        sides = list(zip(corners, (*corners[1:], corners[0]), strict=True))
        slanting = next((n for n, (a, b) in enumerate(sides) if a[0] != b[0] and a[1] != b[1]), 0)
        drawn = list(zip(points, (*points[1:], points[0]), strict=True))
        inner = [
            _white(*ends) for ends, (a, b) in zip(drawn, sides, strict=True) if a[1] == b[1] == 0
        ]
        return [
            svg.path(points, fill="#fff", closed=True, stroke=0),
            *inner,
            svg.line(*drawn[slanting][0], *drawn[slanting][1]),
        ]

    def glass(self) -> list[str]:
        """Two slanting strokes in each light."""
        strokes = []
        for pane in self.door.panes:
            (x0, x1), (y0, y1), _ = pane.box
            middle = ((x0 + x1) / 2, (y0 + y1) / 2)
            off = min(x1 - x0, y1 - y0) / 4
            for aside in (off / 3, off * Fraction(2, 3)):
                one = self.at(middle[0] - off + aside, middle[1] + off / 2)
                other = self.at(middle[0] - off / 3 + aside, middle[1] + off * Fraction(7, 6))
                strokes.append(svg.line(*one, *other, width=_THIN))
        return strokes

    def overlaid(self) -> list[str]:
        """The opening, dashed, where the leaf laps over it; as much of it as there is room for."""
        lower = (-self.door.at[0], -self.door.at[1])
        upper = tuple(a + b for a, b in zip(lower, self.door.opening, strict=True))
        over = any(v > 0 for v in lower) or any(
            v < size for v, size in zip(upper, self.door.size, strict=True)
        )
        if not over or not all(self.door.opening):
            return []
        spare = (PAD - 3) / self.scale
        x0, y0 = (max(v, -spare) for v in lower)
        x1, y1 = (min(v, size + spare) for v, size in zip(upper, self.door.size, strict=True))
        left, top = PAD + x0 * self.scale, PAD + self.high - y1 * self.scale
        wide, high = (x1 - x0) * self.scale, (y1 - y0) * self.scale
        return [svg.rect(left, top, wide, high, dash="2 3", stroke=Fraction(3, 2))]

    def hinges(self) -> str:
        x = PAD - 8 if self.door.hinge == "left" else PAD + self.wide + 3
        places = [PAD + self.high * part_of - 9 for part_of in (Fraction(1, 6), Fraction(5, 6))]
        return svg.rects([(x, y, Fraction(5), Fraction(18)) for y in places], fill=svg.INK)

    def triangle(self) -> str:
        points = [
            (PAD + self.wide / 2, PAD + 4),
            (PAD + self.wide / 12, PAD + self.high - 4),
            (PAD + self.wide * Fraction(11, 12), PAD + self.high - 4),
        ]
        return svg.path(points, closed=True, dash="6 4", stroke=Fraction(3, 4))


def _outline(part: Part) -> list[Point]:
    """The face with the shaped inside edge: the deepest corner at each place along it."""
    length, width = part.size.length, part.size.width
    whole = [(ZERO, ZERO), (ZERO, width), (length, width), (length, ZERO)]
    shaped = next(
        (
            f.prism
            for f in part.features
            if f.kind == "shape"
            and f.prism is not None
            and f.prism.axes == "xy"
            and f.prism.along == (ZERO, part.size.thickness)
        ),
        None,
    )
    if shaped is None:
        return whole
    inside = min(y for _, y in shaped.corners) <= 0
    deepest: dict[Fraction, Fraction] = {}
    for x, y in shaped.corners:
        known = deepest.get(x, y)
        deepest[x] = max(known, y) if inside else min(known, y)
    edge = sorted(deepest.items(), reverse=inside)
    start, end = (x for x in (edge[0][0], edge[-1][0]))
    if inside:
        return [*whole, (start, ZERO), *edge, (end, ZERO)]
    return [(ZERO, ZERO), (ZERO, width), (start, width), *edge, (end, width), *whole[2:]]


def _white(one: Point, other: Point) -> str:
    (x1, y1), (x2, y2) = one, other
    return (
        f'<line x1="{svg.number(x1)}" y1="{svg.number(y1)}" x2="{svg.number(x2)}"'
        f' y2="{svg.number(y2)}" stroke="#fff" stroke-width="2"/>'
    )


def _marks(
    view: _View, door: Door, parts: Mapping[str, Part], placed: Sequence[Place]
) -> list[str]:
    """Each piece's mark in its middle, on white; of boards that are too narrow for it at three
    heights in turn."""
    boards = 0
    white: list[tuple[Fraction, Fraction, Fraction, Fraction]] = []
    words: list[str] = []

    def put(x: Fraction, y: Fraction, mark: str, role: str) -> None:
        size = _SMALL if role == "board" else _TYPE
        half = svg.text_width(mark, size, bold=True) / 2
        white.append((x - half, y - size * Fraction(1, 2), 2 * half, Fraction(size + 2)))
        low = y + size * Fraction(2, 5)
        words.append(svg.text(x, low, mark, size, anchor="middle", bold=True))

    for place in placed:
        part = parts[place.mark]
        corners = [
            view.seen(place, ZERO, ZERO),
            view.seen(place, part.size.length, part.size.width),
        ]
        x, y = ((a + b) / 2 for a, b in zip(*corners, strict=True))
        high = abs(corners[0][1] - corners[1][1])
        if part.role == "board":
            y += high / 9 * (boards % 3 - 1)
            boards += 1
        put(x, y, place.mark, part.role)
    for pane in door.panes:
        (x0, x1), (y0, y1), _ = pane.box
        put(*view.at((x0 + x1) / 2, (y0 + y1) / 2), pane.mark, "glass")
    return [svg.rects(white, fill="#fff"), *words]
