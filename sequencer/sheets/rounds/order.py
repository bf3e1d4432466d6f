"""From back to front: the order in which surfaces are painted so that each hides what is behind it.

Every surface parts the room by its plane. What lies behind the plane is painted first, then what is
in it, then what is before it; a surface that goes through the plane is cut in two. All surfaces are
turned toward the eye, which is far away: behind is always behind. That is right for whatever flat
things, and needs no sorting by distance.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from sequencer.sheets.rounds.flat import HAIR, halves
from sequencer.sheets.rounds.surfaces import Line, Spot, Surface

_TRIED = 5
"""How many surfaces are looked at for the one that cuts fewest others."""


@dataclass(slots=True)
class Painted:
    """What is painted at once: a surface, or what is left of it where it was cut, and its edges."""

    whole: Surface
    corners: list[Spot]
    edges: list[tuple[Line, str]]


def ordered(surfaces: Sequence[Surface]) -> Iterator[Painted]:
    """The surfaces from back to front, all turned toward the eye."""
    yield from _parted([Painted(each, each.corners, each.edges) for each in surfaces])


def _parted(left: list[Painted]) -> Iterator[Painted]:
    if len(left) < 2:
        yield from left
        return
    step = max(1, len(left) // _TRIED)
    root = min(left[::step], key=lambda each: _cuts(each, left))
    normal, at = _plane(root)
    a, b, c = normal
    behind: list[Painted] = []
    inside: list[Painted] = []
    before: list[Painted] = []
    for each in left:
        heights = [a * x + b * y + c * z - at for x, y, z in each.corners]
        low, high = min(heights), max(heights)
        # A sliver may be off its own plane by more than a hair: it lies in it all the same.
        if each is root or (high <= HAIR and low >= -HAIR):
            inside.append(each)
        elif high <= HAIR:
            behind.append(each)
        elif low >= -HAIR:
            before.append(each)
        else:
            one, other = _cut(each, heights, normal, at)
            behind.append(one)
            before.append(other)
    yield from _parted(behind)
    yield from inside
    yield from _parted(before)


def _plane(each: Painted) -> tuple[Spot, float]:
    normal = each.whole.normal
    return normal, sum(n * x for n, x in zip(normal, each.whole.corners[0], strict=True))


def _height(spot: Spot, normal: Spot, at: float) -> float:
    return normal[0] * spot[0] + normal[1] * spot[1] + normal[2] * spot[2] - at


def _cuts(root: Painted, left: Sequence[Painted]) -> int:
    (a, b, c), at = _plane(root)
    low, high = at - HAIR, at + HAIR
    count = 0
    for each in left:
        below = above = False
        for x, y, z in each.corners:
            height = a * x + b * y + c * z
            if height < low:
                below = True
            elif height > high:
                above = True
            else:
                continue
            if below and above:
                count += 1
                break
    return count


def _cut(
    each: Painted, heights: Sequence[float], normal: Spot, at: float
) -> tuple[Painted, Painted]:
    below, above = halves(each.corners, heights)
    low: list[tuple[Line, str]] = []
    high: list[tuple[Line, str]] = []
    for line, kind in each.edges:
        a, b = (_height(end, normal, at) for end in line)
        if max(a, b) <= HAIR:
            low.append((line, kind))
        elif min(a, b) >= -HAIR:
            high.append((line, kind))
        else:
            share = a / (a - b)
            met = _spot([p + share * (q - p) for p, q in zip(*line, strict=True)])
            first, second = ((line[0], met), kind), ((met, line[1]), kind)
            (low if a < 0 else high).append(first)
            (high if a < 0 else low).append(second)
    return (
        Painted(each.whole, [_spot(corner) for corner in below], low),
        Painted(each.whole, [_spot(corner) for corner in above], high),
    )


def _spot(values: Sequence[float]) -> Spot:
    return values[0], values[1], values[2]
