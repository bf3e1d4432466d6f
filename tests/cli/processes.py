"""The command as a process of its own, with whatever streams and surroundings."""

from __future__ import annotations

import os
import signal
import subprocess
import sys
from pathlib import Path
from typing import Any

ROOT = Path(__file__).resolve().parents[2]
JOB = (
    'unit = "in"\n[stock]\nthickness = "3/4"\n[[door]]\n'
    '[door.opening]\nwidth = "14 1/2"\nheight = "22"\n'
)


def run(
    *arguments: str | bytes,
    code: str | None = None,
    env: dict[str, str] | None = None,
    **given: Any,
) -> subprocess.CompletedProcess[str]:
    """The command with these arguments, or other `code` with them. A suite that runs behind a shell
    is deaf to being interrupted, and so would the command be: here it begins as before a person."""
    program = ["-m", "sequencer"] if code is None else ["-c", code]
    streams = {"stdout": subprocess.PIPE, "stderr": subprocess.PIPE, **given}
    before = streams.pop("preexec_fn", None)

    def begin() -> None:
        signal.signal(signal.SIGINT, signal.SIG_DFL)
        if before is not None:
            before()

    environment = {**os.environ, "PYTHONPATH": str(ROOT), **(env or {})}
    return subprocess.run(
        [sys.executable, *program, *arguments],
        check=False,
        encoding="utf-8",
        errors="replace",
        env=environment,
        preexec_fn=begin,  # no threads here
        **streams,
    )


def closing(*numbers: int) -> Any:
    """What closes these streams before the process begins."""

    def close() -> None:
        for number in numbers:
            os.close(number)

    return close
