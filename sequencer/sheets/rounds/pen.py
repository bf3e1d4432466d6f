"""A picture as few paths: areas of a grey in one wherever nothing comes between them, and on top of
all areas the lines, less what areas painted later hide of them.

Whoever prints hundreds of pictures waits for their paths, not for what is in them.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field
from functools import cached_property

from sequencer.sheets.rounds.flat import Box, Point, Range, box, clipped, left_over, meet, sides
from sequencer.sheets.rounds.strokes import outlines, strokes

_SEAM = 0.08
_AT_EDGE = 0.02
"""In mm of the page: a line no deeper in an area than that runs along its edge, and is seen."""

Half = tuple[float, float, float]
"""What is to the left of a line: so much of x and of y is at least so much."""
Style = tuple[float, str]
"""How wide a line is, in mm, and how it is dashed."""


@dataclass
class _Area:
    loop: Sequence[Point]
    box: Box

    @cached_property
    def halves(self) -> list[Half]:
        """Left of each of its sides, no nearer to it than what is seen along its edge."""
        found = []
        for (ax, ay), (bx, by) in sides(self.loop):
            length = ((bx - ax) ** 2 + (by - ay) ** 2) ** 0.5
            if length:
                x, y = (ay - by) / length, (bx - ax) / length
                found.append((x, y, x * ax + y * ay + _AT_EDGE))
        return found


@dataclass(slots=True)
class _Tone:
    """Areas that are painted at once."""

    tone: str
    areas: list[_Area]


@dataclass(slots=True)
class _Line:
    ends: tuple[Point, Point]
    style: Style
    under: int
    """How many areas were painted before it."""


@dataclass(slots=True)
class Pen:
    """Takes a picture from back to front. Widths of lines are times `fine`."""

    fine: float
    tones: list[_Tone] = field(default_factory=list)
    areas: list[_Area] = field(default_factory=list)
    lines: list[_Line] = field(default_factory=list)

    def fill(self, loop: Sequence[Point], tone: str) -> None:
        """A convex area that goes round to the left; a line of the same grey closes the seams
        between neighbours."""
        area = _Area(loop, box(loop))
        self.areas.append(area)
        for group in reversed(self.tones):
            if group.tone == tone:
                group.areas.append(area)
                return
            if any(meet(area.box, other.box) for other in group.areas):
                break
        self.tones.append(_Tone(tone, [area]))

    def line(self, ends: tuple[Point, Point], width: float, dash: str) -> None:
        self.lines.append(_Line(ends, (width, dash), len(self.areas)))

    def hatch(self, loop: Sequence[Point]) -> None:
        """Slanting lines, in the same places on every surface."""
        step = 1.15 * self.fine
        sums = [x + y for x, y in loop]
        n = int(min(sums) / step)
        while (n := n + 1) * step < max(sums):
            c = n * step
            low, high = min(x for x, _ in loop) - 1, max(x for x, _ in loop) + 1
            line = clipped(((low, c - low), (high, c - high)), loop)
            if line is not None:
                self.line(line, 0.13, "")

    def paths(self) -> list[str]:
        """All of it as SVG."""
        out = [f'<g stroke-width="{_SEAM}" stroke-linecap="round" stroke-linejoin="round">']
        for group in self.tones:
            around = outlines([at(point) for point in area.loop] for area in group.areas)
            d = "".join(f"M{'L'.join(loop)}Z" for loop in around)
            if d:
                out.append(f'<path d="{d}" fill="{group.tone}" stroke="{group.tone}"/>')
        styles: dict[Style, dict[tuple[str, str], None]] = {}
        for line in self.lines:
            drawn = styles.setdefault(line.style, {})
            for one, other in self._seen(line):
                a, b = sorted((at(one), at(other)))
                drawn[a, b] = None
        for (width, dash), drawn in styles.items():
            dashed = f' stroke-dasharray="{dash}"' if dash else ""
            d = "".join(f"M{'L'.join(ends)}" for ends in (drawn if dash else strokes(drawn)))
            out.append(
                f'<path d="{d}" fill="none" stroke="#000"'
                f' stroke-width="{width * self.fine:.2f}"{dashed}/>'
            )
        return [*out, "</g>"]

    def _seen(self, line: _Line) -> list[tuple[Point, Point]]:
        """What no later area hides. Its round ends stay before what hides it."""
        (ax, ay), (bx, by) = line.ends
        left, right = (ax, bx) if ax < bx else (bx, ax)
        low, high = (ay, by) if ay < by else (by, ay)
        taken = []
        for area in self.areas[line.under :]:
            x0, y0, x1, y1 = area.box
            if x0 < right and left < x1 and y0 < high and low < y1:
                span = _under(line.ends, area.halves)
                if span is not None:
                    taken.append(span)
        if not taken:
            return [line.ends]
        dx, dy = bx - ax, by - ay
        end = line.style[0] * self.fine / 2 / ((dx * dx + dy * dy) ** 0.5 or 1.0)
        found = left_over((0.0, 1.0), [(a - end, b + end) for a, b in taken])
        return [((ax + a * dx, ay + a * dy), (ax + b * dx, ay + b * dy)) for a, b in found]


def _under(line: tuple[Point, Point], halves: Sequence[Half]) -> Range | None:
    """From where to where, in shares of its length, a line is in all halves."""
    (ax, ay), (bx, by) = line
    low, high = 0.0, 1.0
    for x, y, least in halves:
        a, b = x * ax + y * ay - least, x * bx + y * by - least
        if a <= 0:
            if b <= 0:
                return None
            if a < 0:
                low = max(low, a / (a - b))
        elif b < 0:
            high = min(high, a / (a - b))
        else:
            continue
        if low >= high:
            return None
    return low, high


def at(point: Point) -> str:
    return f"{point[0]:.2f},{point[1]:.2f}"
