"""What is advised of refused jobs, applied and planned: `python -m tests.remedies.proven N SEED`
counts it for N refusals."""

from __future__ import annotations

import sys
import time
from collections import Counter
from collections.abc import Callable, Sequence
from random import Random

from sequencer import pipeline
from sequencer.batch import read_batch
from sequencer.errors import InputError, Refusal
from sequencer.hints import tried
from sequencer.job.schema import Job, Shop
from sequencer.remedies import Remedy, remedies
from tests.remedies.jobs import refusable

FILE = "job.toml"


def refused(text: str, seconds: float) -> tuple[str, tuple[Remedy, ...]] | None:
    """What the job is refused for, and what would do; `None` where it is planned."""
    texts = {FILE: text}
    end = time.monotonic() + seconds

    def enough() -> bool:
        return time.monotonic() > end

    try:
        jobs, shop = read_batch([FILE], None, texts.__getitem__)
    except InputError as error:
        _, whole = tried(error, [FILE], None, texts, _plans, enough)
        return error.faults[0].message.id, () if whole is None else (whole,)
    try:
        pipeline.plan(jobs, shop)
    except Refusal as refusal:
        return refusal.says[0].id, remedies(refusal, jobs, None, texts, _plans, enough)
    return None


def _plans(jobs: Sequence[Job], shop: Shop) -> object:
    return pipeline.plan(jobs, shop, seconds=0.2)


def count(refusals: int, seed: int, seconds: float, tell: Callable[[str], None]) -> Counter[str]:
    """Of so many refusals: how many were offered a remedy, how many remedies, and how many of them
    do not plan when the file is changed so."""
    chance, found, kinds = Random(seed), Counter[str](), Counter[str]()
    while found["refused"] < refusals:
        text = refusable(chance)
        made = refused(text, seconds)
        if made is None:
            found["planned"] += 1
            continue
        kind, offers = made
        found["refused"] += 1
        found["with a remedy"] += bool(offers)
        kinds[f"{kind}: {'a remedy' if offers else 'none'}"] += 1
        for offer in offers:
            found["remedies"] += 1
            changed = offer.text({FILE: text})
            kept = [line.partition("#")[2] for line in text.split("\n") if "#" in line]
            if any(comment not in changed for comment in kept):
                found["lost a comment"] += 1
            try:
                pipeline.plan(*read_batch([FILE], None, {FILE: changed}.__getitem__))
            except (InputError, Refusal):
                found["do not plan"] += 1
                tell(f"{text}\n----\n{changed}")
    for kind, times in sorted(kinds.items(), key=lambda each: -each[1]):
        tell(f"{times:6} {kind}")
    return found


if __name__ == "__main__":
    begun = time.monotonic()
    counted = count(int(sys.argv[1]), int(sys.argv[2]), 1.0, print)
    print(dict(counted), f"{time.monotonic() - begun:.0f} s")
