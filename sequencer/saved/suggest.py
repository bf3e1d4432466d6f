"""Near misses: small changes to fixed dimensions that would save setups.

Each dimension that a line of the job states, or that is left at its default, is varied by itself
within a small window, at the values where settings fall together. Every change that is listed has
been planned again from end to end; nothing is changed unasked.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from fractions import Fraction

from sequencer.errors import Refusal
from sequencer.facts import Fact, Length, advices
from sequencer.free_values import Cost, Freedom
from sequencer.job.free import FREE_KEYS, Dimension, doors_of, value_of, with_values
from sequencer.job.schema import Door, Job, Place
from sequencer.job.validate import check
from sequencer.pipeline import planned
from sequencer.setups.given import Given
from sequencer.trade import fits

WINDOW = fits.Datum(Fraction(1, 4), Fraction(6), "ours: a stile or rail may be changed so little")
FINE_WINDOW = fits.Datum(
    Fraction(1, 32), Fraction(4, 5), "ours: a slot or groove still fits its panel"
)
MOST_VALUES = 8
"""Values of one dimension that are planned."""

WORK = 40_000
"""Changes looked at, times the operations of the job: half a minute or so, whatever its size."""
LEAST_LOOKS = 8
SHARE = 4
"""Changes looked at for one dimension at the least, where there are too many for all."""

_FINE = ("groove.width", "joint.slot")


@dataclass(frozen=True, slots=True)
class Suggestion:
    """`dimension` at `value` instead would save `minutes` and `setups`; `marks` are the leaves
    that it changes."""

    dimension: Dimension
    value: Fraction
    marks: tuple[str, ...]
    minutes: Fraction
    setups: int


@dataclass(frozen=True, slots=True)
class Suggestions:
    """What was found, and how many changes were `looked_at`; `passed_over` are those that a job
    of its size leaves no time for."""

    found: tuple[Suggestion, ...]
    looked_at: int
    passed_over: int


def suggest(given: Given, most: int = 5) -> Suggestions:
    """The changes of one dimension each that save most setups, then most minutes, then change
    least; at most one a dimension. Nothing is free in the jobs given."""
    freedom, jobs = Freedom(given), given.jobs
    now = freedom.cost(())
    if now is None:
        return Suggestions((), 0, 0)
    freedom.narrow(())
    looks = max(LEAST_LOOKS, WORK // len(given.work(given.open()[0])[1].operations))
    dimensions = fixed_dimensions(jobs)
    chances = [
        (rank, dimension, value)
        for dimension in _likeliest(dimensions)[: max(1, looks // SHARE)]
        for rank, value in enumerate(near_values(freedom, dimension))
    ]
    chances.sort(key=lambda chance: chance[0])  # the likeliest value of each dimension first
    found: list[Suggestion] = []
    for _, dimension, value in chances[:looks]:
        cost = freedom.cost(((dimension, value),))
        gain = (0, Fraction(0)) if cost is None else _gain(now, cost)
        if gain > (0, 0):
            marks = tuple(mark for j, d in dimension.doors for mark in jobs[j].doors[d].marks)
            found.append(Suggestion(dimension, value, marks, gain[1], gain[0]))
    found.sort(key=_preference)
    kept: list[Suggestion] = []
    for one in found:
        if len(kept) < most and one.dimension not in [other.dimension for other in kept]:
            try:
                changed = with_values(jobs, [(one.dimension, one.value)])
                again = planned(replace(given, jobs=changed))
            except Refusal:
                continue  # another value of it may do
            if Cost(again.ordering.minutes, again.ordering.setups) < now:
                kept.append(one)
    left_out = len(dimensions) - max(1, looks // SHARE)
    passed_over = max(0, len(chances) - looks) + MOST_VALUES * max(0, left_out)
    return Suggestions(tuple(kept), min(looks, len(chances)), passed_over)


def near_values(freedom: Freedom, dimension: Dimension) -> tuple[Fraction, ...]:
    """The values of the dimension that are looked at, the likeliest first."""
    jobs = freedom.given.jobs
    values = freedom.near_misses(dimension, MOST_VALUES)
    return tuple(value for value in values if _sound(jobs, dimension, value))


def _likeliest(dimensions: Sequence[Dimension]) -> list[Dimension]:
    """Those that nearly equal another of their kind first: what they would share is there already;
    then as they stand in the file."""

    def near(one: Dimension) -> bool:
        kind = one.key.partition(".")[0]
        return any(
            other.key.partition(".")[0] == kind
            and other.value != one.value
            and one.low <= other.value <= one.high
            for other in dimensions
        )

    return sorted(dimensions, key=lambda one: not near(one))


def fixed_dimensions(jobs: Sequence[Job]) -> tuple[Dimension, ...]:
    """Dimensions of all doors that a line states, and defaults, with their window round what they
    are; what follows another dimension is not one of its own."""
    found: dict[tuple[str, Place], Dimension] = {}
    for j, d, door in doors_of(jobs):
        unit = jobs[j].unit
        for key in FREE_KEYS:
            value = _own_value(door, key)
            if value is None or any(free.key == key for free in door.free):
                continue
            place = door.places.get(key, Place(jobs[j].file, 0, 0))
            known = found.get((key, place))
            window = (FINE_WINDOW if key in _FINE else WINDOW).of(unit)
            doors = (*(known.doors if known else ()), (j, d))
            low = max(value - window, value / 2)
            found[key, place] = Dimension(key, doors, low, value + window, value, place)
    return tuple(found.values())


def told(suggestion: Suggestion, given: Given) -> Fact:
    """Where it stands, what would change and what that saves."""
    unit, dimension = given.jobs[0].unit, suggestion.dimension
    place, setups, minutes = dimension.place, suggestion.setups, suggestion.minutes
    if setups and minutes:
        saves = advices.SETUPS_AND_MINUTES(n=setups, minutes=minutes)
    else:
        saves = advices.SETUPS(n=setups) if setups else advices.JUST_MINUTES(minutes=minutes)
    return advices.CHANGE(
        where=(
            advices.AT_LINE(file=place.file, line=place.line)
            if place.line
            else advices.BY_DEFAULT(file=place.file)
        ),
        name=dimension.key,
        value=Length(suggestion.value, unit),
        now=Length(dimension.value, unit),
        n=len(suggestion.marks),
        marks=suggestion.marks,
        saves=saves,
    )


def _gain(now: Cost, cost: Cost) -> tuple[int, Fraction]:
    """Setups and minutes saved; nothing where either grows."""
    setups, minutes = now.setups - cost.setups, now.minutes - cost.minutes
    return (setups, minutes) if setups >= 0 and minutes >= 0 else (0, Fraction(0))


def _preference(one: Suggestion) -> tuple[object, ...]:
    change = abs(one.value - one.dimension.value)
    return (-one.setups, -one.minutes, change, one.value, one.dimension.key, one.dimension.doors)


def _own_value(door: Door, key: str) -> Fraction | None:
    if key in ("stiles.lock", "stiles.meeting", "rails.bottom") and key not in door.places:
        return None
    if key == ("stiles.lock" if door.leaves == 2 else "stiles.meeting"):
        return None
    if (key == "groove.width" and door.groove.width is None) or (
        key == "joint.slot" and door.joint.slot is None
    ):
        return None
    return value_of(door, key)


def _sound(jobs: Sequence[Job], dimension: Dimension, value: Fraction) -> bool:
    changed = with_values(jobs, [(dimension, value)])
    return not any(check(changed[j].doors[d], changed[j].unit) for j, d in dimension.doors)
