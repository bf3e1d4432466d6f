"""Curves through the stations that a shape is marked out by: a plan tells an arch by its heights at
stations, and a bent batten joins them; so does this. Corners stay corners."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from math import atan2, hypot, pi

Place = tuple[float, float]

_CORNER = pi / 7
"""Where a line turns by more it is a corner."""

_ALIKE = 0.2


def at(place: Place) -> str:
    return f"{place[0]:.3f},{place[1]:.3f}"


def pencil(path: str, dash: str = "") -> str:
    """A line to saw or to mark along."""
    dashed = f' stroke-dasharray="{dash}"' if dash else ""
    return f'<path d="{path}" fill="none" stroke="#000" stroke-width="0.3"{dashed}/>'


def runs(points: Sequence[Place]) -> Iterator[tuple[Place, str]]:
    """The sides of a closed line, each with where it begins and its part of an SVG path: a curve
    where the line goes on round its ends, straight between corners.

    >>> list(runs([(0, 0), (1, 0), (1, 1)]))[1]
    ((0, 0), 'L1.000,0.000')
    """
    count = len(points)
    around = [(points[n - 1], points[n], points[(n + 1) % count]) for n in range(count)]
    bends = [_bend(*three) for three in around]
    tangents = [
        _tangent(*three) if _goes_on(bends[n - 1], bends[n], bends[(n + 1) % count]) else None
        for n, three in enumerate(around)
    ]
    for n in range(count):
        start, end = points[n - 1], points[n]
        first, last = tangents[n - 1], tangents[n]
        chord = (end[0] - start[0], end[1] - start[1])
        if first is None and last is None:
            yield start, f"L{at(end)}"
            continue
        # From a corner the curve leaves as a parabola would.
        out = first or _mirrored(last, chord)
        into = last or _mirrored(first, chord)
        third = hypot(*chord) / 3
        one = (start[0] + out[0] * third, start[1] + out[1] * third)
        two = (end[0] - into[0] * third, end[1] - into[1] * third)
        yield start, f"C{at(one)} {at(two)} {at(end)}"


def _bend(before: Place, here: Place, after: Place) -> float:
    """By how much the line turns at a place, one way above 0, the other below."""
    a, b = (here[0] - before[0], here[1] - before[1]), (after[0] - here[0], after[1] - here[1])
    return (atan2(b[1], b[0]) - atan2(a[1], a[0]) + pi) % (2 * pi) - pi


def _goes_on(before: float, here: float, after: float) -> bool:
    """Whether a bend is part of a curve: another beside it is like it. The top of a peak has none
    beside it."""
    if not 1e-9 < abs(here) < _CORNER:
        return False
    return any(
        abs(other) < _CORNER and _ALIKE < other / here < 1 / _ALIKE for other in (before, after)
    )


def _tangent(before: Place, here: Place, after: Place) -> Place:
    """The direction of the circle through three places at the middle one."""
    a, b = (here[0] - before[0], here[1] - before[1]), (after[0] - here[0], after[1] - here[1])
    long, short = hypot(*a), hypot(*b)
    x = a[0] / long * short + b[0] / short * long
    y = a[1] / long * short + b[1] / short * long
    size = hypot(x, y)
    return x / size, y / size


def _mirrored(way: Place | None, chord: Place) -> Place:
    assert way is not None
    size = hypot(*chord)
    x, y = chord[0] / size, chord[1] / size
    along = way[0] * x + way[1] * y
    return 2 * along * x - way[0], 2 * along * y - way[1]
