"""Readings of one scale to where it is to be set: offset, slope, spread; was it knocked?

A guide's scale is told from the middle of the blade, so that a sharpened blade, whose teeth lose
as much on either side, leaves it alone. Few parameters, each of which a person can work out by
hand: medians, Theil and Sen's slope, the median of absolute deviations. Sorting pairs of forty
readings is quick in floats; what comes out is a whole number of hundredths of a millimetre or of
half thousandths of an inch, and exact from there on.
"""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction
from itertools import combinations
from math import erf, sqrt
from statistics import median

from msgspec import Struct

from sequencer.lengths import Unit
from sequencer.trade import spreads
from sequencer.trade.fits import Datum

LATEST = 40
"""Readings of one scale that are looked at: most of a year's, where it is set every week; ours."""

RECENT = 12
"""Of these, the last ones that say where it stands now: so a slow drift is followed; ours."""

NEAR = Datum(Fraction(1, 24), Fraction(1), "ours: readings so near a number are of that setting")
LOCAL = 3
"""So many readings of one setting outweigh the line through all of the scale; ours."""

LEVER = Datum(Fraction(1), Fraction(25), "ours: a shorter stretch of a scale tells no slope")
LEAST_SLOPED = 6
"""Readings below which a slope is more likely chance than the scale's; ours."""

KNOCK = 4
"""Spreads beyond which two readings running, on one side, are no chance: one pair in 10^9 of a
normal error. Ours."""

PRIOR = 4
"""Readings that what is usual of a saw counts for, beside its own; ours."""

NORMAL = 1.4826
"""Sigma of a normal error is so many times its median absolute deviation (1 / 0.6745)."""

FARTHEST_OFF = Datum(Fraction(1, 4), Fraction(6), "ours: no scale is off by more; the shop file is")

STEP = Datum(Fraction(1, 2000), Fraction(1, 100), "ours: finer than any scale is set")


class Observation(Struct, frozen=True):
    """One reading: the scale showed `shown` where the knob really stood at `stood`, by what was
    measured; `at` sorts by time, as `2025-11-25T14:03:20`. `kerf` is the blade's as it was taken to
    be, 0 for a height."""

    at: str
    stood: float
    shown: float
    kerf: float = 0.0
    job: str = ""

    @property
    def error(self) -> float:
        """What the scale shows too much, told from the middle of the blade."""
        return self.shown - self.stood - self.kerf / 2


class Scale(Struct, frozen=True):
    """What is known of one knob's scale on one carrier with one cutter, in a plan's unit.

    At `number` it shows `number` + kerf / 2 + `offset` + `slope` · (`number` - `pivot`). `spread`
    is one sigma of where a setting comes to stand, by its own `count` readings and what is usual.
    `own` are settings with a history: number, offset there, how many readings. `since` is the time
    of the first reading after a knock, by which it then shows `by` more; both empty without one.
    `drift` is how much the offset grows in a hundred readings, 0 where chance would do as much.
    """

    cutter: str
    carrier: str
    knob: str
    offset: Fraction
    spread: Fraction
    count: int
    slope: Fraction = Fraction(0)
    pivot: Fraction = Fraction(0)
    own: tuple[tuple[Fraction, Fraction, int], ...] = ()
    since: str = ""
    by: Fraction = Fraction(0)
    drift: Fraction = Fraction(0)
    near: Fraction = Fraction(1)
    step: Fraction = Fraction(1, 100)

    def has_own(self, number: Fraction) -> bool:
        """Whether settings near `number` have a history of their own."""
        return any(abs(each[0] - number) <= self.near for each in self.own)

    def off(self, number: Fraction, kerf: Fraction) -> Fraction:
        """What the scale is to show beyond `number`, so that the knob stands there; a whole number
        of the finest steps that anybody sets."""
        half = Fraction(0) if self.knob == "height" else kerf / 2
        near = [each for each in self.own if abs(each[0] - number) <= self.near]
        if near:
            offset = min(near, key=lambda each: abs(each[0] - number))[1]
        else:
            offset = self.offset + self.slope * (number - self.pivot)
        return round((offset + half) / self.step) * self.step

    @property
    def sigma(self) -> float:
        """One sigma of where a number that is set by it will stand: its spread, and what a median
        of so few may be off (the variance of a median is pi / 2 of a mean's)."""
        return float(self.spread) * sqrt(1 + 1.5708 / self.count)

    def beyond(self, low: Fraction, number: Fraction, high: Fraction) -> tuple[float, float]:
        """The chances that a knob set to `number` stands below `low`, and above `high`."""
        far = 99.0
        below = chance(-far, float(low - number) / self.sigma, 1.0)
        return below, chance(float(high - number) / self.sigma, far, 1.0)

    def passes(self, low: Fraction, number: Fraction, high: Fraction) -> float:
        """The chance that a knob set to `number` stands from `low` to `high`."""
        return chance(float(low - number), float(high - number), self.sigma)


def chance(low: float, high: float, sigma: float) -> float:
    """The share of a normal error of one `sigma` that lies from `low` to `high`.

    >>> round(chance(-1, 1, 1), 4)
    0.6827
    """
    return (erf(high / sigma / sqrt(2)) - erf(low / sigma / sqrt(2))) / 2


