"""Forty unlike doors planned, layout of the boards included: time of each stage.

    python -m tests.benchmarks.forty [JOBS [DOORS]]

No two heights and no two widths are equal, on 1/8 in; stiles and rails come in four and three
widths; the boards are of ten sizes, or all unlike. All invented. Whole processes of `plan` without
the PDF come first, in processor seconds of their own and by the clock; then one plan within this
process, stage by stage. Wanted: 5 s on an idle machine. Prints, and exits 1 where more processor
seconds are taken.
"""

from __future__ import annotations

import argparse
import os
import resource
import subprocess
import sys
import tempfile
import time
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from fractions import Fraction
from importlib import import_module
from pathlib import Path
from random import Random
from typing import Any

ROOT = Path(__file__).resolve().parents[2]
WANTED = 5.0
STAGES = (
    ("sequencer.batch", "load_job", "read the job"),
    ("sequencer.setups.given", "open_choices", "doors"),
    ("sequencer.setups.given", "make_leaves", "doors"),
    ("sequencer.setups.given", "make_operations", "operations"),
    ("sequencer.setups.given", "frame", "framing the problem"),
    ("sequencer.setups.choose", "dues", "glancing at methods"),
    ("sequencer.setups.choose", "least_minutes", "glancing at methods"),
    ("sequencer.ordering", "bound", "ordering"),
    ("sequencer.ordering", "solve", "ordering"),
    ("sequencer.pipeline", "calm", "laying out steps"),
    ("sequencer.pipeline", "lay_out_steps", "laying out steps"),
    ("sequencer.ordering.baselines", "group_by_group", "baselines"),
    ("sequencer.ordering.baselines", "by_rank", "baselines"),
    ("sequencer.ordering.baselines", "greedy", "baselines"),
    ("sequencer.ordering.check", "recompute", "checking the order"),
    ("sequencer.pipeline", "record_plan", "recording"),
    ("sequencer.pipeline", "_cautioned", "safety"),
    ("sequencer.pipeline", "take_stock", "boards"),
    ("sequencer.pipeline", "prove", "proof"),
    ("sequencer.saved.advice", "advise", "advice"),
    ("sequencer.sheets", "html", "sheets"),
    ("sequencer.sheets.files", "parts_csv", "sheets"),
    ("sequencer.sheets.files", "to_json", "sheets"),
)


