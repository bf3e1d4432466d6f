"""Wood as it is posed for a picture, on the saw or by itself."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, field

from sequencer.plan import Marked
from sequencer.proof.cells import Brick, Plane
from sequencer.proof.hands import Marks
from sequencer.sheets.rounds.breaks import Break, bands
from sequencer.sheets.rounds.camera import Camera
from sequencer.sheets.rounds.ink import WIDTHS, Mark
from sequencer.sheets.rounds.lying import Shortened
from sequencer.sheets.rounds.surfaces import Spot, Surface

Extent = tuple[float, float]


@dataclass(slots=True)
class Posed:
    """`wood` is what is seen of it. `into` brings places in the wood, as it is drawn, to the room;
    `mm` is one of its lengths. `extent` is what it takes up on the room's three axes, `box` on its
    own."""

    camera: Camera
    wood: list[Surface]
    extent: tuple[Extent, Extent, Extent]
    box: Brick
    short: Shortened
    into: Callable[[Spot], Spot]
    mm: float
    marks: Marks
    marked: Marked
    ends: dict[str, float] = field(default_factory=dict)
    """Where on the wood the ends A and B are that have a letter."""

    @property
    def breaks(self) -> list[Break]:
        """In mm of the wood as it is drawn."""
        return [(each.axis, float(each.at) * self.mm) for each in self.short.breaks]

    def broken(self) -> Iterator[Mark]:
        """The break lines."""
        return broken(self.wood, self.breaks, self.mm, self.into)


def broken(
    wood: Sequence[Surface], breaks: Sequence[Break], mm: float, into: Callable[[Spot], Spot]
) -> Iterator[Mark]:
    """The bands of all breaks over surfaces of wood, whose lengths are `mm` each and are brought
    `into` the room. White comes last, so that no line runs through where two bands cross."""
    white: list[Mark] = []
    for surface in wood:
        for each in breaks:
            for corners, lines in bands(surface, each, mm):
                spots = [into(corner) for corner in corners]
                white.append(Mark(spots, [surface], "#ffffff"))
                for line in lines:
                    yield Mark([into(end) for end in line], [surface], width=WIDTHS["break"])
    yield from white


def corners_of(brick: Brick) -> list[Spot]:
    x0, x1, y0, y1, z0, z1 = (float(value) for value in brick)
    return [(x, y, z) for x in (x0, x1) for y in (y0, y1) for z in (z0, z1)]


def extent_of(brick: Brick, into: Callable[[Spot], Spot]) -> tuple[Extent, Extent, Extent]:
    """What a brick of the wood takes up in the room."""
    spots = [into(corner) for corner in corners_of(brick)]
    x, y, z = ((min(s[a] for s in spots), max(s[a] for s in spots)) for a in range(3))
    return x, y, z


def named(marks: Marks, brick: Brick) -> dict[Plane, str]:
    """The planes of the sides of wood that fills a brick, by name."""
    found: dict[Plane, str] = {}
    for name, (axis, way) in marks.sides.items():
        at = brick[2 * axis + (way > 0)]
        normal = [0, 0, 0]
        normal[axis] = way * at.denominator
        found[normal[0], normal[1], normal[2], way * at.numerator] = name
    return found
