"""A simulated year: thirty jobs on one saw whose scales are off and drift, whose blade comes back
thinner from the grinder, and whose fence is knocked. A second saw stands beside it.

Each setting is set by what the store knows of its scale, tried, and corrected by what was read, as
at the saw; every reading goes into the store. `--large` follows whole plans over HTTP instead.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from fractions import Fraction
from pathlib import Path
from random import Random
from statistics import fmean

import pytest

from sequencer.saved.evidence import Reading
from sequencer.saved.shelving import Owner
from sequencer.saved.store import Store
from sequencer.scales import Scale
from tests.saved.maker import READ, Saw
from tests.saved.test_known_saw import OFF, OWN, follow
from tests.saved.test_story import JOB

KNOBS = {
    "fence": ("rip-fence", 0.004),
    "jig": ("tenoning-jig", 0.002),
    "height": ("tenoning-jig", 0.008),
    "stop": ("crosscut-sled", 0.008),
}
"""By knob a carrier, and how far it may stand off."""

JOBS, KNOCKED, SHARPENED = 30, 15, 21
KNOCK = 0.030
BLADE = "combination"


@dataclass
class Shed:
    """One saw and its maker. `tries` are those of every setting, job by job."""

    name: str
    store: Store
    saw: Saw
    kerf: Fraction = Fraction(1, 8)
    tries: list[list[int]] = field(default_factory=list)
    readings: int = 0
    knows: bool = True
    """Whether it sets by what the store knows, or by the scale alone."""
    told: list[tuple[int, int]] = field(default_factory=list)
    """Job and reading of the fence after the knock, at which it was known to be knocked."""

    def scale(self, knob: str) -> Scale | None:
        shelf = self.store.shelf(Owner(self.name), "in")
        return shelf.scale((BLADE, KNOBS[knob][0], knob))

    def job(self, n: int, chance: Random) -> None:
        self.tries.append([])
        since = 0
        for knob, (_, band) in KNOBS.items():
            for _ in range(2):
                # Half of the numbers come again and again, half are this job's own.
                number = chance.choice([Fraction(1, 4), Fraction(2), Fraction(5, 4)])
                if chance.random() < 0.5:
                    number = Fraction(chance.randrange(16, 200), 64)
                since = self.set(n, knob, number, band, since)

    def set(self, n: int, knob: str, number: Fraction, band: float, since: int) -> int:
        scale = self.scale(knob) if self.knows else None
        shown = number + (Fraction(0) if scale is None else scale.off(number, self.kerf))
        self.saw.set(knob, float(shown))
        for tried in range(1, 9):
            came = self.saw.stands[knob] + self.saw.chance.gauss(0, READ)
            measured = Fraction(round(came * 1000), 1000)
            good = abs(measured - number) <= Fraction(band)
            self.keep(n, knob, number, shown, measured, good=good)
            if knob == "fence" and n >= KNOCKED:
                since += 1
                known = self.scale(knob)
                if known is not None and known.since and not self.told:
                    self.told.append((n, since))
            if good:
                self.tries[-1].append(tried)
                return since
            self.saw.move(knob, float(number - measured))
            shown += number - measured
        raise AssertionError("it is never good")

    def keep(
        self, n: int, knob: str, number: Fraction, shown: Fraction, came: Fraction, *, good: bool
    ) -> None:
        self.readings += 1
        minute, second = divmod(self.readings, 60)
        month, day = divmod(n, 3)
        at = f"2025-{month + 1:02d}-{9 * day + 1:02d}T10:{minute:02d}:{second:02d}"
        self.store.note([
            Reading(
                f"{self.name}/{self.readings}", at, f"job {n}", self.name, "", BLADE,
                int(n >= SHARPENED), KNOBS[knob][0], knob, self.kerf, "in", number, shown, "tenon",
                number, came, Fraction(1), "caliper", good,
            )
        ])  # fmt: skip

    def mean(self, first: int, last: int) -> float:
        return fmean(tries for job in self.tries[first:last] for tries in job)


def year(store: Store, name: str, seed: int, *, knows: bool = True) -> Shed:
    shed, chance = Shed(name, store, Saw(Random(seed + 100), dict(OFF)), knows=knows), Random(seed)
    for n in range(JOBS):
        shed.saw.off = {knob: off + 0.0002 for knob, off in shed.saw.off.items()}
        if n == KNOCKED:
            shed.saw.off["fence"] += KNOCK
        if n == SHARPENED:
            shed.kerf -= Fraction(4, 1000)
            for knob in ("fence", "jig", "stop"):
                shed.saw.off[knob] -= 0.002  # each side of the kerf has come nearer the plate
        shed.job(n, chance)
    return shed


def test_a_year_makes_every_setting_surer(tmp_path: Path, large: bool) -> None:
    for seed in range(5 if large else 1):
        with Store(tmp_path / f"{seed}.sqlite", lambda: "now") as store:
            store._connection.execute("PRAGMA synchronous = OFF")
            unknown = year(store, "elsewhere", seed, knows=False)
            known(year(store, "shed", seed), unknown, store)


def known(shed: Shed, unknown: Shed, store: Store) -> None:
    """Tries a setting: about two where nothing is known, hardly more than one by the year's end;
    and the knock found by the second reading that shows it."""
    assert unknown.mean(0, JOBS) > 1.9
    assert shed.mean(0, 1) < unknown.mean(0, 1)  # its second settings know the first already
    assert shed.mean(5, KNOCKED) < 1.3
    assert shed.mean(KNOCKED, JOBS) < 1.3
    assert shed.told[0][0] == KNOCKED
    assert shed.told[0][1] <= 2
    scale = shed.scale("fence")
    assert scale is not None
    # What is known is what is so, within its own spread.
    real = shed.saw.off["fence"] + shed.saw.slope * 2
    assert abs(float(scale.off(Fraction(2), shed.kerf)) - real) < 3 * scale.sigma
    # Nothing of it is another saw's, nor another fitting's.
    other = store.shelf(Owner("other shed"), "in")
    assert all(other.scale((BLADE, KNOBS[knob][0], knob)) is None for knob in KNOBS)
    tall = store.shelf(Owner("shed", {"rip-fence": "tall fence"}), "in")
    assert tall.scale((BLADE, "rip-fence", "fence")) is None


@pytest.mark.large
def test_a_year_of_whole_jobs(tmp_path: Path) -> None:
    chance = Random(1)
    saw = Saw(Random(2), dict(OFF))
    shop, shares, minutes = OWN, [], []
    for n in range(JOBS):
        saw.off = {knob: off + 0.0002 for knob, off in saw.off.items()}
        if n == KNOCKED:
            saw.off["fence"] += KNOCK
        if n == SHARPENED:
            shop = shop.replace('kerf = "0.125"', 'kerf = "0.121"\nsharpened = 1')
            saw.off = {k: off - (0.002 if k != "height" else 0) for k, off in saw.off.items()}
        text = JOB.format(
            name=f"job {n}",
            bottom=chance.choice(["2 1/4", "2 1/2", "3"]),
            width=str(chance.randrange(12, 18)),
            height=str(chance.randrange(18, 30)),
        )
        printed, done = follow(text, tmp_path, saw, n, shop)
        shares.append(done.first)
        minutes.append(printed.ordering.minutes)
        if n == KNOCKED + 1:
            assert "note.knocked" in {note.kind.id for note in printed.notes}
    assert shares[0] < 0.3
    assert fmean(shares[20:]) > 0.6
    assert fmean(map(float, minutes[3:])) < float(minutes[0]) - 10
    _, elsewhere = follow(
        JOB.format(name="elsewhere", bottom="3", width="14", height="20"),
        tmp_path, Saw(Random(3), dict(OFF)), 99, OWN.replace("shed saw k3f9", "other"),
    )  # fmt: skip
    assert elsewhere.count("check cut") == 0
