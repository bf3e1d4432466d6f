"""One leaf of a door: its parts, how they were sized, and what the bench does to them."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction

from msgspec import Struct

from sequencer.doors.layout import Shaped
from sequencer.job.schema import Door
from sequencer.joints import Joint, JointSizes
from sequencer.plan import Box, Order, Pane, Part, Place, Removal, Season
from sequencer.plan import Door as PlacedDoor
from sequencer.records import replace

ZERO = Fraction(0)
FILLS = frozenset({"panel", "board", "slab"})
"""Roles of what stands in a frame, or is a door by itself."""


BARS = frozenset({"mid rail", "mullion"})
"""Roles of what divides a frame."""


class Light(Struct, frozen=True):
    """An opening of the dry frame, in the door's frame, from the lower left corner that is seen."""

    left: Fraction
    bottom: Fraction
    width: Fraction
    height: Fraction


class Leaf(Struct, frozen=True):
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


def in_hand(parts: Sequence[Part], places: Sequence[Place]) -> tuple[Part, ...]:
    """The parts with the hand that each one's place in the leaf gives it."""
    inside = {place.mark: place.inside for place in places}
    return tuple(replace(part, inside=inside[part.mark]) for part in parts)


def hung(
    spec: Door, index: int, job: str, places: tuple[Place, ...], panes: tuple[Pane, ...] = ()
) -> PlacedDoor:
    """Leaf number `index` in its opening, of the parts in `places`."""
    gaps, size, hinge = spec.gaps, spec.leaf_size, spec.hinge_of(index)
    left = gaps.hinge if hinge == "left" else spec.opening.width - gaps.hinge - size[0]
    return PlacedDoor(
        mark=spec.marks[index],
        job=job,
        name=spec.name,
        opening=(spec.opening.width, spec.opening.height),
        size=size,
        at=(left, gaps.bottom),
        hinge=hinge,
        gaps={
            "top": gaps.top,
            "bottom": gaps.bottom,
            "hinge": gaps.hinge,
            spec.free_side: gaps.free,
        },
        face_side=spec.face_side,
        pair=spec.marks,
        places=places,
        panes=panes,
    )


def end_box(part: Part, at: str, to: Fraction, start: Fraction) -> Box:
    """A slice of the whole section, `start` to `to` from end `at`."""
    size = part.size
    along = (start, to) if at == "A" else (size.length - to, size.length - start)
    return (along, (ZERO, size.width), (ZERO, size.thickness))
