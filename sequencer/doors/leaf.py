"""One leaf of a door: its parts, how they were sized, and what the bench does to them."""

from __future__ import annotations

from dataclasses import dataclass, replace
from fractions import Fraction

from sequencer.doors.layout import Shaped
from sequencer.job.schema import Door
from sequencer.joints import Joint, JointSizes
from sequencer.plan import Box, Order, Part, Removal, Season
from sequencer.plan import Door as PlacedDoor

ZERO = Fraction(0)
FILLS = frozenset({"panel", "board", "slab"})
"""Roles of what stands in a frame, or is a door by itself."""


BARS = frozenset({"mid rail", "mullion"})
"""Roles of what divides a frame."""


@dataclass(frozen=True, slots=True)
class Light:
    """An opening of the dry frame, in the door's frame, from the lower left corner that is seen."""

    left: Fraction
    bottom: Fraction
    width: Fraction
    height: Fraction


@dataclass(frozen=True, slots=True)
class Leaf:
    """One leaf of a door: its parts and how they were sized. Parts are stiles, rails, bars, what
    fills the lights, in the order of their marks; `sight` is the opening inside the outer frame,
    width and height, where it is lowest; `lights` what bars leave of it, where each is highest.

    `shaped` is the bench's work on a shaped top rail and its panel. The bench takes `trims` off
    after the dry fit, `flush` after glue, `rebated` last of all. `orders` are made to size by
    others. `season` is what the year does to it, where the job tells of it.
    """

    spec: Door
    door: PlacedDoor
    joint: Joint
    sizes: JointSizes
    parts: tuple[Part, ...]
    sight: tuple[Fraction, Fraction]
    trims: tuple[Removal, ...]
    flush: tuple[Removal, ...]
    season: Season | None = None
    lights: tuple[Light, ...] = ()
    shaped: Shaped | None = None
    rebated: tuple[Removal, ...] = ()
    orders: tuple[Order, ...] = ()

    @property
    def fills(self) -> tuple[Part, ...]:
        return tuple(part for part in self.parts if part.role in FILLS)

    @property
    def frame(self) -> tuple[Part, ...]:
        return tuple(part for part in self.parts if part.role not in FILLS)

    def twin(self) -> Leaf:
        """The same leaf once more, its marks with a + behind."""
        shaped = self.shaped
        if shaped is not None:
            shaped = replace(shaped, rail=f"{shaped.rail}+", panel=f"{shaped.panel}+")
        return replace(
            self,
            door=replace(self.door, mark=f"{self.door.mark}+"),
            parts=tuple(replace(part, mark=f"{part.mark}+") for part in self.parts),
            shaped=shaped,
        )

    @property
    def complete(self) -> bool:
        """Whether a door is put together from its parts."""
        return True


def end_box(part: Part, at: str, to: Fraction, start: Fraction) -> Box:
    """A slice of the whole section, `start` to `to` from end `at`."""
    size = part.size
    along = (start, to) if at == "A" else (size.length - to, size.length - start)
    return (along, (ZERO, size.width), (ZERO, size.thickness))
