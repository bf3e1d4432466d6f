"""The kerf of a cutter, by ordinary readings of jobs: no test cut of its own.

A channel or housing that was cut at two settings of one scale is as wide as these lie apart, and
the kerf. A scale that is off is off at both alike, so what the width is off beside what the scale
was moved is the kerf's. A far wall by itself says the same beside a near wall of the same scale
close by: told from the middle of the blade, a kerf that is thinner than it was taken to be leaves
the one by half of that too far out, the other too near.
"""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction
from math import sqrt
from statistics import median

from msgspec import Struct

from sequencer.lengths import Unit
from sequencer.saw.measures import BETWEEN, TO_FAR, TO_NEAR, Measure, What
from sequencer.scales import LATEST, LEVER, NORMAL, PRIOR, STEP, deviation, knocked
from sequencer.trade import spreads

LEAST = 3
"""Cuts that say the kerf before it is believed; ours."""

SURE = 2
"""Sigmas beyond which a kerf is another than the shop file's: one in twenty of a normal error."""

MOST_CUTS = 200
"""Readings of a cutter that are looked at, of some ten jobs; ours."""

_MOST = 0.3
"""Of the kerf: what is off by more was no reading of this cut; ours."""

_TELLING = frozenset({"caliper", ""})
"""A rule's marks are wider than what a kerf is off."""


class Cut(Struct, frozen=True):
    """A reading of a wall, lengths in one unit: the guide was wanted at `wanted`, its scale at
    `shown`, the measure `planned` and `measured`. `scale` is fittings, carrier and knob."""

    at: str
    job: str
    scale: tuple[str, ...]
    kerf: float
    wanted: float
    shown: float
    measure: Measure
    planned: float
    measured: float
    per_unit: float
    tool: str = ""

    @property
    def stood(self) -> float:
        """Where the near side stood, were the kerf what it was taken to be."""
        return self.wanted + (self.measured - self.planned) / self.per_unit

    @property
    def error(self) -> float:
        """What the scale shows too much, told from the middle of the blade."""
        return self.shown - self.stood - self.kerf / 2


class Told(Struct, frozen=True):
    """One wall's word on the kerf."""

    at: str
    job: str
    kerf: float


class Kerf(Struct, frozen=True):
    """What `count` cuts say of a cutter's kerf: their middle, and one sigma of it. `since` is the
    time of the first of them where those before said another, `was`; the last came from `job`."""

    kerf: Fraction
    sigma: Fraction
    count: int
    at: str
    job: str
    since: str = ""
    was: Fraction = Fraction(0)

    def differs(self, kerf: Fraction) -> bool:
        """Whether enough cuts say that it is another."""
        return self.count >= LEAST and abs(self.kerf - kerf) > SURE * self.sigma


def since(cuts: Sequence[Cut], taken: Fraction | None) -> Sequence[Cut]:
    """The cuts from the first on whose kerf was taken to be so. Whoever writes another into the
    shop file knows better than what was cut before that."""
    if taken is None:
        return cuts
    as_taken = (n for n, cut in enumerate(cuts) if abs(cut.kerf - float(taken)) < 1e-6)
    return cuts[next(as_taken, len(cuts)) :]


def told(cuts: Sequence[Cut], unit: Unit) -> list[Told]:
    """What each wall that can says of the kerf: the middle of its tries, for they have the other
    wall's error in common. `cuts` are those of one cutter in the order of their times, since it
    was sharpened last."""
    found: dict[tuple[object, ...], list[Told]] = {}
    lever = float(LEVER.of(unit))
    for n, cut in enumerate(cuts):
        if cut.tool not in _TELLING:
            continue
        before = [each for each in cuts[:n] if (each.job, each.scale) == (cut.job, cut.scale)]
        off: float | None = None
        if cut.measure.what in BETWEEN and cut.per_unit == 1:
            off = _between(cut, before)
        elif cut.measure.what in TO_FAR:
            near = [
                each.error
                for each in before
                if is_near(each) and each.tool in _TELLING and abs(each.stood - cut.stood) <= lever
            ]
            off = median(near) - cut.error if near else None
        if off is not None and abs(off) <= _MOST * cut.kerf:
            wall = (cut.job, cut.scale, cut.measure, cut.wanted)
            found.setdefault(wall, []).append(Told(cut.at, cut.job, cut.kerf + off))
    walls = (Told(t[-1].at, t[-1].job, median(each.kerf for each in t)) for t in found.values())
    return sorted(walls, key=lambda each: each.at)


def is_near(cut: Cut) -> bool:
    """Whether it tells of the kerf's near side: measured to it, or through a thickness that near
    sides alone have left."""
    turned = cut.measure.what in (What.CHANNEL_WIDTH, What.TENON) and abs(cut.per_unit) == 2
    return turned or cut.measure.what in TO_NEAR


def _between(cut: Cut, before: Sequence[Cut]) -> float | None:
    """By the last cut of the wall that this is measured from."""
    first = BETWEEN[cut.measure.what]
    number = cut.wanted + cut.kerf - cut.planned
    near = [
        each
        for each in before
        if each.measure.what is first and abs(each.wanted - number) < 1e-6 * max(1.0, number)
    ]
    if not near:
        return None
    moved = (cut.shown - cut.wanted) - (near[-1].shown - near[-1].wanted)
    return cut.measured - cut.planned - moved


def fit(seen: Sequence[Told], unit: Unit) -> Kerf | None:
    """The kerf by the last stretch in which it stayed as it was; `None` where nothing tells it. A
    median, and how far it may be off by the usual errors and by those of these cuts."""
    seen = seen[-LATEST:]
    if not seen:
        return None
    # Two settings of the scale, each with its pass.
    usual = sqrt(2 * (float(spreads.MOVE.of(unit)) ** 2 + float(spreads.PASS.of(unit)) ** 2))
    start, before = knocked([each.kerf for each in seen], usual)
    recent = [each.kerf for each in seen[start:]]
    own = NORMAL * deviation(recent)
    spread = sqrt((PRIOR * usual**2 + len(recent) * own**2) / (PRIOR + len(recent)))
    step = STEP.of(unit)

    def exact(value: float) -> Fraction:
        return round(value / float(step)) * step

    return Kerf(
        kerf=exact(median(recent)),
        sigma=Fraction(spread * sqrt(1.5708 / len(recent))).limit_denominator(100_000),
        count=len(recent),
        at=seen[-1].at,
        job=seen[-1].job,
        since=seen[start].at if before is not None else "",
        was=Fraction(0) if before is None else exact(before),
    )
