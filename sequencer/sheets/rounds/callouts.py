"""Words beside what they name: each in the free place of the picture that is nearest, with a line
to it. A word that finds none is left out: the sheet says it as well."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from html import escape

from msgspec import Struct

from sequencer.sheets import svg
from sequencer.sheets.rounds.flat import Box, Point
from sequencer.sheets.rounds.pen import at

TYPE = 13 * 25.4 / 72
"""The floor for what is read at the saw, in mm."""

_COSTS = {"wood": 5.0, "waste": 7.0, "kerf": 7.0, "blade": 3.0, "guide": 0.6}
_MOST = 3.0  # what a place may cost
_EDGE = 0.6
_SIZES = (1.0, 0.85, 0.7, 0.55)
"""Of marks on a leaf, where they would lie on each other."""
_CLEAR = 0.3


class Callout(Struct, frozen=True):
    """A word, and the place of the picture that it names."""

    words: str
    point: Point


class Placed(Struct, frozen=True):
    """A word with the box it fills, from the upper left corner to the lower right one."""

    callout: Callout
    low: Point
    high: Point


def placed(
    callouts: Sequence[Callout],
    seen: Callable[[Point], str],
    width: float,
    height: float,
    spared: Sequence[Point] = (),
) -> list[Placed]:
    """Each word where it hides least, and none of the `spared` points; `seen` says what is at a
    point of the page."""
    found: list[Placed] = []
    points = [*(callout.point for callout in callouts), *spared]
    for callout in callouts:
        wide = float(svg.text_width(callout.words, 1)) * TYPE * 0.9
        if not (0 < callout.point[0] < width and 0 < callout.point[1] < height):
            continue
        best: tuple[float, Placed] | None = None
        rows, columns = 9, 7
        for row in range(rows):
            for column in range(columns):
                x = _EDGE + (width - wide - 2 * _EDGE) * column / (columns - 1)
                y = _EDGE + (height - TYPE - 2 * _EDGE) * row / (rows - 1)
                tried = Placed(callout, (x, y), (x + wide, y + TYPE))
                cost = _cost(tried, found, points, seen, best[0] if best else _MOST)
                if best is None or cost < best[0]:
                    best = (cost, tried)
        if best is not None and best[0] < _MOST:
            found.append(best[1])
    return found


def _cost(
    tried: Placed,
    others: Sequence[Placed],
    points: Sequence[Point],
    seen: Callable[[Point], str],
    enough: float,
) -> float:
    (x0, y0), (x1, y1) = tried.low, tried.high
    for other in others:
        if (
            x0 < other.high[0] + 1
            and other.low[0] < x1 + 1
            and y0 < other.high[1]
            and other.low[1] < y1
        ):
            return 99.0
    if any(x0 - 1 < x < x1 + 1 and y0 - 1 < y < y1 + 1 for x, y in points):
        return 99.0
    px, py = tried.callout.point
    near = (min(max(px, x0), x1), min(max(py, y0), y1))
    far: float = ((px - near[0]) ** 2 + (py - near[1]) ** 2) ** 0.5
    if far / 14 > enough:
        return far
    hidden = 0.0
    for n in range(5):
        for m in range(2):
            hidden += _COSTS.get(seen((x0 + (x1 - x0) * n / 4, y0 + (y1 - y0) * m)), 0.0)
    # A line over the wood is one line too many among the edges.
    crossed = sum(
        seen((px + (near[0] - px) * n / 5, py + (near[1] - py) * n / 5)) in ("wood", "waste")
        for n in range(1, 5)
    )
    return far / 14 + hidden / 4 + 0.35 * crossed


def written(found: Iterable[Placed]) -> list[str]:
    """The words with their lines, on white."""
    shapes = []
    for each in found:
        (x0, y0), (x1, y1) = each.low, each.high
        px, py = each.callout.point
        x = min(max(px, x0 + 1), x1 - 1)
        y = y0 if py < y0 else y1
        if y0 <= py <= y1:
            x, y = (x0 if px < x0 else x1), py
        line = f"M{at((px, py))}L{at((x, y))}"
        pens = ('stroke="#fff" stroke-width="0.7"', 'stroke="#000" stroke-width="0.2"')
        shapes += [f'<path d="{line}" fill="none" {pen}/>' for pen in pens]
        shapes.append(f'<circle cx="{px:.2f}" cy="{py:.2f}" r="0.5"/>')
        shapes.append(_white(x0 - 0.3, y0 + 0.1, x1 - x0 + 0.6, y1 - y0 - 0.1))
        shapes.append(
            f'<text x="{x0:.2f}" y="{y1 - 0.22 * TYPE:.2f}" font-family="{svg.FONT}"'
            f' text-anchor="start" font-size="{TYPE:.2f}">{escape(each.callout.words)}</text>'
        )
    return shapes


def lettered(words: str, point: Point, size: float = TYPE) -> list[str]:
    """A mark on the wood itself, its middle at a point, on white."""
    x, y = point
    wide = float(svg.text_width(words, 1, bold=True)) * size * 0.86
    text = (
        f'<text x="{x:.2f}" y="{y + 0.36 * size:.2f}" text-anchor="middle"'
        f' font-family="{svg.FONT}" font-size="{size:.2f}" font-weight="bold"'
        f">{escape(words)}</text>"
    )
    return [_white(x - wide / 2, y - size / 2, wide, size), text]


def apart(
    marks: Sequence[tuple[str, Sequence[Point]]], width: float, height: float
) -> tuple[float, dict[str, Point]]:
    """The size of marks, and where each stands of the points that may be its, the first best: none
    on another, all in the picture. They are smaller where they must be; at the smallest, one
    that finds no place is left out.

    >>> apart([("A1", [(5, 5)]), ("A2", [(6, 5), (20, 5)])], 30, 10)[1]["A2"]
    (20, 5)
    """
    found: dict[str, Point] = {}
    for size in _SIZES:
        found, rooms = {}, list[Box]()
        # What has the fewest places comes first.
        for words, points in sorted(marks, key=lambda each: len(each[1])):
            for point in points:
                room = _taken(words, point, size * TYPE)
                if _inside(room, width, height) and not any(_meet(room, each) for each in rooms):
                    found[words] = point
                    rooms.append(room)
                    break
        if len(found) == sum(1 for _, points in marks if points):
            return size * TYPE, found
    return _SIZES[-1] * TYPE, found


def _taken(words: str, point: Point, size: float) -> Box:
    """The most that a mark takes with its middle at a point."""
    x, y = point
    half = float(svg.text_width(words, 1, bold=True)) * size / 2
    return x - half, y - size / 2, x + half, y + size / 2


def _inside(room: Box, width: float, height: float) -> bool:
    return room[0] >= 0 and room[1] >= 0 and room[2] <= width and room[3] <= height


def _meet(one: Box, other: Box) -> bool:
    return (
        one[0] < other[2] + _CLEAR
        and other[0] < one[2] + _CLEAR
        and one[1] < other[3]
        and other[1] < one[3]
    )


def _white(x: float, y: float, wide: float, high: float) -> str:
    """Behind words, so that they are read whatever is there; once, so that they are told once."""
    return (
        f'<rect x="{x:.2f}" y="{y:.2f}" width="{wide:.2f}" height="{high:.2f}" rx="0.8"'
        ' fill="#fff" fill-opacity="0.85"/>'
    )
