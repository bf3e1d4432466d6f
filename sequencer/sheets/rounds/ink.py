"""From surfaces to SVG in mm: painted from back to front, each clipped to what it is part of."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from html import escape
from itertools import pairwise

from sequencer.sheets.rounds.camera import Camera
from sequencer.sheets.rounds.flat import HAIR, Box, Point, area, box, clipped, common, meet, within
from sequencer.sheets.rounds.order import Painted
from sequencer.sheets.rounds.pen import Pen, at
from sequencer.sheets.rounds.surfaces import Spot, Surface

TONES: Mapping[str, tuple[int, int, int]] = {
    "wood": (255, 243, 214),
    "waste": (196, 182, 150),
    "kerf": (72, 72, 72),
    "guide": (198, 179, 160),
    "sled": (232, 218, 202),
    "table": (255, 232, 232),
    "glass": (246, 240, 228),
    "blade": (34, 34, 34),
}
"""Grey of what looks up, of what looks at the person, of what looks to the side."""

WIDTHS: Mapping[str, float] = {
    "inner": 0.16,
    "outer": 0.34,
    "heavy": 0.95,
    "dash": 0.3,
    "break": 0.2,
}

POINTS = 72 / 25.4
"""Of a millimetre."""


@dataclass(slots=True)
class Mark:
    """Something flat on surfaces: `polygon` with its grey, or an open line where `width` is given.
    `on` says which surfaces take it; it shows nowhere else."""

    spots: Sequence[Spot]
    on: Sequence[Surface]
    grey: str = "#000"
    width: float = 0.0
    dash: str = ""
    kind: str = ""


@dataclass(slots=True)
class Sheet:
    """Where the room comes to lie on the page: `scale` in mm of the page for one of the wood."""

    camera: Camera
    scale: float
    shift: Point
    width: float
    height: float

    @property
    def frame(self) -> list[Point]:
        return [(0.0, 0.0), (self.width, 0.0), (self.width, self.height), (0.0, self.height)]

    def shows(self, point: Point) -> bool:
        return 0 <= point[0] <= self.width and 0 <= point[1] <= self.height

    def at(self, spot: Spot) -> Point:
        x, y = self.camera.page(spot)
        return self.shift[0] + self.scale * x, self.shift[1] + self.scale * y


def fitted(
    camera: Camera, focus: Sequence[Spot], width: float, height: float, margin: float, most: float
) -> Sheet:
    """The focus as large as it goes, in the middle, no larger than `most`."""
    points = [camera.page(spot) for spot in focus]
    xs, ys = [x for x, _ in points], [y for _, y in points]
    wide, high = max(xs) - min(xs), max(ys) - min(ys)
    scale = min((width - 2 * margin) / wide, (height - 2 * margin) / high, most)
    shift = (
        (width - scale * (max(xs) + min(xs))) / 2,
        (height - scale * (max(ys) + min(ys))) / 2,
    )
    return Sheet(camera, scale, shift, width, height)


def grey(label: str, normal: Spot) -> str:
    tones = TONES[label.partition(":")[0]]
    share = (normal[2] ** 2, normal[1] ** 2, normal[0] ** 2)
    value = round(sum(tone * part for tone, part in zip(tones, share, strict=True)))
    return f"#{value:02x}{value:02x}{value:02x}"


@dataclass(slots=True)
class Layer:
    """One thing painted, and its outline on the page, going round to the left."""

    painted: Painted
    loop: list[Point]
    box: Box


def layers(things: Iterable[Painted], sheet: Sheet) -> list[Layer]:
    """What is in the picture, in the same order; what lies outside is cut off."""
    found = []
    for each in things:
        loop = _round([sheet.at(corner) for corner in each.corners])
        if not all(map(sheet.shows, loop)):
            loop = common(loop, sheet.frame)
        if len(loop) > 2 and area(loop) > 1e-4:
            found.append(Layer(each, loop, box(loop)))
    return found


def seen_at(found: Sequence[Layer], point: Point) -> Surface | None:
    """What is seen at a point of the page."""
    x, y = point
    for layer in reversed(found):
        x0, y0, x1, y1 = layer.box
        if x0 <= x <= x1 and y0 <= y <= y1 and within(layer.loop, point):
            return layer.painted.whole
    return None


def painted(
    found: Sequence[Layer], marks: Iterable[Mark], sheet: Sheet, *, fine: float = 1.0
) -> list[str]:
    """The shapes, back to front. Widths of lines are times `fine`."""
    carried: dict[int, list[_OnPage]] = {}
    for mark in marks:
        points = [sheet.at(spot) for spot in mark.spots]
        placed = _OnPage(mark, points, box(points))
        for surface in mark.on:
            carried.setdefault(id(surface), []).append(placed)
    pen = Pen(fine)
    for layer in found:
        each, loop = layer.painted, layer.loop
        tone = grey(each.whole.label, each.whole.normal)
        pen.fill(loop, tone)
        if each.whole.label == "waste":
            pen.hatch(loop)
        for placed in carried.get(id(each.whole), ()):
            if meet(placed.box, layer.box, HAIR):
                _put(placed, loop, pen)
        _edge(each, sheet, pen)
    return pen.paths()


def _edge(each: Painted, sheet: Sheet, pen: Pen) -> None:
    for (a, b), kind in each.edges:
        ends = sheet.at(a), sheet.at(b)
        line = ends if all(map(sheet.shows, ends)) else clipped(ends, sheet.frame)
        if line is not None:
            pen.line(line, WIDTHS[kind], "")


@dataclass(slots=True)
class _OnPage:
    """A mark where it comes to lie on the page."""

    mark: Mark
    points: list[Point]
    box: Box


def _put(placed: _OnPage, loop: Sequence[Point], pen: Pen) -> None:
    mark = placed.mark
    if mark.width:
        for a, b in pairwise(placed.points):
            line = clipped((a, b), loop)
            if line is not None:
                pen.line(line, mark.width, mark.dash)
        return
    part = common(_round(placed.points), loop)
    if len(part) > 2:
        pen.fill(part, mark.grey)


def _round(points: Sequence[Point]) -> list[Point]:
    return list(points) if area(points) > 0 else list(points)[::-1]


def svg(width: float, height: float, shapes: Sequence[str], says: str) -> str:
    """The picture, told in mm and sized in points."""
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" class="round" width="{width * POINTS:.2f}pt"'
        f' height="{height * POINTS:.2f}pt" viewBox="0 0 {width:g} {height:g}" role="img"'
        f' aria-label="{escape(says, quote=True)}">{"".join(shapes)}</svg>'
    )


def open_arrow(start: Point, end: Point, fine: float) -> str:
    """A white arrow with a black outline."""
    dx, dy = end[0] - start[0], end[1] - start[1]
    length = (dx * dx + dy * dy) ** 0.5 or 1.0
    ux, uy = dx / length, dy / length
    half, head = 0.75 * fine, 2.0 * fine
    neck = length - head
    around = [(0, half), (neck, half), (neck, 2.1 * half), (length, 0)]
    around += [(a, -b) for a, b in reversed(around[:3])]
    points = [(start[0] + a * ux - b * uy, start[1] + a * uy + b * ux) for a, b in around]
    path = "M" + "L".join(at(point) for point in points) + "Z"
    return (
        f'<path d="{path}" fill="#fff" stroke="#000" stroke-width="{0.3 * fine:.2f}"'
        ' stroke-linejoin="round"/>'
    )
