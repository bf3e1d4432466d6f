"""What can still be read of a damaged file: from its front until it tears, and from its back."""

from __future__ import annotations

import sqlite3
from collections.abc import Sequence
from contextlib import closing
from pathlib import Path
from typing import Any

from sequencer.saved.entry import Entry, faults
from sequencer.saved.rows import KNOB, SETTING, entry_of


def salvage(copy: Path) -> tuple[tuple[Entry, ...], int]:
    """Every entry that can be read whole, and how many are known to be there but could not be.

    `copy` is a copy of the damaged file: opening it may change it.
    """
    try:
        with closing(sqlite3.connect(copy, isolation_level=None)) as connection:
            connection.execute("PRAGMA cell_size_check = ON")
            settings = _rows(connection, SETTING, "settings", "number", 1)
            knobs = _rows(connection, KNOB, "knobs", "setting", 2)
            jobs = _rows(connection, "setting, place, job", "jobs", "setting", 2)
    except sqlite3.Error:
        return (), 0
    found: list[Entry] = []
    numbers = {row[0] for row in (*settings, *knobs, *jobs) if isinstance(row[0], int)}
    by_number = {row[0]: row for row in settings}
    for number in sorted(numbers):
        own = [row for row in knobs if row[0] == number]
        named = [row[2] for row in jobs if row[0] == number]
        if number in by_number and own:
            entry = _whole(by_number[number], own, named)
            if entry is not None:
                found.append(entry)
    return tuple(found), len(numbers) - len(found)


def _whole(row: Sequence[Any], knobs: Sequence[Sequence[Any]], jobs: Sequence[str]) -> Entry | None:
    try:
        entry = entry_of(row, knobs, jobs)
    except (ValueError, TypeError, ZeroDivisionError):
        return None
    return None if faults(entry) else entry


def _rows(
    connection: sqlite3.Connection, columns: str, table: str, key: str, unique: int
) -> list[tuple[Any, ...]]:
    """Rows of a table by their first `unique` columns, read from both ends until it tears."""
    found: dict[tuple[Any, ...], tuple[Any, ...]] = {}
    for way in ("", " DESC"):
        try:
            for row in connection.execute(f"SELECT {columns} FROM {table} ORDER BY {key}{way}"):
                found.setdefault(row[:unique], row)
        except (sqlite3.Error, UnicodeDecodeError):
            continue
    return [found[place] for place in sorted(found, key=str)]
