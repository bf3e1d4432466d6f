"""Values of one dimension at which settings fall together: with each other, or with a saved one.

Every number that a knob is set to follows a dimension in straight pieces. The work is made at two
values in each half of the dimension's range; where the pieces of two settings cross, one setting
serves both.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from fractions import Fraction

from msgspec import Struct

from sequencer.job.schema import Minutes, Shop
from sequencer.operations import Setting, Work
from sequencer.saw.fittings import GUIDES
from sequencer.setups.needs import deck, guide_knob, reading, rides
from sequencer.shelf import Shelf

MOST_SAVED = 6
"""Saved settings looked at for one setting: those nearest to the middle of its way."""

Way = tuple[str, str, str, Fraction]
"""Knob, carrier, cutter, kerf."""


class Line(Struct, frozen=True):
    """A knob's number at both ends of a piece of the range."""

    way: Way
    first: Fraction
    last: Fraction

    def at(self, share: Fraction) -> Fraction:
        return self.first + (self.last - self.first) * share


class Piece(Struct, frozen=True):
    """The lines of all settings between two values of the dimension, which differ, each once;
    `exact` are those of which there is one value only, `ends` those of ranges."""

    low: Fraction
    high: Fraction
    exact: tuple[Line, ...]
    ends: tuple[Line, ...]

    def crossings(self) -> Iterator[Fraction]:
        """Values at which two settings of one knob fall together."""
        by_knob: dict[str, list[Line]] = {}
        for line in (*self.exact, *self.ends):
            by_knob.setdefault(line.way[0], []).append(line)
        for lines in by_knob.values():
            for n, one in enumerate(lines):
                for other in lines[n + 1 :]:
                    yield from self._meet(one, other.first, other.last)

    def saved(self, shelf: Shelf) -> Iterator[Fraction]:
        """Values at which a setting falls together with a saved one."""
        for line in self.exact:
            low, high = sorted((line.first, line.last))
            knob, carrier, cutter, kerf = line.way
            if low == high:
                continue
            middle = (low + high) / 2
            near = {stands for _, stands in shelf.near(cutter, kerf, carrier, knob, low, high)}
            for stands in sorted(near, key=lambda s: (abs(s - middle), s))[:MOST_SAVED]:
                yield from self._meet(line, stands, stands)

    def at_blocks(self, shop: Shop) -> Iterator[Fraction]:
        """Values at which a block at hand, between guide and blade, sets a guide."""
        for line in self.exact:
            if line.way[0] in GUIDES and line.first != line.last:
                adds = rides(line.way[1], shop)
                for block in shop.tools.blocks:
                    yield from self._meet(line, block + adds, block + adds)

    def numbers_at(self, value: Fraction) -> Iterator[tuple[Way, Fraction]]:
        """The settings that follow the dimension, at a value of it."""
        share = (value - self.low) / (self.high - self.low)
        for line in self.exact:
            if line.first != line.last:
                yield line.way, line.at(share)

    def settings_at(self, value: Fraction, minutes: Minutes) -> Fraction:
        """Minutes of setting each number once: a guess at what the order will cost."""
        share = (value - self.low) / (self.high - self.low)
        numbers = dict.fromkeys((line.way[0], line.at(share)) for line in self.exact)
        return sum((minutes.of(knob) for knob, _ in numbers), Fraction(0))

    def _meet(self, line: Line, first: Fraction, last: Fraction) -> Iterator[Fraction]:
        before, after = line.first - first, line.last - last
        if before != after and min(before, after) <= 0 <= max(before, after):
            yield self.low + (self.high - self.low) * before / (before - after)


def between(
    low: Fraction,
    high: Fraction,
    first: tuple[Fraction, Work],
    last: tuple[Fraction, Work],
    shop: Shop,
) -> Piece:
    """The piece from `low` to `high`, of the works made at two values between them: at the very
    ends the dimension may equal another, and what was cut apart is cut as one there."""
    (at, work), (then, other) = first, last
    before, after = _numbers(work, shop), _numbers(other, shop)
    exact: dict[Line, None] = {}
    ends: dict[Line, None] = {}
    for key, (start, is_exact) in before.items():
        if key in after:
            slope = (after[key][0] - start) / (then - at)
            line = Line(key[0], start + slope * (low - at), start + slope * (high - at))
            (exact if is_exact else ends)[line] = None
    return Piece(low, high, tuple(exact), tuple(ends))


def _numbers(work: Work, shop: Shop) -> Mapping[tuple[Way, str, int], tuple[Fraction, bool]]:
    """Every number that an operation asks for, by what it is of, and whether no other will do."""
    cache: dict[Setting, tuple[tuple[Way, int, Fraction, bool], ...]] = {}
    found: dict[tuple[Way, str, int], tuple[Fraction, bool]] = {}
    for operation in work.operations:
        setting = operation.setting
        if setting is None:
            continue
        if setting not in cache:
            cache[setting] = tuple(_asked(setting, shop))
        for way, place, number, exact in cache[setting]:
            found[way, operation.id, place] = (number, exact)
    return found


def _asked(setting: Setting, shop: Shop) -> Iterable[tuple[Way, int, Fraction, bool]]:
    def way(knob: str) -> Way:
        return (knob, setting.carrier, setting.cutter, setting.kerf)

    shown = reading(setting, shop)
    if shown is not None:
        yield way(guide_knob(setting, shop)), 0, shown, True
    low, high = (depth + deck(setting.carrier, shop) for depth in setting.depth)
    yield way("height"), 1, low, low == high
    if low < high:
        yield way("height"), 2, high, False
