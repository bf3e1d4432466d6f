"""The saved settings as a plan looks them up: a frozen snapshot, quick to search.

Thousands of settings are kept as they were read and sorted by a whole number of nanometres; only
what lies near a wanted number is made into a `Saved` and compared exactly.
"""

from __future__ import annotations

from bisect import bisect_left, bisect_right
from collections.abc import Callable, Iterable, Iterator, Mapping
from dataclasses import dataclass, field, replace
from fractions import Fraction
from heapq import nlargest
from typing import Any

from sequencer.job.schema import Saved
from sequencer.lengths import Unit

NANOMETRES: Mapping[Unit, int] = {"in": 25_400_000, "mm": 1_000_000}

Key = tuple[str, str, str, Fraction | None]
"""Cutter, carrier, knob, and share of the kerf."""


@dataclass(frozen=True, slots=True)
class Pile:
    """Settings of one key in order of `places`: nanometres of what `Shelf.place` gives. `numbers`
    are the settings' own."""

    places: tuple[int, ...]
    numbers: tuple[int, ...]
    rows: tuple[Any, ...]


@dataclass(frozen=True, slots=True)
class Shelf:
    """All saved settings of one saw, lengths in `unit`. `make` turns a row of a pile into what it
    stands for. A cutter in `measured` has had its kerf measured for this plan, so that no setting
    of it is doubted."""

    unit: Unit = "in"
    piles: Mapping[Key, Pile] = field(default_factory=dict)
    make: Callable[[Any], Saved] = lambda row: row  # rows that are made already
    measured: frozenset[str] = frozenset()

    @staticmethod
    def of(saved: Iterable[Saved], unit: Unit) -> Shelf:
        """A shelf of settings that are at hand."""
        sorted_in: dict[Key, list[tuple[int, int, Saved]]] = {}
        for one in saved:
            key = (one.cutter, one.carrier, one.knob, one.share)
            stands = Shelf.place(one.value + one.off, one.share, one.kerf)
            place = round(stands * NANOMETRES[unit])
            sorted_in.setdefault(key, []).append((place, one.number, one))
        piles = {}
        for key, found in sorted_in.items():
            found.sort(key=lambda entry: entry[:2])
            places, numbers, rows = zip(*found, strict=True)
            piles[key] = Pile(places, numbers, rows)
        return Shelf(unit, piles)

    @staticmethod
    def place(number: Fraction, share: Fraction | None, kerf: Fraction) -> Fraction:
        """What stays when the kerf changes: the side of the kerf, or its middle, that makes the
        cut."""
        return number + (share or 0) * kerf

    def trusting(self, measured: Iterable[str]) -> Shelf:
        """The shelf for a plan for which the kerfs of these cutters were measured."""
        return replace(self, measured=self.measured | frozenset(measured))

    def cutters(self) -> tuple[str, ...]:
        return tuple(dict.fromkeys(key[0] for key in self.piles))

    def near(
        self,
        cutter: str,
        kerf: Fraction,
        carrier: str,
        knob: str,
        low: Fraction,
        high: Fraction,
    ) -> Iterator[tuple[Saved, Fraction]]:
        """Settings that stand within `low` to `high` with today's kerf, and where each stands
        then. Where the kerf's part in it is not known, only settings of the same kerf."""
        for (of, on, turns, share), pile in self.piles.items():
            if (of, on, turns) != (cutter, carrier, knob):
                continue
            scale = NANOMETRES[self.unit]
            first = bisect_left(pile.places, int(self.place(low, share, kerf) * scale) - 1)
            last = bisect_right(pile.places, int(self.place(high, share, kerf) * scale) + 1)
            for row in pile.rows[first:last]:
                saved = self.make(row)
                if share is None and saved.kerf != kerf:
                    continue
                stands = saved.value + saved.off + (share or 0) * (saved.kerf - kerf)
                if low <= stands <= high:
                    yield saved, stands

    def latest(self, most: int) -> tuple[Saved, ...]:
        """The settings with the highest numbers, by number."""
        rows = (
            (number, place, pile.rows[place])
            for pile in self.piles.values()
            for place, number in enumerate(pile.numbers)
        )
        found = nlargest(most, rows, key=lambda row: row[0])
        return tuple(self.make(row) for _, _, row in reversed(found))

    def doubts(self, saved: Saved) -> bool:
        return saved.doubted and saved.cutter not in self.measured
