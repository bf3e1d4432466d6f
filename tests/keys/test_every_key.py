"""Every key that the README documents goes through every stage: a job or shop that sets it is
refused with its place, refused by the planner with a reason, or planned, proven, printed, followed
and cut again. Nothing crashes.

Draws go on until each key was in a job that was planned; with --large, far beyond. A key that none
of many draws brings so far fails the test, as does one that the draws do not know.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from pathlib import Path
from random import Random

from sequencer.errors import Refusal
from sequencer.lengths import Unit
from sequencer.plan import Plan
from tests.keys.documented import JOB_KEYS, SHOP_KEYS
from tests.keys.jobs import draw_job
from tests.keys.shops import draw_shop
from tests.keys.stages import Way

LEAST_DRAWS = 16
MOST_TRIES = 12
"""Draws for one key: of those that it is in, eight in ten are planned."""

UNITS: tuple[Unit, ...] = ("in", "mm")


class Draws:
    """Jobs and shops by chance; what became of them, and which keys have been planned."""

    def __init__(self, seed: int, what: str, folder: Path) -> None:
        self.seed = f"{seed} {what}"
        self.folder = folder
        self.counts: Counter[str] = Counter()
        self.planned: set[str] = set()
        self.units: Counter[str] = Counter()

    @contextmanager
    def draw(
        self, job: Sequence[str], shop: Sequence[str], *, odd: str = ""
    ) -> Iterator[tuple[Way, Random]]:
        """A job and a shop that set such keys, `odd` ones (of the `job` or the `shop`) to what
        few would write. Whatever fails meanwhile shows both."""
        number = self.counts["drawn"]
        self.counts["drawn"] += 1
        chance = Random(f"{self.seed} {number}")
        unit, other = UNITS[number % 2], UNITS[(number + number // 8) % 2]
        made = draw_job(chance, unit, job, odd=odd == "job")
        tools = draw_shop(chance, other, shop, odd=odd == "shop")
        missing = {*job, *(f"shop {key}" for key in shop)} - made.keys
        assert missing <= {f"shop {key}" for key in tools.keys}, f"never written: {missing}"
        folder = self.folder / str(number)
        folder.mkdir()
        try:
            way = Way(folder, made.text, tools.text)
            yield way, chance
        except Exception as error:
            error.add_note(f"{made.text}\n----- in the shop\n{tools.text}")
            raise
        if way.plan is not None:
            self.planned |= {*made.keys, *(f"shop {key}" for key in tools.keys)}
            self.units[f"{unit} job, {other} shop"] += 1

    def carry(self, way: Way, chance: Random) -> Plan | None:
        """Through every stage; what was planned."""
        if not way.checked():
            self.counts["not good for check"] += 1
            return None
        try:
            plan = way.planned()
        except Refusal as refusal:
            self.counts[f"good for check, refused: {refusal.says[0].id}"] += 1
            return None
        self.counts["planned"] += 1
        if self.counts["planned"] % 5 == 0:
            way.printed(plan, chance)
        self.counts["a piece not cut again"] += not way.made_again(plan, chance)
        if self.counts["planned"] % 2:
            way.followed(plan, chance)
        return plan

    def try_on(self, job: Sequence[str], shop: Sequence[str], key: str) -> None:
        """Draw until the key was in a job that was planned."""
        for _ in range(MOST_TRIES):
            if key in self.planned:
                return
            with self.draw(job, shop) as drawn:
                self.carry(*drawn)
        assert key in self.planned, f"{key} was never in a job that was planned"


def test_every_key_goes_through_every_stage(seed: int, tmp_path: Path, large: bool) -> None:
    draws = Draws(seed, "every key", tmp_path)
    for n in range(1000 if large else LEAST_DRAWS):
        with draws.draw((JOB_KEYS[n % len(JOB_KEYS)],), (SHOP_KEYS[n % len(SHOP_KEYS)],)) as drawn:
            draws.carry(*drawn)
    for own in JOB_KEYS:
        draws.try_on((own,), (), own)
    for tool in SHOP_KEYS:
        draws.try_on((), (tool,), f"shop {tool}")
    print(dict(draws.counts), dict(draws.units))  # noqa: T201  # counts, shown with -s
    assert len(draws.units) == 4


def test_keys_at_values_that_few_would_write(seed: int, tmp_path: Path, large: bool) -> None:
    """Every twelfth key, in turn from commit to commit; all of them with --large."""
    draws = Draws(seed, "odd values", tmp_path)
    every, first = (1, 0) if large else (12, seed % 12)
    job_keys, shop_keys = JOB_KEYS[first::every], SHOP_KEYS[first::every]
    for _ in range(12 if large else 1):
        for key in job_keys:
            with draws.draw((key,), (), odd="job") as (way, chance):
                draws.carry(way, chance)
        for key in shop_keys:
            with draws.draw((), (key,), odd="shop") as (way, chance):
                draws.carry(way, chance)
    print(dict(draws.counts))  # noqa: T201
    assert draws.counts["planned"] > len(job_keys) / 5


def test_the_commands_with_suggestions_and_saved_settings(
    seed: int, tmp_path: Path, large: bool
) -> None:
    """With the search, `--suggest` and what was saved at the saw; then a piece of that plan."""
    draws = Draws(seed, "commands", tmp_path)
    wanted = 40 if large else 1
    while draws.counts["called"] < wanted:
        assert draws.counts["drawn"] < MOST_TRIES * wanted
        with draws.draw((), ()) as (way, chance):
            plan = draws.carry(way, chance)
            if plan is not None:
                draws.counts["called"] += way.as_called(plan) == 0
    print(dict(draws.counts))  # noqa: T201
