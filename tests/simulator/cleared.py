"""The space that a pass clears, bounded outward by boxes.

Upright cuts are exact. A leaning blade is cut into steps of its height and a mitre into steps of
the piece's width, each rounded outward: never less is cleared than in truth. So whatever the true
cut frees is freed here too, and what bears or stands here does so in truth; the other way it can be
out by a step, which is a twelfth of the lean. A predicate that fires on a leaning cut is to be
looked at with that in mind; one that stays silent is right.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction
from math import ceil, floor

from tests.simulator.wood import SIDES, Box, Y

STEPS = 12


@dataclass(frozen=True, slots=True)
class Blade:
    """How the blade stands to a piece: what is down, what is against the guide, and in grains the
    guide, the kerf and the depth above what carries the piece. `sweep`: all from the guide, or from
    `back` before the far side, is nibbled away. `slanted`: the guide's line lies at 45 degrees."""

    down: str
    against: str
    guide: int
    kerf: int
    depth: int
    tilt: Fraction
    sweep: bool = False
    back: int | None = None
    slanted: bool = False

    @property
    def nearest(self) -> int:
        """From the guide to where it begins to clear wood, at the table."""
        if not self.sweep:
            return self.guide
        return 0 if self.back is None else max(0, self.guide + self.kerf - self.back)

    @property
    def farthest(self) -> int:
        return self.guide + self.kerf


def cleared(box: Box, blade: Blade) -> list[Box]:
    """What a pass through a piece that fills `box` clears."""
    if blade.slanted:
        return list(_mitred(box, blade))
    if not blade.tilt:
        return [_slab(box, blade, (0, blade.depth), blade.nearest, blade.farthest)]
    return list(_leaning(box, blade))


def _leaning(box: Box, blade: Blade) -> Iterator[Box]:
    for n in range(STEPS):
        low, high = (blade.depth * m // STEPS for m in (n, n + 1))
        leans = [-blade.tilt * low, -blade.tilt * high]
        near = floor(blade.guide + min(leans))
        far = ceil(blade.farthest + max(leans))
        yield _slab(box, blade, (low, high), near, far)


def _mitred(box: Box, blade: Blade) -> Iterator[Box]:
    wide = box[3] - box[2]
    for n in range(STEPS):
        low, high = (wide * m // STEPS for m in (n, n + 1))
        # The line crosses the outside edge at the guide and the inside edge a width further on.
        piece = _slab(box, blade, (0, blade.depth), 0, blade.guide + wide - low)
        yield (piece[0], piece[1], box[2 * Y] + low, box[2 * Y] + high, piece[4], piece[5])


def _slab(box: Box, blade: Blade, heights: tuple[int, int], near: int, far: int) -> Box:
    """What is between two distances from the guide and two heights, over the whole of the rest."""
    found = list(box)
    for side, (low, high) in ((blade.down, heights), (blade.against, (near, far))):
        axis, end = SIDES[side]
        first, last = box[2 * axis], box[2 * axis + 1]
        spans = (last - high, last - low) if end else (first + low, first + high)
        found[2 * axis : 2 * axis + 2] = max(first, spans[0]), min(last, spans[1])
    return (found[0], found[1], found[2], found[3], found[4], found[5])
