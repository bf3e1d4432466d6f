"""What can still be read of a damaged file: from its front until it tears, and from its back."""

from __future__ import annotations

import sqlite3
from collections.abc import Sequence
from contextlib import closing
from pathlib import Path
from typing import Any

from sequencer.saved.entry import Entry, faults
from sequencer.saved.rows import KNOB, SETTING, entry_of

_LARGEST = 1 << 30
"""Bytes beyond which a header is not believed."""


def salvage(copy: Path) -> tuple[tuple[Entry, ...], int]:
    """Every entry that can be read whole, and how many are known to be there but could not be.

    `copy` is a copy of the damaged file: opening it may change it.
    """
    _fill_up(copy)
    try:
        with closing(sqlite3.connect(copy, isolation_level=None)) as connection:
            connection.execute("PRAGMA cell_size_check = ON")
            settings = _rows(connection, SETTING, "settings", "number", 1)
            numbers = [row[0] for row in settings]
            knobs = _rows(connection, KNOB, "knobs", "setting", 2, numbers)
            jobs = _rows(connection, "setting, place, job", "jobs", "setting", 2, numbers)
    except sqlite3.Error:
        return (), 0
    found: list[Entry] = []
    known = {row[0] for row in (*settings, *knobs, *jobs) if isinstance(row[0], int)}
    own = _by_number(knobs)
    named = _by_number(jobs)
    for row in settings:
        entry = _whole(row, own.get(row[0], []), [job[2] for job in named.get(row[0], [])])
        if entry is not None:
            found.append(entry)
    return tuple(found), len(known) - len(found)


def _by_number(rows: Sequence[tuple[Any, ...]]) -> dict[Any, list[tuple[Any, ...]]]:
    found: dict[Any, list[tuple[Any, ...]]] = {}
    for row in rows:
        found.setdefault(row[0], []).append(row)
    return found


def _fill_up(copy: Path) -> None:
    """Put noughts where the end is torn off: SQLite opens no file shorter than its header says.
    Page size and number stand in bytes 16 and 28 of the header (SQLite, Database File Format)."""
    with copy.open("r+b") as file:
        header = file.read(100)
        if len(header) == 100:
            page = int.from_bytes(header[16:18], "big")
            wanted = (65536 if page == 1 else page) * int.from_bytes(header[28:32], "big")
            if file.seek(0, 2) < wanted < _LARGEST:
                file.truncate(wanted)


def _whole(row: Sequence[Any], knobs: Sequence[Sequence[Any]], jobs: Sequence[str]) -> Entry | None:
    try:
        entry = entry_of(row, knobs, jobs)
    except (ValueError, TypeError, ZeroDivisionError):
        return None
    return None if faults(entry) else entry


def _rows(
    connection: sqlite3.Connection,
    columns: str,
    table: str,
    key: str,
    unique: int,
    numbers: Sequence[int] = (),
) -> list[tuple[Any, ...]]:
    """Rows of a table by their first `unique` columns: from both ends until it tears, and between
    them those of each of the `numbers`."""
    found: dict[tuple[Any, ...], tuple[Any, ...]] = {}

    def read(rest: str) -> None:
        try:
            for row in connection.execute(f"SELECT {columns} FROM {table} {rest}"):
                if isinstance(row[0], int):  # a torn page yields rows of nothing
                    found.setdefault(row[:unique], row)
        except (sqlite3.Error, UnicodeDecodeError):
            pass

    read(f"ORDER BY {key}")
    read(f"ORDER BY {key} DESC")
    seen = {place[0] for place in found}
    for number in numbers:
        if number not in seen:
            read(f"WHERE {key} = {number:d}")
    return [found[place] for place in sorted(found, key=lambda place: (place[0], str(place)))]
