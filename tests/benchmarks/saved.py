"""What a store of many saved settings adds to a plan.

    python -m tests.benchmarks.saved [SETTINGS [RUNS]]

Fills a store (10 000 settings by default, a third of them of the very blade, carriers and numbers
that the job wants, and as many readings of its scales), then plans the wall cabinet with it, adding
up what is spent on opening the file, on saying what is wanted and on finding it, in all
combinations of methods that the plan compares. Prints medians of processor time, so that other work
on the machine counts little; wanted
together: under 50 ms. Exits 1 when it takes longer. Beside it: what the whole plan takes without
a store, with a single setting in it, and with all of them. What is more there is no looking up:
a slot that the job leaves open is tried at widths that worked before, each a plan to be ordered.
"""

from __future__ import annotations

import sys
import tempfile
import time
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from fractions import Fraction
from pathlib import Path
from random import Random
from statistics import median
from typing import Any

from sequencer.job.load import load_job
from sequencer.job.shop import default_shop
from sequencer.pipeline import plan
from sequencer.plan import Plan
from sequencer.records import replace
from sequencer.saved.entry import Dialled, Entry
from sequencer.saved.evidence import Reading
from sequencer.saved.planning import given_with_saved
from sequencer.saved.remember import entry_of
from sequencer.saved.store import Store
from sequencer.setups import needs, reuse
from sequencer.setups.given import Given
from sequencer.shelf import Shelf

ROOT = Path(__file__).resolve().parents[2]
WANTED = 0.050


def fill(path: Path, count: int, own: list[Entry]) -> None:
    """Settings of this job's own numbers, and others all over the scales."""
    chance = Random(7)
    lot: list[Entry] = []
    for n in range(count):
        like = chance.choice(own)
        if n % 3:
            shift = Fraction(chance.randrange(-2000, 2000), 64)
            knobs = tuple(replace(k, value=abs(k.value + shift)) for k in like.knobs)
        else:
            knobs = tuple(_again(knob, chance) for knob in like.knobs)
        lot.append(replace(like, knobs=knobs, uid=f"{n}", jobs=(f"job {n % 50}",)))
    with Store(path, lambda: "now") as store:
        store.merge(lot, lambda *_: False)
        store.note(_reading(n, chance.choice(own), chance) for n in range(count))


def _reading(n: int, like: Entry, chance: Random) -> Reading:
    """A reading of one of the scales that the job sets."""
    knob = chance.choice(like.knobs)
    came = knob.value + Fraction(chance.randrange(-9, 9), 1000)
    return Reading(
        f"r{n}", f"2025-{n:06d}", f"job {n % 50}", like.saw, like.made_with, like.cutter, 0,
        like.carrier, knob.knob, like.kerf, like.unit, knob.value, knob.value, "tenon", knob.value,
        came, Fraction(1), "caliper",
    )  # fmt: skip


def _again(knob: Dialled, chance: Random) -> Dialled:
    return replace(knob, read=knob.value + Fraction(chance.randrange(-2, 3), 64))


class Watch:
    """Adds up the seconds spent in functions, those called within each other once."""

    def __init__(self) -> None:
        self.spent: dict[str, float] = {}
        self.running = False

    def timed(self, name: str, function: Callable[..., Any]) -> Callable[..., Any]:
        def run(*args: Any, **kwargs: Any) -> Any:
            if self.running:
                return function(*args, **kwargs)
            self.running = True
            begun = time.process_time()
            try:
                return function(*args, **kwargs)
            finally:
                self.running = False
                took = time.process_time() - begun
                self.spent[name] = self.spent.get(name, 0) + took

        return run


@contextmanager
def watched(watch: Watch) -> Iterator[None]:
    places = (
        ("say what is wanted", needs, "_wants"),
        ("find settings", reuse, "find"),
        ("find heights", needs, "_saved_heights"),
    )
    before = [getattr(module, name) for _, module, name in places]
    for (what, module, name), function in zip(places, before, strict=True):
        setattr(module, name, watch.timed(what, function))
    try:
        yield
    finally:
        for (_, module, name), function in zip(places, before, strict=True):
            setattr(module, name, function)


def main(count: int, runs: int) -> int:
    file = ROOT / "examples" / "wall-cabinet" / "job.toml"
    job = load_job(file.read_text("utf-8"), str(file))
    shop = default_shop(job.unit)
    made = plan([job], shop)
    entries = [entry_of(made, s.number, "2025-11-25", {}, {}) for s in made.setups]
    taken: dict[str, list[float]] = {}
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder, "settings.sqlite")
        fill(path, count, [entry for entry in entries if entry is not None])

        def opened() -> Given:
            """Settings, scales, and what else was found of the saw, its kerfs among it."""
            return given_with_saved(str(path), [job], shop)[0]

        single = Path(folder, "single.sqlite")
        fill(single, 1, [entry for entry in entries if entry is not None])
        with Store(single, lambda: "now", check=False) as store:
            one = store.shelf(shop.known_as, job.unit)
        whole: dict[str, list[float]] = {}

        def clocked(what: str, shelf: Shelf | None) -> Plan:
            begun = time.process_time()
            found = plan([job], shop, None, shelf)
            whole.setdefault(what, []).append(time.process_time() - begun)
            return found

        for _ in range(runs):
            clocked("whole plan, no store", None)
            clocked("... one setting", replace(one, remembered={}))
            watch = Watch()
            shelf = watch.timed("open the file", opened)().saved
            with watched(watch):
                again = clocked("... all of them", shelf)
            for what, seconds in watch.spent.items():
                taken.setdefault(what, []).append(seconds)
        size = path.stat().st_size
    print(f"{count} saved settings and as many readings, {size / 1e6:.1f} MB")
    print(f"{made.ordering.minutes} minutes without them, {again.ordering.minutes} with them")
    for what, times in taken.items():
        print(f"{what:20} {median(times) * 1000:6.1f} ms")
    for what, times in whole.items():
        print(f"{what:20} {median(times) * 1000:6.0f} ms")
    total = sum(median(times) for times in taken.values())
    print(f"{'to what is wanted':20} {total / WANTED:6.2f}")
    print(f"{'together':20} {total * 1000:6.1f} ms  wanted {WANTED * 1000:.0f}: "
          f"{'yes' if total < WANTED else 'no'}")  # fmt: skip
    return int(total >= WANTED)


if __name__ == "__main__":
    numbers = [int(argument) for argument in sys.argv[1:]]
    sys.exit(main(*(numbers + [10_000, 7][len(numbers) :])))
