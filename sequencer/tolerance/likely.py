"""How often a fit comes out right at the first try.

A setting goes by its scale, a test cut is read, and the setting is moved by what the reading is off
until a reading lies inside the window. What the setting then is, given that it was accepted, is
worked out try by try on a grid; so is what the passes of an accepted test were, and thickness
within its own check. Everything else is normal and added in closed form.
"""

from __future__ import annotations

from collections.abc import Sequence
from functools import lru_cache
from math import ceil, erf, exp, pi, sqrt

from msgspec import Struct

ROOT_2 = sqrt(2)
TRIES = 4
"""So many tries are worked out; by then each is like the one before, and all that follow are taken
to be."""
LEFT = 1e-5
"""Less than that is left to no further try."""
REACH = 4.5
"""As many sigmas as a grid goes beyond a window."""


def below(x: float, sigma: float) -> float:
    """The share of a normal error under `x`."""
    return 0.5 * (1 + erf(x / (sigma * ROOT_2)))


class Density(Struct, frozen=True):
    """Shares that add up to 1, on places `step` apart, the first at `start`."""

    start: float
    step: float
    shares: tuple[float, ...]

    def places(self) -> list[float]:
        return [self.start + n * self.step for n in range(len(self.shares))]

    def turned(self) -> Density:
        """Of what is counted the other way."""
        last = self.start + (len(self.shares) - 1) * self.step
        return Density(-last, self.step, self.shares[::-1])

    def stretched(self, times: int) -> Density:
        """Of so many times the same."""
        if times == 1:
            return self
        shares = [0.0] * (times * (len(self.shares) - 1) + 1)
        shares[::times] = self.shares
        return Density(self.start * times, self.step, tuple(shares))

    @property
    def mean(self) -> float:
        return sum(p * s for p, s in zip(self.places(), self.shares, strict=True))

    @property
    def variance(self) -> float:
        mean = self.mean
        return sum((p - mean) ** 2 * s for p, s in zip(self.places(), self.shares, strict=True))


class Accepted(Struct, frozen=True):
    """What is true of a check once its reading lies in the window: `value`, what would be measured
    without the errors of the last try; `passed`, what one of its passes was off, and `noise` all
    the errors of that try; `first`, the share that is accepted at once, and how many `tries` it
    takes on the average."""

    value: Density
    passed: Density
    noise: Density
    first: float
    tries: float


@lru_cache(maxsize=4096)
def accepted(
    low: float, high: float, wide: float, moved: float, passes: int, sigma: float, read: float
) -> Accepted:
    """`low` and `high` are the window seen from its target, `wide` one sigma of the first setting
    and `moved` of a correction, both as the measure shows them; `passes` are in a try, each with
    `sigma`, and a reading is wrong by at most `read`, one place as likely as another."""
    step = sigma / 4
    noise = sqrt(passes * sigma**2 + read**2 / 3)
    noises = _normal(noise, step)
    start = (low - REACH * noise) // step * step
    count = ceil((high + REACH * noise - start) / step) + 1
    places = [start + n * step for n in range(count)]
    taken = [below(high - d, noise) - below(low - d, noise) for d in places]
    value = [0.0] * count
    missed = [
        share * (1 - below(high - n, wide) + below(low - n, wide))
        for n, share in zip(noises.places(), noises.shares, strict=True)
    ]
    prior = [step * exp(-(d * d) / (2 * wide * wide)) / (wide * sqrt(2 * pi))
             for d in places]  # fmt: skip
    single = _normal(sigma, step)
    good_pass = [
        share * (_in_window(p, low, high, wide)) for p, share in
        zip(single.places(), single.shares, strict=True)
    ]  # fmt: skip
    good_noise = [
        share * _in_window(p, low, high, wide)
        for p, share in zip(noises.places(), noises.shares, strict=True)
    ]
    left, tries, first = 1.0, 0.0, 0.0
    for number in range(TRIES):
        tries += left
        now = [p * t for p, t in zip(prior, taken, strict=True)]
        value = [a + b for a, b in zip(value, now, strict=True)]
        passed = sum(now)
        first = first or passed
        if number:
            good_pass = _with_passes(good_pass, single, places, prior, low, high)
            good_noise = _with_passes(good_noise, noises, places, prior, low, high)
        if number == TRIES - 1:
            rate = passed / left
            value = [a + b * (1 / rate - 1) for a, b in zip(value, now, strict=True)]
            tries += left * (1 / rate - 1)
            break
        left -= passed
        if left < LEFT:
            break
        whole = sum(missed)
        missed = [share * left / whole for share in missed] if whole > 0 else missed
        prior = _corrected(noises, missed, places, moved, step)
        missed = _missed(noises, places, prior, low, high)
    sum_value, sum_pass, sum_noise = sum(value), sum(good_pass), sum(good_noise)
    return Accepted(
        Density(start, step, tuple(v / sum_value for v in value)),
        Density(single.start, step, tuple(v / sum_pass for v in good_pass)),
        Density(noises.start, step, tuple(v / sum_noise for v in good_noise)),
        first,
        tries,
    )


