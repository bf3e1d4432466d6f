"""Free dimensions: where the job gives a range, the plan takes the value that saves setups."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from fractions import Fraction
from itertools import product

from msgspec import Struct

from sequencer.job.bars import widened
from sequencer.job.play import with_play
from sequencer.job.schema import Door, Job, Place
from sequencer.records import replace

FREE_KEYS = (
    "stiles.hinge", "stiles.lock", "stiles.meeting", "rails.top", "rails.bottom", "groove.depth",
    "groove.width", "joint.slot",
)  # fmt: skip
"""Keys that may hold a range, as `7/32 to 9/32`."""


class Dimension(Struct, frozen=True):
    """A dimension that one line of a job file states for one door or many: `doors` are indices of
    job and door. `value` is what it is now; it may be from `low` to `high`."""

    key: str
    doors: tuple[tuple[int, int], ...]
    low: Fraction
    high: Fraction
    value: Fraction
    place: Place


def place_of(dimension: Dimension) -> str:
    """Where its line stands, as a plan names it."""
    place = dimension.place
    return f"{place.file}:{place.line}:{place.column}"


def free_dimensions(jobs: Sequence[Job]) -> tuple[Dimension, ...]:
    """Every range of the jobs, in file order; doors that share a line share its dimension."""
    found: dict[tuple[str, Place], Dimension] = {}
    for j, d, door in doors_of(jobs):
        for free in door.free:
            spot = (free.key, door.places[free.key])
            known = found.get(spot)
            doors = (*(known.doors if known else ()), (j, d))
            value = value_of(door, free.key)
            found[spot] = Dimension(free.key, doors, free.low, free.high, value, spot[1])
    return tuple(found.values())


def open_slots(jobs: Sequence[Job]) -> tuple[Dimension, ...]:
    """Slots that no door states a width for, those that come out alike together. No line of a file
    has them: line 0, and a count. What they are without a better reason, and how far they may be
    moved, is not known here."""
    found: dict[tuple[object, ...], Dimension] = {}
    for j, d, door in doors_of(jobs):
        if door.joint.slot is None and not any(free.key == "joint.slot" for free in door.free):
            alike = (j, door.thickness, door.joint, door.groove, door.panel.thickness, door.fill)
            place = Place(jobs[j].file, 0, len(found) + 1)
            zero = Fraction(0)
            known = found.get(alike, Dimension("joint.slot", (), zero, zero, zero, place))
            found[alike] = replace(known, doors=(*known.doors, (j, d)))
    return tuple(found.values())


def doors_of(jobs: Sequence[Job]) -> Iterator[tuple[int, int, Door]]:
    for j, job in enumerate(jobs):
        for d, door in enumerate(job.doors):
            yield j, d, door


def value_of(door: Door, key: str) -> Fraction:
    """The dimension as the door has it; a slot or groove without a width of its own has none."""
    found = {
        "stiles.hinge": door.hinge_stile,
        "stiles.lock": door.free_stile,
        "stiles.meeting": door.free_stile,
        "rails.top": door.top_rail,
        "rails.bottom": door.bottom_rail,
        "groove.depth": door.groove.depth,
        "groove.width": door.groove.width,
        "joint.slot": door.joint.slot,
    }[key]
    assert found is not None
    return found


def with_value(door: Door, key: str, value: Fraction) -> Door:
    """The door with the dimension changed, and with it what follows it where it is not stated:
    the free stile the hinge stile, the bottom rail and bars the top rail."""
    if key == "stiles.hinge":
        alone = "stiles.lock" in door.places or "stiles.meeting" in door.places
        return replace(door, hinge_stile=value, free_stile=door.free_stile if alone else value)
    if key in ("stiles.lock", "stiles.meeting"):
        return replace(door, free_stile=value)
    if key == "rails.top":
        alone = "rails.bottom" in door.places
        bottom = door.bottom_rail if alone else value
        return replace(door, top_rail=value, bottom_rail=bottom, bars=widened(door, value))
    if key == "rails.bottom":
        return replace(door, bottom_rail=value)
    if key == "joint.slot":
        return replace(door, joint=replace(door.joint, slot=value))
    table, name = key.split(".")
    assert table == "groove"
    changed = replace(
        door.groove,
        depth=value if name == "depth" else door.groove.depth,
        width=value if name == "width" else door.groove.width,
    )
    return replace(door, groove=changed)


def with_values(
    jobs: Sequence[Job], values: Iterable[tuple[Dimension, Fraction]]
) -> tuple[Job, ...]:
    """The jobs with dimensions changed, and no longer free."""
    doors = [list(job.doors) for job in jobs]
    for dimension, value in values:
        for j, d in dimension.doors:
            door = doors[j][d]
            free = tuple(free for free in door.free if free.key != dimension.key)
            made = replace(with_value(door, dimension.key, value), free=free)
            doors[j][d] = with_play(made, jobs[j].unit)
    return tuple(replace(job, doors=tuple(made)) for job, made in zip(jobs, doors, strict=True))


def corners(door: Door) -> Iterator[Door]:
    """The door at every combination of its ranges' ends."""
    for ends in product(*((free.low, free.high) for free in door.free)):
        made = door
        for free, end in zip(door.free, ends, strict=True):
            made = with_value(made, free.key, end)
        yield made
