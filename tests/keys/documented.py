"""The keys of job and shop files as the reference lists them, made from the readers' own."""

from __future__ import annotations

import re
from pathlib import Path

REFERENCE = (Path(__file__).resolve().parents[2] / "examples" / "REFERENCE.md").read_text("utf-8")


def documented(heading: str) -> tuple[str, ...]:
    """The first column of the table of keys under a heading, in its order."""
    section = REFERENCE.partition(f"\n## {heading}\n")[2].partition("\n## ")[0]
    return tuple(re.findall(r"^\| `([\w.]+)` \|", section, re.MULTILINE))


JOB_KEYS = documented("The job file")
SHOP_KEYS = documented("The shop file")