def _normal(sigma: float, step: float) -> Density:
    count = ceil(REACH * sigma / step)
    places = [n * step for n in range(-count, count + 1)]
    shares = [exp(-(p * p) / (2 * sigma * sigma)) for p in places]
    whole = sum(shares)
    return Density(-count * step, step, tuple(share / whole for share in shares))


def _in_window(p: float, low: float, high: float, wide: float) -> float:
    return below(high - p, wide) - below(low - p, wide)


def _corrected(
    noises: Density, missed: Sequence[float], places: Sequence[float], moved: float, step: float
) -> list[float]:
    """Where the setting is after it was moved by what was read: what the errors of that try were,
    the other way, and what the move was off."""
    kernel = _normal(moved, step)
    reach = len(kernel.shares) // 2
    found = [0.0] * len(places)
    first = places[0]
    for place, share in zip(noises.places(), missed, strict=True):
        if share < 1e-12:
            continue
        at = (-place - first) / step
        whole = int(at // 1)
        rest = at - whole
        for n, part in enumerate(kernel.shares):
            here = whole + n - reach
            if 0 <= here < len(found):
                found[here] += share * part * (1 - rest)
            if 0 <= here + 1 < len(found):
                found[here + 1] += share * part * rest
    return found


def _running(prior: Sequence[float]) -> list[float]:
    """The share below each place, half of its own counted."""
    found, whole = [], 0.0
    for share in prior:
        found.append(whole + share / 2)
        whole += share
    found.append(whole)
    return found


def _under(running: Sequence[float], places: Sequence[float], x: float) -> float:
    step = places[1] - places[0]
    at = (x - places[0]) / step
    if at <= 0:
        return 0.0
    if at >= len(places) - 1:
        return running[-1]
    n = int(at)
    return running[n] + (at - n) * (running[n + 1] - running[n])


def _missed(
    noises: Density, places: Sequence[float], prior: Sequence[float], low: float, high: float
) -> list[float]:
    """The errors of a try, with the share at which the reading falls outside."""
    running = _running(prior)
    return [
        share * (running[-1] - _under(running, places, high - n) + _under(running, places, low - n))
        for n, share in zip(noises.places(), noises.shares, strict=True)
    ]


def _with_passes(
    good: Sequence[float], single: Density, places: Sequence[float], prior: Sequence[float],
    low: float, high: float,
) -> list[float]:  # fmt: skip
    running = _running(prior)
    return [
        have + share * (_under(running, places, high - p) - _under(running, places, low - p))
        for have, p, share in zip(good, single.places(), single.shares, strict=True)
    ]


@lru_cache(maxsize=512)
def milled(low: float, high: float, sigma: float, read: float, step: float) -> Density:
    """Thickness, once a reading of it lies in the window."""
    reach = max(high, -low) + read
    count = ceil(reach / step)
    places = [n * step for n in range(-count, count + 1)]
    shares = [
        exp(-(p * p) / (2 * sigma * sigma)) * _reads_inside(p, low, high, read) for p in places
    ]
    whole = sum(shares)
    return Density(-count * step, step, tuple(share / whole for share in shares))


def _reads_inside(p: float, low: float, high: float, read: float) -> float:
    """The share of readings of what is off by `p` that lie in the window."""
    if not read:
        return float(low <= p <= high)
    return max(0.0, (min(high, p + read) - max(low, p - read)) / (2 * read))


def share_inside(least: float, most: float, densities: Sequence[Density], sigma: float) -> float:
    """The share of a sum of all `densities` and a normal error that lies from `least` to `most`."""
    whole = _together(tuple(sorted(densities, key=_ordered)))
    return sum(
        share * (below(most - place, sigma) - below(least - place, sigma))
        for place, share in zip(whole.places(), whole.shares, strict=True)
    )


def _ordered(density: Density) -> tuple[int, float, tuple[float, ...]]:
    return len(density.shares), density.start, density.shares


@lru_cache(maxsize=512)
def _together(densities: tuple[Density, ...]) -> Density:
    """Of their sum; they share one step."""
    if not densities:
        return Density(0.0, 1.0, (1.0,))
    if len(densities) == 1:
        return densities[0]
    one, other = _together(densities[:-1]), densities[-1]
    shares = [0.0] * (len(one.shares) + len(other.shares) - 1)
    for n, a in enumerate(one.shares):
        if a > 1e-12:
            for m, b in enumerate(other.shares):
                shares[n + m] += a * b
    return Density(one.start + other.start, other.step, tuple(shares))
