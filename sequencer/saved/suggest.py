"""Near misses: small changes to fixed dimensions that would save minutes.

Each dimension that a line of the job states, or that is left at its default, is varied within a
small window, at the values where settings fall together; those that do best are tried together.
What is listed has been planned again from end to end with the values as they are printed, so that
whoever types them saves as much; nothing is changed unasked.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from fractions import Fraction
from itertools import combinations

from msgspec import Struct

from sequencer.errors import Refusal
from sequencer.facts import Fact, Length, advices
from sequencer.free_values import Cost, Freedom
from sequencer.job.free import FREE_KEYS, Dimension, doors_of, value_of, with_values
from sequencer.job.schema import Door, Job, Place
from sequencer.job.validate import check
from sequencer.lengths import Unit
from sequencer.pipeline import planned
from sequencer.records import replace
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


MOST = 5
"""Changes that are listed."""

TOGETHER = 4
"""Changes, each of a dimension of its own, that are tried in twos and threes: 10 combinations."""

Change = tuple[Dimension, Fraction]


class Suggestion(Struct, frozen=True):
    """Dimensions at other values would save `minutes` and `setups` (fewer than none where more are
    made in less time); `marks` are the leaves that it changes."""

    changes: tuple[Change, ...]
    marks: tuple[str, ...]
    minutes: Fraction
    setups: int

    @property
    def dimension(self) -> Dimension:
        """The first that it changes."""
        return self.changes[0][0]

    @property
    def value(self) -> Fraction:
        return self.changes[0][1]


class Suggestions(Struct, frozen=True):
    """What was found, and how many changes were `looked_at`; `passed_over` are those that a job
    of its size leaves no time for."""

    found: tuple[Suggestion, ...]
    looked_at: int
    passed_over: int


def suggest(given: Given) -> Suggestions:
    """The changes that save most minutes, then most setups, then change fewest dimensions by least.
    Of one dimension, or of the same ones, the best is listed; a combination only where it saves
    more than each of its parts. Nothing is free in the jobs given."""
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
    tried: dict[tuple[Change, ...], Suggestion] = {}

    def attempt(changes: tuple[Change, ...]) -> None:
        cost = freedom.cost(changes)
        if cost is not None and cost.minutes <= now.minutes:
            doors = [jobs[j].doors[d] for each, _ in changes for j, d in each.doors]
            marks = dict.fromkeys(mark for door in doors for mark in door.marks)
            saves = (now.minutes - cost.minutes, now.setups - cost.setups)
            tried[changes] = Suggestion(changes, tuple(marks), *saves)

    for _, dimension, value in chances[:looks]:
        attempt(((dimension, value),))
    pool = _best_of_each(tried.values())[:TOGETHER]
    for size in (2, 3):
        for several in combinations(pool, size):
            attempt(tuple(change for each in several for change in each.changes))
    kept: list[Suggestion] = []
    for one in sorted(tried.values(), key=_preference):
        if len(kept) == MOST:
            break
        if (one.minutes, one.setups) > (0, 0) and _adds(one, tried) and not _told(one, kept):
            again = _planned_again(given, one, now)
            if again is not None:
                kept.append(again)
    left_out = len(dimensions) - max(1, looks // SHARE)
    passed_over = max(0, len(chances) - looks) + MOST_VALUES * max(0, left_out)
    return Suggestions(tuple(kept), min(looks, len(chances)), passed_over)


def _best_of_each(found: Iterable[Suggestion]) -> list[Suggestion]:
    best: dict[Dimension, Suggestion] = {}
    for one in sorted(found, key=_preference):
        best.setdefault(one.dimension, one)
    return list(best.values())


def _adds(one: Suggestion, tried: Mapping[tuple[Change, ...], Suggestion]) -> bool:
    """Whether every part of a combination is worth its while."""
    size = len(one.changes)
    return all(
        part not in tried or tried[part].minutes < one.minutes
        for less in range(1, size)
        for part in combinations(one.changes, less)
    )


def _told(one: Suggestion, kept: Sequence[Suggestion]) -> bool:
    """Whether the same dimensions are changed by a better one."""
    own = {dimension for dimension, _ in one.changes}
    return any(own == {dimension for dimension, _ in other.changes} for other in kept)


def _planned_again(given: Given, one: Suggestion, now: Cost) -> Suggestion | None:
    """What it saves when it is planned from end to end; `None` where that is nothing."""
    try:
        changed = with_values(given.jobs, one.changes)
        made = planned(replace(given, jobs=changed)).ordering
    except Refusal:
        return None  # another value of it may do
    if Cost(made.minutes, made.setups) >= now:
        return None
    return replace(one, minutes=now.minutes - made.minutes, setups=now.setups - made.setups)


def as_typed(value: Fraction, unit: Unit) -> Fraction:
    """The value that a file has where what is printed is typed into it.

    >>> as_typed(Fraction(9, 32), "in"), as_typed(Fraction(2309401, 1000000), "in")
    (Fraction(9, 32), Fraction(2309, 1000))
    """
    step = Fraction(1, 100 if unit == "mm" else 64)
    if value % step == 0:
        return value
    fine = Fraction(1, 100 if unit == "mm" else 1000)
    return round(value / fine) * fine


def near_values(freedom: Freedom, dimension: Dimension) -> tuple[Fraction, ...]:
    """The values of the dimension that are looked at, the likeliest first."""
    jobs = freedom.given.jobs
    unit = jobs[0].unit
    values = dict.fromkeys(
        as_typed(value, unit) for value in freedom.near_misses(dimension, MOST_VALUES)
    )
    return tuple(
        value for value in values if value != dimension.value and _sound(jobs, dimension, value)
    )


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
    """Where each change stands, and what all together save."""
    unit, setups, minutes = given.jobs[0].unit, suggestion.setups, suggestion.minutes
    if setups > 0 and minutes:
        saves = advices.SETUPS_AND_MINUTES(n=setups, minutes=minutes)
    else:
        saves = advices.JUST_MINUTES(minutes=minutes) if minutes else advices.SETUPS(n=setups)
    lines = tuple(
        advices.CHANGE_TO(
            where=(
                advices.AT_LINE(file=dimension.place.file, line=dimension.place.line)
                if dimension.place.line
                else advices.BY_DEFAULT(file=dimension.place.file)
            ),
            name=dimension.key,
            value=Length(value, unit),
            now=Length(dimension.value, unit),
        )
        for dimension, value in suggestion.changes
    )
    return advices.CHANGES(each=lines, n=len(suggestion.marks), marks=suggestion.marks, saves=saves)


def _preference(one: Suggestion) -> tuple[object, ...]:
    change = sum((abs(value - each.value) for each, value in one.changes), Fraction(0))
    keys = [(each.key, each.doors, value) for each, value in one.changes]
    return (-one.minutes, -one.setups, len(one.changes), change, keys)


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