def job(doors: int, seed: int, board_sizes: int, *, mark: str = "job") -> str:
    """A job file: `doors` unlike doors, and boards enough for them."""
    random = Random(seed)
    heights = random.sample(range(12 * 8, 36 * 8), doors)
    widths = random.sample(range(11 * 8, 23 * 8), doors)
    lines = ['unit = "in"', f'name = "{mark} {seed}"', 'species = "cherry"', "[stock]",
             'thickness = "3/4"']  # fmt: skip
    for height, width in zip(heights, widths, strict=True):
        lines += [
            "[[door]]",
            "[door.stiles]",
            f'hinge = "{_inches(random.choice((14, 16, 18, 20)))}"',
            "[door.rails]",
            f'top = "{_inches(random.choice((16, 18, 20)))}"',
            "[door.opening]",
            f'width = "{_inches(width)}"',
            f'height = "{_inches(height)}"',
        ]
    sizes = [
        (random.choice((72, 84, 96, 108, 120, 144)), random.randrange(24, 48))
        for _ in range(board_sizes)
    ]
    for n in range(9 * doors // 4):
        length, width = sizes[n % board_sizes]
        lines += [
            "[[board]]",
            f'mark = "{n + 1}"',
            f'thickness = "{"15/16" if n % 3 else "1/2"}"',
            f'length = "{length}"',
            f'width = "{_inches(2 * width)}"',
        ]
    return "\n".join(lines) + "\n"


def _inches(eighths: int) -> str:
    whole, rest = divmod(eighths, 8)
    return f"{whole} {Fraction(rest, 8)}" if rest else f"{whole}"


class Watch:
    """Processor seconds spent in each stage, without those of stages that it calls."""

    def __init__(self) -> None:
        self.spent: dict[str, float] = {}
        self.inner: list[float] = []

    def timed(self, stage: str, function: Callable[..., Any]) -> Callable[..., Any]:
        def run(*args: Any, **kwargs: Any) -> Any:
            self.inner.append(0.0)
            begun = time.process_time()
            try:
                return function(*args, **kwargs)
            finally:
                took = time.process_time() - begun
                own = took - self.inner.pop()
                self.spent[stage] = self.spent.get(stage, 0.0) + own
                if self.inner:
                    self.inner[-1] += took

        return run


@contextmanager
def watched(watch: Watch) -> Iterator[None]:
    """Every stage timed, where it is called by the name given in `STAGES`."""
    before = []
    for module, name, stage in STAGES:
        place = import_module(module)
        before.append((place, name, getattr(place, name)))
        setattr(place, name, watch.timed(stage, getattr(place, name)))
    try:
        yield
    finally:
        for place, name, function in before:
            setattr(place, name, function)


def whole_process(file: Path, folder: str) -> tuple[float, float, str]:
    """Seconds of `sequencer plan FILE --no-pdf`, of the processor and by the clock, and its last
    line."""
    environment = {**os.environ, "XDG_DATA_HOME": folder, "XDG_CACHE_HOME": folder}
    command = [sys.executable, "-m", "sequencer", "plan", str(file), "--no-pdf"]
    before, begun = resource.getrusage(resource.RUSAGE_CHILDREN), time.perf_counter()
    done = subprocess.run(
        [*command, "-o", str(Path(folder, "sheets"))],
        cwd=ROOT, env=environment, check=True, capture_output=True, text=True,
    )  # fmt: skip
    after = resource.getrusage(resource.RUSAGE_CHILDREN)
    took = after.ru_utime - before.ru_utime + after.ru_stime - before.ru_stime
    return took, time.perf_counter() - begun, done.stdout.splitlines()[-1]


def stages(text: str, folder: str) -> dict[str, float]:
    """One command within this process, stage by stage; the rest under its own name."""
    from sequencer import cli

    file = Path(folder, "job.toml")
    file.write_text(text, "utf-8")
    watch = Watch()
    with watched(watch):
        begun = time.process_time()
        out, sys.stdout = sys.stdout, open(os.devnull, "w")  # noqa: SIM115, PTH123
        try:
            code = cli.main(["plan", str(file), "--no-pdf", "-o", str(Path(folder, "sheets"))])
        finally:
            sys.stdout.close()
            sys.stdout = out
        total = time.process_time() - begun
    assert code == 0
    watch.spent["all else"] = total - sum(watch.spent.values())
    return watch.spent


def main(jobs: int, doors: int) -> int:
    worst = 0.0
    cases = [(seed, 10 if seed % 2 else 9 * doors // 4) for seed in range(1, jobs + 1)]
    with tempfile.TemporaryDirectory() as folder:
        file = Path(folder, "one.toml")
        file.write_text(job(1, 1, 2), "utf-8")
        whole_process(file, folder)  # once for the byte code and the compiled templates
        for seed, sizes in cases:
            file = Path(folder, f"job{seed}.toml")
            file.write_text(job(doors, seed, sizes), "utf-8")
            took, waited, said = whole_process(file, folder)
            worst = max(worst, took)
            print(f"job {seed}, boards of {sizes:2} sizes: {took:5.2f} s, "
                  f"{waited:5.2f} by the clock  {said}", flush=True)  # fmt: skip
        os.environ["XDG_DATA_HOME"] = os.environ["XDG_CACHE_HOME"] = folder
        spent = stages(job(doors, *cases[-1]), folder)
    print(f"\nstage by stage, job {cases[-1][0]}:")
    for stage, seconds in spent.items():
        print(f"  {stage:22}{seconds:6.2f} s")
    print(f"  {'together':22}{sum(spent.values()):6.2f} s")
    print(f"the longest {worst:.2f} s, {worst / WANTED:.2f} of the {WANTED:.0f} s wanted: "
          f"{'yes' if worst <= WANTED else 'no'}")  # fmt: skip
    return int(worst > WANTED)


if __name__ == "__main__":
    parser = argparse.ArgumentParser(prog="python -m tests.benchmarks.forty")
    parser.add_argument("jobs", type=int, nargs="?", default=4, help="(4)")
    parser.add_argument("doors", type=int, nargs="?", default=40, help="(40)")
    given = parser.parse_args()
    sys.exit(main(given.jobs, given.doors))
