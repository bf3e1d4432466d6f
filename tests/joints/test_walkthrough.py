"""The walk-through of adding a joint quotes the joint as it is."""

from __future__ import annotations

import re
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]


def test_what_developers_are_shown_is_in_the_sources() -> None:
    told = (ROOT / "DEVELOPERS.md").read_text("utf-8")
    section = told.partition("## A joint, from nothing")[2].partition("\n## ")[0]
    quoted = re.findall(r"```python\n(.*?)```", section, re.DOTALL)
    assert len(quoted) == 6
    sources = [
        (ROOT / "sequencer" / name).read_text("utf-8")
        for name in ("joints/half_lap.py", "job/kinds.py")
    ]
    for code in quoted:
        assert any(code in source for source in sources), code


def test_the_files_that_developers_are_told_of_are_there() -> None:
    told = (ROOT / "DEVELOPERS.md").read_text("utf-8")
    named = re.findall(r"`([\w-]+(?:/[\w-]+)*(?:/|\.py|\.toml|\.js))`", told)
    assert len(named) > 40
    for name in named:
        if "/" in name:
            assert (ROOT / name).exists() or (ROOT / "sequencer" / name).exists(), name
        else:  # its package stands before it
            assert any((ROOT / "sequencer").rglob(name)) or (ROOT / name).exists(), name
