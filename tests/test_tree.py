"""No file of the project names a place on somebody's machine."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parent.parent

TOP_LEVEL = {
    ".ci", ".gitignore", "DEVELOPERS.md", "LICENSE", "README.md",
    "examples", "pyproject.toml", "sequencer", "templates", "tests",
}  # fmt: skip
BINARY = {".pdf", ".png"}

SOMEBODY = re.compile(r"(?<![\w.$}])(?:/(?:work|home|root|Users|tmp)/\w|[A-Za-z]:\\Users)")


def files() -> list[Path]:
    """Every text file that belongs to the project, in order."""
    found = []
    for top in sorted(TOP_LEVEL):
        for path in sorted([ROOT / top, *(ROOT / top).rglob("*")]):
            parts = path.relative_to(ROOT).parts
            made = any(part == "__pycache__" or part.endswith("_cache") for part in parts)
            if path.is_file() and not made and path.suffix not in BINARY:
                found.append(path)
    return found


def test_no_path_of_one_machine() -> None:
    assert [
        f"{path.relative_to(ROOT)}:{number}: {line}"
        for path in files()
        for number, line in enumerate(path.read_text("utf-8", errors="replace").splitlines(), 1)
        if SOMEBODY.search(line)
    ] == []


@pytest.mark.parametrize(
    ("line", "named"),
    [
        ("see /" + "home/ann/job.toml", True),
        ('"/' + 'tmp/x"', True),
        ("C:" + "\\Users\\ann", True),
        ("/usr/share/fonts", False),
        ("../home/x", False),
        ("$HOME/x", False),
    ],
)
def test_the_check_sees(line: str, named: bool) -> None:
    assert bool(SOMEBODY.search(line)) == named
