"""The keys of job and shop files as the README's tables list them; a test of the README holds those
against the readers' own."""

from __future__ import annotations

import re
from pathlib import Path

README = (Path(__file__).resolve().parents[2] / "README.md").read_text("utf-8")


def documented(heading: str) -> tuple[str, ...]:
    """The first column of the table of keys under a heading, in its order."""
    section = README.partition(f"\n## {heading}\n")[2].partition("\n## ")[0]
    return tuple(re.findall(r"^\| `([\w.]+)` \|", section, re.MULTILINE))


JOB_KEYS = documented("The job file")
SHOP_KEYS = documented("The shop file")
