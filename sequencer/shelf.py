"""Settings that worked before, as a plan looks them up: one state of them, quick to search.

Thousands of settings lie sorted by whole nanometres of their place, wherever they are kept; only
what lies near a wanted number is made into a `Saved` and compared exactly.
"""

from __future__ import annotations

import dataclasses
from bisect import bisect_left, bisect_right
from collections.abc import Callable, Iterable, Mapping, Sequence
from fractions import Fraction
from typing import Any, Literal

from msgspec import Struct

from sequencer.facts import Fact, notes
from sequencer.lengths import Unit
from sequencer.records import replace
from sequencer.scales import FARTHEST_OFF, Scale

GaugeKind = Literal["block", "spacer", "story stick"]


class Gauge(Struct, frozen=True):
    """What sets a knob again without its scale; `name` is what is written on it."""

    kind: GaugeKind
    name: str

    @property
    def told(self) -> Fact:
        kinds = {"block": notes.BLOCK, "spacer": notes.SPACER, "story stick": notes.STORY_STICK}
        return kinds[self.kind](name=self.name)


class Saved(Struct, frozen=True):
    """One knob of a setting that worked before, in the plan's unit.

    `value` is the knob's number as computed then, `read` what its scale showed, and `off` how far
    the setting really stood from `value`, by what the test cut measured. `share` says how the
    number answers to the kerf, as part of the kerf's growth that it loses: 0 where the near side
    of the kerf makes the cut, 1 where the far side does, 1/2 in the middle (`None`: unknown).
    `doubted`: the blade has been sharpened or changed since, and its kerf not measured again.
    """

    number: int
    cutter: str
    kerf: Fraction
    carrier: str
    knob: str
    value: Fraction
    read: Fraction | None = None
    off: Fraction = Fraction(0)
    share: Fraction | None = Fraction(0)
    gauge: Gauge | None = None
    makes: str = ""
    doubted: bool = False
    sharpened: int = 0
    tried: bool = True
    """Whether the knob was measured by a cut; a height that any would do stood as it was told."""

    @property
    def shown(self) -> Fraction:
        """What its scale showed."""
        return self.value if self.read is None else self.read

    def beyond(self, kerf: Fraction) -> Fraction:
        """How much more than the number where the knob stands its scale shows with this kerf: its
        teeth are taken to stand out evenly on both sides."""
        half = Fraction(0) if self.knob == "height" else (kerf - self.kerf) / 2
        return self.shown - self.value - self.off + half


NANOMETRES: Mapping[Unit, int] = {"in": 25_400_000, "mm": 1_000_000}

Key = tuple[str, str, str]
"""Cutter, carrier and knob."""

Seek = Callable[[Key, Fraction | None, int, int], Sequence[Saved]]
"""Settings of a key and a share whose places lie between two numbers of nanometres. Of equals in
place, kerf, gauge and doubt the latest will do."""