def fit(
    cutter: str, carrier: str, knob: str, seen: Sequence[Observation], unit: Unit
) -> Scale | None:
    """What readings in the order of their times say of a scale; `None` where there are none."""
    seen = seen[-LATEST:]
    if not seen:
        return None
    usual = float(spreads.MOVE.of(unit)) ** 2 + float(spreads.PASS.of(unit)) ** 2
    places = [each.stood for each in seen]
    errors = [each.error for each in seen]
    start, before = knocked(errors, sqrt(usual))
    places, errors, kept = places[start:], errors[start:], seen[start:]
    slope = slope_of(places, errors, float(LEVER.of(unit)))
    pivot = median(places)
    flat = [e - slope * (p - pivot) for p, e in zip(places, errors, strict=True)]
    recent = flat[-RECENT:]
    offset = median(recent)
    own = (NORMAL * deviation(recent)) ** 2
    spread = sqrt((PRIOR * usual + len(recent) * own) / (PRIOR + len(recent)))
    step = STEP.of(unit)

    def exact(value: float, to: Fraction = step) -> Fraction:
        return round(value / float(to)) * to

    return Scale(
        cutter,
        carrier,
        knob,
        offset=exact(offset, step / 10),
        spread=max(exact(spread, step / 10), step / 10),
        count=len(recent),
        slope=exact(slope, Fraction(1, 100_000)),
        pivot=exact(pivot),
        own=_histories(kept, step / 10, float(NEAR.of(unit))),
        since=kept[0].at if before is not None else "",
        by=exact(median(errors[:RECENT]) - before) if before is not None else Fraction(0),
        drift=exact(drift_of(flat, spread), step / 10),
        near=NEAR.of(unit),
        step=step,
    )


def knocked(errors: Sequence[float], sigma: float) -> tuple[int, float | None]:
    """Where the last stretch begins in which a scale stayed as it was, and what it had shown too
    much before that; 0 and `None` where it always stayed. `sigma` is what is usual.

    >>> knocked([0.0, 0.1, 0.0, 5.0, 5.1], 0.1)
    (3, 0.0)
    >>> knocked([0.0, 0.1, 0.0, 5.0, 0.1], 0.1)
    (0, None)
    """
    start, before = 0, None
    for n in range(1, len(errors) - 1):
        stretch = errors[max(start, n - RECENT) : n]
        if not stretch:
            continue
        middle = median(stretch)
        own = (NORMAL * deviation(stretch)) ** 2
        wide = sqrt((PRIOR * sigma**2 + len(stretch) * own) / (PRIOR + len(stretch)))
        limit = KNOCK * wide * sqrt(1 + 1.5708 / len(stretch))
        first, second = errors[n] - middle, errors[n + 1] - middle
        if min(first, second) > limit or max(first, second) < -limit:
            start, before = n, middle
    return start, before


def deviation(values: Sequence[float]) -> float:
    """The median absolute deviation from the median.

    >>> deviation([1, 1, 2, 2, 4, 6, 9])
    1
    """
    middle = median(values)
    return median(abs(value - middle) for value in values)


def slope_of(places: Sequence[float], errors: Sequence[float], lever: float) -> float:
    """Theil and Sen's slope: the median of the slopes of all pairs that lie a quarter of `lever`
    apart. 0 where all together reach no farther than `lever`, where they are few, or where a
    slope may be chance: by Kendall's score, beyond two sigmas of it."""
    n = len(places)
    if n < LEAST_SLOPED or max(places) - min(places) < lever:
        return 0.0
    pairs = [
        (errors[j] - errors[i]) / (places[j] - places[i])
        for i, j in combinations(range(n), 2)
        if abs(places[j] - places[i]) >= lever / 4
    ]
    score = sum((slope > 0) - (slope < 0) for slope in pairs)
    if abs(score) <= 2 * sqrt(n * (n - 1) * (2 * n + 5) / 18):
        return 0.0
    return theil_sen(places, errors, lever / 4)


def theil_sen(xs: Sequence[float], ys: Sequence[float], apart: float = 0) -> float:
    """The median of the slopes of all pairs that lie farther than `apart` from each other.

    The example of Sen, Journal of the American Statistical Association 63 (1968), p. 1379 ff.:

    >>> theil_sen([1, 2, 3, 4, 10, 12, 18], [9, 15, 19, 20, 45, 55, 78])
    4.0
    """
    return median(
        (ys[j] - ys[i]) / (xs[j] - xs[i])
        for i, j in combinations(range(len(xs)), 2)
        if abs(xs[j] - xs[i]) > apart
    )


def drift_of(errors: Sequence[float], sigma: float) -> float:
    """How much errors grow in a hundred readings; 0 where all of it is less than their spread."""
    if len(errors) < 2 * LEAST_SLOPED:
        return 0.0
    each = theil_sen(range(len(errors)), errors)
    return 100 * each if abs(each) * len(errors) > 2 * sigma else 0.0


def _histories(
    seen: Sequence[Observation], step: Fraction, near: float
) -> tuple[tuple[Fraction, Fraction, int], ...]:
    """Settings that were read often enough to have an offset of their own."""
    left = list(seen)
    found: list[tuple[Fraction, Fraction, int]] = []
    while left:
        about = left[-1].stood
        alike = [each for each in left if abs(each.stood - about) <= near]
        left = [each for each in left if abs(each.stood - about) > near]
        if len(alike) >= LOCAL:
            recent = alike[-RECENT:]
            place = median(each.stood for each in recent)
            offset = median(each.error for each in recent)
            fine = float(step)
            found.append((round(place / fine) * step, round(offset / fine) * step, len(recent)))
    return tuple(sorted(found))
