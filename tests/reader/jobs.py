"""Jobs to be read back: every example, and random ones of every joint and fill in random shops."""

from __future__ import annotations

import re
from dataclasses import dataclass
from functools import cache
from pathlib import Path
from random import Random

from hypothesis import HealthCheck, Phase, settings
from hypothesis import given as drawn
from hypothesis import seed as seeded
from hypothesis import strategies as st

from sequencer.batch import read_batch
from sequencer.errors import SequencerError
from sequencer.job.load import load_job
from sequencer.job.schema import FaceSide, Job, Shop
from sequencer.plan import Plan
from sequencer.records import replace
from tests import once
from tests.joints.jobs import random_jobs
from tests.keys.jobs import draw_job
from tests.keys.shops import draw_shop
from tests.strategies import jobs, shops, units
from tests.texts import job_texts

ROOT = Path(__file__).resolve().parents[2]
EXAMPLES = sorted(path.parent.name for path in (ROOT / "examples").glob("*/job.toml"))


@dataclass(frozen=True)
class Asked:
    """Jobs and a shop to cut them in."""

    name: str
    jobs: tuple[Job, ...]
    shop: Shop


@cache
def planned(name: str, face: FaceSide | None = None) -> tuple[Plan, Asked]:
    """An example's plan, its marked faces looking as it says, or out or in."""
    asked = example(name)
    jobs = tuple(
        replace(job, doors=tuple(replace(d, face_side=face or d.face_side) for d in job.doors))
        for job in asked.jobs
    )
    made = replace(asked, jobs=jobs)
    return once.planned(made.jobs, made.shop), made


def example(name: str) -> Asked:
    """An example's files."""
    folder = ROOT / "examples" / name
    named = {path.name: path.read_text("utf-8") for path in folder.glob("*.toml")}
    shop = "shop.toml" if "shop.toml" in named else None
    return Asked(name, *read_batch(("job.toml",), shop, named.__getitem__))


_HALVES = re.compile(r'(?<=")(?:(\d+) )?1/2(?=")')


def _decimal(half: re.Match[str]) -> str:
    """Half a millimetre as a file takes it; of inches, too."""
    return f"{half[1] or 0}.5"


@st.composite
def asked(draw: st.DrawFn) -> Asked | SequencerError:
    """A random job in a random shop: frames with everything that a frame can have, written jobs of
    every fill, every corner joint with and without bars, and job and shop with any of the
    documented keys. What no file may say is the error."""
    way = draw(st.sampled_from(("frame", "fill", "joint", "keys")))
    try:
        if way == "keys":
            chance = Random(draw(st.integers(0, 2**32 - 1)))
            texts = {
                "job.toml": draw_job(chance, draw(units), ()).text,
                "shop.toml": draw_shop(chance, draw(units), ()).text,
            }
            return Asked(way, *read_batch(("job.toml",), "shop.toml", texts.__getitem__))
        if way == "frame":
            job = draw(jobs(draw(units), 2))
        elif way == "fill":
            face = draw(st.sampled_from(("out", "in")))
            job = load_job(f'face_side = "{face}"\n' + draw(job_texts()), "job.toml")
        else:
            kind = draw(st.sampled_from(("bridle", "mitred bridle", "stub tenon", "half-lap")))
            job = load_job(_HALVES.sub(_decimal, draw(random_jobs(kind))[0]), "job.toml")
    except SequencerError as error:
        return error
    shop = replace(draw(shops(job.unit)), words=draw(st.sampled_from(("UK", "US"))))
    return Asked(way, (job,), shop)


def random_asked(count: int, seed: int) -> list[Asked | SequencerError]:
    """So many of them, from a seed."""
    found: list[Asked | SequencerError] = []

    @seeded(seed)
    @settings(
        max_examples=count,
        database=None,
        deadline=None,
        phases=[Phase.generate],
        suppress_health_check=list(HealthCheck),
    )
    @drawn(asked())
    def draw(each: Asked | SequencerError) -> None:
        found.append(each)

    draw()
    return found