@dataclasses.dataclass(frozen=True, slots=True)
class Shelf:
    """All saved settings of one saw, lengths in `unit`. `shares` says which shares of the kerf
    there are of each key, `latest` gives the settings with the highest numbers, `scale` what is
    known of a scale by its readings. A cutter in `measured` has had its kerf measured for this
    plan, so that no setting of it is doubted; `sharpened` says how often each cutter has been.
    `remembered` is for whoever searches, to keep what was found."""

    unit: Unit = "in"
    shares: Mapping[Key, tuple[Fraction | None, ...]] = dataclasses.field(default_factory=dict)
    seek: Seek = lambda *_: ()
    latest: Callable[[int], Sequence[Saved]] = lambda _: ()
    measured: frozenset[str] = frozenset()
    scale: Callable[[Key], Scale | None] = lambda _: None
    sharpened: Mapping[str, int] = dataclasses.field(default_factory=dict)
    remembered: dict[Any, Any] = dataclasses.field(default_factory=dict, compare=False, repr=False)

    @staticmethod
    def of(
        saved: Iterable[Saved],
        unit: Unit,
        scales: Iterable[Scale] = (),
        sharpened: Mapping[str, int] | None = None,
    ) -> Shelf:
        """A shelf of settings, and of scales, that are at hand."""
        known = {(each.cutter, each.carrier, each.knob): each for each in scales}
        lot = sorted(saved, key=lambda one: one.number)
        piles: dict[tuple[Key, Fraction | None], list[tuple[int, int, Saved]]] = {}
        for one in lot:
            own = ((one.cutter, one.carrier, one.knob), one.share)
            stands = place_of(one.value + one.off, one.share, one.kerf)
            place = round(stands * NANOMETRES[unit])
            piles.setdefault(own, []).append((place, one.number, one))
        shares: dict[Key, tuple[Fraction | None, ...]] = {}
        for (key, share), pile in piles.items():
            pile.sort(key=lambda entry: entry[:2])
            shares[key] = (*shares.get(key, ()), share)

        def seek(key: Key, share: Fraction | None, low: int, high: int) -> Sequence[Saved]:
            pile = piles[key, share]
            first = bisect_left(pile, low, key=lambda entry: entry[0])
            last = bisect_right(pile, high, key=lambda entry: entry[0])
            return [entry[2] for entry in pile[first:last]]

        return Shelf(
            unit, shares, seek, lambda most: lot[-most:], scale=known.get,
            sharpened=sharpened or {},
        )  # fmt: skip

    def trusting(self, measured: Iterable[str]) -> Shelf:
        """The shelf for a plan for which the kerfs of these cutters were measured."""
        known = self.measured | frozenset(measured)
        return self if known == self.measured else replace(self, measured=known, remembered={})

    def cutters(self) -> tuple[str, ...]:
        return tuple(dict.fromkeys(key[0] for key in self.shares))

    def near(
        self,
        cutter: str,
        kerf: Fraction,
        carrier: str,
        knob: str,
        low: Fraction,
        high: Fraction,
    ) -> Sequence[tuple[Saved, Fraction]]:
        """Settings that stand within `low` to `high` with today's kerf, and where each stands
        then. Where the kerf's part in it is not known, only settings of the same kerf. None by
        which a scale would be off farther than any is: something else is wrong with those."""
        there = self._there((cutter, carrier, knob), kerf, low, high)
        return [each for each in there if not self._too_far(each[0], kerf)]

    def useless(
        self,
        cutter: str,
        kerf: Fraction,
        carrier: str,
        knob: str,
        low: Fraction,
        high: Fraction,
    ) -> Sequence[Saved]:
        """The settings that `near` leaves out."""
        there = self._there((cutter, carrier, knob), kerf, low, high)
        return [saved for saved, _ in there if self._too_far(saved, kerf)]

    def _too_far(self, saved: Saved, kerf: Fraction) -> bool:
        return abs(saved.beyond(kerf)) > FARTHEST_OFF.of(self.unit)

    def _there(
        self, key: Key, kerf: Fraction, low: Fraction, high: Fraction
    ) -> Sequence[tuple[Saved, Fraction]]:
        found: list[tuple[Saved, Fraction]] = []
        scale = NANOMETRES[self.unit]
        for share in self.shares.get(key, ()):
            first = int(place_of(low, share, kerf) * scale) - 1
            last = int(place_of(high, share, kerf) * scale) + 1
            for saved in self.seek(key, share, first, last):
                if share is None and saved.kerf != kerf:
                    continue
                stands = saved.value + saved.off + (share or 0) * (saved.kerf - kerf)
                if low <= stands <= high:
                    found.append((saved, stands))
        return found

    def doubts(self, saved: Saved, kerf: Fraction) -> bool:
        """Whether the kerf must be measured first: the cutter was changed since, or sharpened, and
        the shop file still tells the kerf of before."""
        since = self.sharpened.get(saved.cutter, saved.sharpened) != saved.sharpened
        stale = saved.doubted or (since and saved.kerf == kerf)
        return stale and saved.cutter not in self.measured


def place_of(number: Fraction, share: Fraction | None, kerf: Fraction) -> Fraction:
    """What stays when the kerf changes: the side of the kerf, or its middle, that makes the cut."""
    return number + (share or 0) * kerf
