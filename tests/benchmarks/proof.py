"""What proving adds to planning: 40 single doors, 4 heights by 5 widths, each size twice; and 40
doors of which no two are alike.

    python -m tests.benchmarks.proof [SECONDS]

Both are timed by the processor's clock in one process, the plan once, the proof five times, the
search held to SECONDS for each combination of methods (without: until it is proven or its own
limit ends it). Wanted: the proof takes less than 30 % of the plan's time.
"""

from __future__ import annotations

import sys
import time
from unittest.mock import patch

from sequencer import pipeline
from sequencer.contract import from_json, to_json
from sequencer.job.load import load_job
from sequencer.job.shop import default_shop
from sequencer.plan import Plan
from sequencer.proof import prove

HEIGHTS = ("18", "22", "26", "30")
WIDTHS = ("12", "13 1/2", "15", "16 1/2", "18")
REPEATING = [(height, width) for height in HEIGHTS for width in WIDTHS for _ in "12"]
UNLIKE = [
    (f"{n % 20 + 14} {n // 20 * 2 + 1}/8", f"{n % 10 + 10} {n // 10 * 2 + 1}/8") for n in range(40)
]
WANTED = 0.30


def job_text(sizes: list[tuple[str, str]]) -> str:
    head = 'unit = "in"\n[stock]\nthickness = "3/4"\n[rails]\ntop = "2"\nbottom = "2 1/2"\n'
    doors = [
        f'[[door]]\n[door.opening]\nwidth = "{width}"\nheight = "{height}"\n'
        for height, width in sizes
    ]
    return head + "".join(doors)


def make(sizes: list[tuple[str, str]], seconds: float | None) -> tuple[Plan, float]:
    """The plan with its proof left out, and the seconds it took."""
    job = load_job(job_text(sizes), "job.toml")
    shop = default_shop(job.unit)
    with patch.object(pipeline, "prove", lambda *_: ()):
        begun = time.process_time()
        plan = pipeline.plan([job], shop, seconds=seconds)
        return plan, time.process_time() - begun


def measure(sizes: list[tuple[str, str]], seconds: float | None) -> None:
    plan, planned = make(sizes, seconds)
    begun = time.process_time()
    for _ in range(5):
        line = prove(plan)
    proven = (time.process_time() - begun) / 5
    begun = time.process_time()
    same = from_json(to_json(plan)) == plan
    written = time.process_time() - begun
    cuts = sum(len(step.cuts) for step in plan.steps)
    print(f"{len(plan.doors)} doors, {cuts} passes, {len(plan.setups)} setups")
    print(line)
    good = "yes" if proven < WANTED * planned else "no"
    print(f"plan {planned:.2f} s, proof {proven:.2f} s: {proven / planned:.1%}, wanted: {good}")
    print(f"plan.json written and read again in {written:.2f} s, the same: {same}")


if __name__ == "__main__":
    for name, wanted_sizes in (("sizes that repeat", REPEATING), ("all unlike", UNLIKE)):
        print(f"-- {name}")
        measure(wanted_sizes, float(sys.argv[1]) if len(sys.argv) > 1 else None)
