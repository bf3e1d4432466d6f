"""The sheets of forty doors: how long HTML and PDF take, and how much memory.

    python -m tests.benchmarks.paper [DOORS [SIZES]]

The doors are all unlike, those of `tests.benchmarks.forty`; or of so many sizes, 1 to 8, as a
kitchen's are, plain ones by the defaults. Processor seconds, since other work makes clocks slow,
and garbage looked for as seldom as the command does; memory is the most that the process ever had,
the plan in it. Wanted: HTML in 1 s, PDF in 10 s, 400 MB. Prints, and exits 1 where more is taken.
"""

from __future__ import annotations

import argparse
import gc
import resource
import sys
import time
from collections.abc import Callable
from typing import TypeVar

from sequencer.job.load import load_job
from sequencer.job.shop import default_shop
from sequencer.pipeline import plan
from sequencer.sheets import html, pdf
from tests.benchmarks.forty import job

HTML, PDF, MEMORY = 1.0, 10.0, 400
Made = TypeVar("Made")


_SIZES = ((13, 24), (15, 24), (17, 24), (19, 24), (15, 30), (17, 30), (19, 30), (21, 30))
"""Inches of openings; invented."""


def alike(doors: int, sizes: int) -> str:
    """A job of plain doors, about equally many of each size."""
    lines = ['unit = "in"', 'name = "Kitchen"', "[stock]", 'thickness = "3/4"']
    for n, (wide, high) in enumerate(_SIZES[:sizes]):
        count = len(range(n, doors, sizes))
        opening = f'opening = {{ width = "{wide}", height = "{high}" }}'
        lines += ["[[door]]", f"count = {count}", opening]
    return "\n".join(lines) + "\n"


def timed(what: str, wanted: float, make: Callable[[], Made], times: int) -> tuple[Made, bool]:
    """What is made, and whether in no more than the seconds wanted, the quickest of so many
    times: a shared machine takes half as long again at others."""
    took = float("inf")
    for _ in range(times):
        began = time.process_time()
        made = make()
        took = min(took, time.process_time() - began)
    print(f"{what}: {took:.2f} s of {wanted:g}")
    return made, took <= wanted


def main() -> int:
    parser = argparse.ArgumentParser()
    parser.add_argument("doors", nargs="?", type=int, default=40)
    parser.add_argument("sizes", nargs="?", type=int, choices=range(1, len(_SIZES) + 1))
    given = parser.parse_args()
    gc.set_threshold(1_000_000)  # as `sequencer/__main__.py` sets it
    text = job(given.doors, 1, 10) if given.sizes is None else alike(given.doors, given.sizes)
    made = plan([load_job(text, "job.toml")], default_shop("in"))
    html(made)  # once, so that templates are compiled: a second run finds them in the cache
    page, quick = timed("HTML", HTML, lambda: html(made), 7)
    document, printed = timed("PDF", PDF, lambda: pdf(page), 1)
    most = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024
    print(f"{len(made.setups)} setups; {len(page) // 1024} and {len(document) // 1024} KiB")
    print(f"memory: {most:.0f} MB of {MEMORY}")
    return 0 if quick and printed and most <= MEMORY else 1


if __name__ == "__main__":
    sys.exit(main())
