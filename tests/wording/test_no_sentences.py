"""No stage holds a sentence: what a person reads is a fact until the wording room says it.

Read from the sources: a text of three words or more in a row that is no docstring. Statements of
SQL are no sentences; nor is what is only for whoever reads a trace (`TypeError`, `ValueError`,
`AssertionError` and what `assert` says), or where a figure of the trade comes from. The tables of
`trade` hold names alone: of publications, and of what a job file may say; that of `saved.old` what
earlier versions wrote.
"""

from __future__ import annotations

import ast
import re
from collections.abc import Iterator
from pathlib import Path

import pytest

PACKAGE = Path(__file__).resolve().parents[2] / "sequencer"

_WORDS = re.compile(r"[A-Za-z’']{2,}[,;:]? +[A-Za-z’']+[,;:]? +[A-Za-z’']{2,}")
_SQL = re.compile(
    r"\s*(select|insert|update|delete|create|pragma|begin|alter|drop|with)\b"
    r"|\s*(?-i:FROM|WHERE|ORDER BY)\b",
    re.IGNORECASE,
)
_COLUMNS = re.compile(r"\w+(, \w+)+")
_SOURCED = {"Datum", "_fact"}
_FOR_TRACES = {"TypeError", "ValueError", "AssertionError", "KeyError", "NotImplementedError"}


def sentences(source: str, *, tables: bool = False) -> Iterator[tuple[int, str]]:
    """Line and text of every sentence in a module; of `tables`, whatever is assigned at the top of
    the module is passed over."""
    tree = ast.parse(source)
    spared: set[int] = set()
    if tables:
        for top in tree.body:
            if isinstance(top, ast.Assign | ast.AnnAssign):
                spared |= {id(each) for each in ast.walk(top)}
    for node in ast.walk(tree):
        if isinstance(node, ast.Expr) and isinstance(node.value, ast.Constant):
            spared.add(id(node.value))  # docstrings, of attributes too
        elif isinstance(node, ast.Assert) and node.msg is not None:
            spared |= {id(each) for each in ast.walk(node.msg)}
        elif isinstance(node, ast.Call) and _called(node) in _FOR_TRACES | _SOURCED:
            spared |= {id(each) for each in ast.walk(node)}
    for node in ast.walk(tree):
        if isinstance(node, ast.Constant) and isinstance(node.value, str):
            if id(node) in spared or _SQL.match(node.value):
                continue
            if "import sqlite3" in source and _COLUMNS.fullmatch(node.value):
                continue
            if _WORDS.search(node.value):
                yield node.lineno, node.value


def _called(node: ast.Call) -> str:
    return str(getattr(node.func, "id", "") or getattr(node.func, "attr", ""))


def _holds_tables(path: Path) -> bool:
    inside = path.relative_to(PACKAGE)
    return inside.parts[0] == "trade" or inside.as_posix() == "saved/old.py"


def rooms() -> list[str]:
    names = {path.relative_to(PACKAGE).parts[0].removesuffix(".py")
             for path in PACKAGE.rglob("*.py")}  # fmt: skip
    return sorted(names - {"wording", "__init__", "__main__"})


@pytest.mark.parametrize("room", rooms())
def test_no_sentence_stands_outside_the_wording_room(room: str) -> None:
    files = [PACKAGE / f"{room}.py"] if (PACKAGE / f"{room}.py").exists() else []
    files += sorted((PACKAGE / room).rglob("*.py"))
    found = [
        f"{path.relative_to(PACKAGE)}:{line}: {text!r}"
        for path in files
        for line, text in sentences(path.read_text(encoding="utf-8"), tables=_holds_tables(path))
    ]
    assert not found


def test_a_sentence_is_found() -> None:
    source = '''
"""A docstring is no sentence of the program."""
def f(x):
    """Nor is this one here."""
    assert x, "what an assertion says"
    if x: raise ValueError("only for a trace this is")
    run("SELECT a FROM some table")
    fits.Datum(a, b, "ours: wide enough to stand")
    return f"the kerf of {x} is wider", "slot width", "the panel floats"
'''
    assert {text for _, text in sentences(source)} == {"the kerf of ", "the panel floats"}
