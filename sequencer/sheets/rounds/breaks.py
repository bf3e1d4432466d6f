"""Break lines: where wood is drawn shorter than it is, a white band with wavy edges goes round it.

All in mm in the frame of the wood as it is drawn."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import pairwise

from sequencer.sheets.rounds.flat import left_over
from sequencer.sheets.rounds.surfaces import Line, Spot, Surface

Break = tuple[int, float]
"""The axis, and where on it."""

_WIDE, _WAVE, _PERIOD = 4.0, 3.2, 32.0


def _off(across: float) -> float:
    """How far the band is off its place: a wave of straight lines, the same where two sides meet
    in an edge."""
    return _WAVE * (4 * abs((across / _PERIOD) % 1 - 0.5) - 1)


def uncrossed(line: Line, breaks: Sequence[Break], mm: float) -> list[Line]:
    """A line without what lies in the bands."""
    a, b = line
    taken = []
    for axis, at in breaks:
        run = (b[axis] - a[axis]) * mm
        if abs(run) < 1e-9:
            continue
        others = [n for n in range(3) if n != axis]
        off = at + _off(sum(a[n] + b[n] for n in others) * mm / 2)
        ends = [(off + way * _WIDE / 2 - a[axis] * mm) / run for way in (-1, 1)]
        taken.append((min(ends), max(ends)))

    def spot(share: float) -> Spot:
        x, y, z = (p + share * (q - p) for p, q in zip(a, b, strict=True))
        return x, y, z

    return [(spot(low), spot(high)) for low, high in left_over((0.0, 1.0), taken)]


def bands(surface: Surface, break_: Break, mm: float) -> Iterator[tuple[list[Spot], list[Line]]]:
    """The band over one surface of wood in convex pieces, each with the lines at its two sides;
    nothing where the break does not cross it. Corners are in the lengths that the surface is told
    in, `mm` each."""
    axis, at = break_
    b, c = (n for n in range(3) if n != axis)
    told = [tuple(value * mm for value in spot) for spot in surface.told]
    low, high = min(spot[axis] for spot in told), max(spot[axis] for spot in told)
    if high - low < 1e-6 or high < at - _WIDE - _WAVE or low > at + _WIDE + _WAVE:
        return
    one = min(told, key=lambda spot: (spot[b], spot[c]))
    other = max(told, key=lambda spot: (spot[b], spot[c]))
    start, run = one[b] + one[c], other[b] + other[c] - one[b] - one[c]
    shares = {0.0, 1.0}
    if abs(run) > 1e-6:
        half = _PERIOD / 2
        n = int(min(start, start + run) / half) - 1
        while n * half < max(start, start + run):
            share = (n * half - start) / run
            shares |= {share} if 0 < share < 1 else set()
            n += 1

    def spot(share: float, way: int) -> Spot:
        place = [0.0, 0.0, 0.0]
        place[b] = one[b] + share * (other[b] - one[b])
        place[c] = one[c] + share * (other[c] - one[c])
        place[axis] = at + _off(start + share * run) + way * _WIDE / 2
        return place[0] / mm, place[1] / mm, place[2] / mm

    along = sorted(shares)
    for first, second in pairwise(along):
        lines = [(spot(first, way), spot(second, way)) for way in (-1, 1)]
        yield [*lines[0], *reversed(lines[1])], lines


def near(place: float, axis: int, breaks: Sequence[Break], by: float) -> bool:
    """Whether a place on an axis is in a band or nearer to one than `by`."""
    return any(own == axis and abs(place - at) < _WIDE / 2 + _WAVE + by for own, at in breaks)
