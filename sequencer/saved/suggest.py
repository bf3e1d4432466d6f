"""Near misses: small changes to fixed dimensions that would save setups.

Each dimension that a line of the job states, or that is left at its default, is varied by itself
within a small window, at the values where settings fall together. Every change that is listed has
been planned again from end to end; nothing is changed unasked.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction

from sequencer.errors import Refusal
from sequencer.freedom import Cost, Freedom
from sequencer.job.free import FREE_KEYS, Dimension, doors_of, value_of, with_values
from sequencer.job.schema import Door, Job, Place
from sequencer.job.validate import check
from sequencer.lengths import show
from sequencer.plan import Plan
from sequencer.trade.fits import Fact

WINDOW = Fact(Fraction(1, 8), Fraction(3), "ours: a stile or rail changed so little looks the same")
FINE_WINDOW = Fact(Fraction(1, 32), Fraction(4, 5), "ours: a slot or groove still fits its panel")
MOST_VALUES = 8
"""Values of one dimension that are planned."""

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


def suggest(
    freedom: Freedom, replan: Callable[[Sequence[Job]], Plan], most: int = 5
) -> tuple[Suggestion, ...]:
    """The changes of one dimension each that save most setups, then most minutes, then change
    least; at most one a dimension. `replan` plans jobs from end to end."""
    jobs = freedom.given.jobs
    now = freedom.cost(())
    if now is None:
        return ()
    freedom.narrow(())
    found: list[Suggestion] = []
    for dimension in fixed_dimensions(jobs):
        for value, cost in searched(freedom, dimension):
            gain = _gain(now, cost)
            if gain > (0, 0):
                marks = tuple(mark for j, d in dimension.doors for mark in jobs[j].doors[d].marks)
                found.append(Suggestion(dimension, value, marks, gain[1], gain[0]))
    found.sort(key=_preference)
    kept: list[Suggestion] = []
    for one in found:
        if len(kept) < most and one.dimension not in [other.dimension for other in kept]:
            try:
                again = replan(with_values(jobs, [(one.dimension, one.value)]))
            except Refusal:
                continue  # another value of it may do
            if Cost(again.ordering.minutes, again.ordering.setups) < now:
                kept.append(one)
    return tuple(kept)


def searched(freedom: Freedom, dimension: Dimension) -> Iterator[tuple[Fraction, Cost]]:
    """Every value of the dimension that is looked at, with what the batch would cost."""
    for value in freedom.near_misses(dimension, MOST_VALUES):
        if _sound(freedom.given.jobs, dimension, value):
            cost = freedom.cost(((dimension, value),))
            if cost is not None:
                yield value, cost


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


def words(suggestion: Suggestion, freedom: Freedom) -> str:
    """As `top rail width 2 1/4 in instead of 2 in (A, B): 1 setup and 4 minutes fewer`."""
    job = freedom.given.jobs[0]

    def say(length: Fraction) -> str:
        shown = show(length, job.unit, freedom.given.shop.graduation)
        return shown.text if shown.exact else shown.decimal

    dimension = suggestion.dimension
    place = dimension.place
    where = f"{place.file}:{place.line}: " if place.line else f"{place.file}, by default: "
    setups, minutes = suggestion.setups, suggestion.minutes
    saves = [f"{setups} setup{'s' if setups != 1 else ''}"] if setups > 0 else []
    saves += [f"{minutes} minute{'s' if minutes != 1 else ''}"] if minutes > 0 else []
    return (
        f"{where}{dimension.name} {say(suggestion.value)} instead of {say(dimension.value)} "
        f"{job.unit} (doors {', '.join(suggestion.marks)}): {' and '.join(saves)} fewer"
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
