"""Whole processes side by side: `check` of one door and `plan` without the PDF, against `pass`.

    python -m tests.benchmarks.startup [RUNS]

Prints medians and their ratios to `python -c pass`. Wanted on two idle cores: a check within
0.25 s, a plan within 0.8 s.
"""

from __future__ import annotations

import os
import subprocess
import sys
import tempfile
import time
from pathlib import Path
from statistics import median

ROOT = Path(__file__).resolve().parent.parent.parent
JOB = """
unit = "in"
[stock]
thickness = "3/4"
[[door]]
[door.opening]
width = "16"
height = "22"
"""
WANTED = {"pass": None, "check": 0.25, "plan": 0.8}


def seconds(command: list[str], folder: str) -> float:
    environment = {**os.environ, "XDG_DATA_HOME": folder}  # no settings of one's own
    begun = time.perf_counter()
    subprocess.run(command, cwd=ROOT, env=environment, check=True, capture_output=True)
    return time.perf_counter() - begun


def main(runs: int) -> None:
    with tempfile.TemporaryDirectory() as folder:
        job, out = str(Path(folder, "job.toml")), str(Path(folder, "sheets"))
        Path(job).write_text(JOB, "utf-8")
        program = [sys.executable, "-m", "sequencer"]
        commands = {
            "pass": [sys.executable, "-c", "pass"],
            "check": [*program, "check", "--quick", job],
            "plan": [*program, "plan", job, "--no-pdf", "-o", out],
        }
        for command in commands.values():  # once for the byte code and the disk's cache
            seconds(command, folder)
        # In turn, so that whatever else the machine does falls on all of them alike.
        taken: dict[str, list[float]] = {name: [] for name in commands}
        for _ in range(runs):
            for name, command in commands.items():
                taken[name].append(seconds(command, folder))
    base = median(taken["pass"])
    for name, wanted in WANTED.items():
        middle = median(taken[name])
        line = f"{name:6} median {middle:.3f} s  ratio {middle / base:5.1f}"
        if wanted is not None:
            line += f"  wanted {wanted} s: {'no' if middle > wanted else 'yes'}"
        print(line)


if __name__ == "__main__":
    main(int(sys.argv[1]) if len(sys.argv) > 1 else 15)
