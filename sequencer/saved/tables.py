"""The store's tables, one version after another, and how a file goes from each to the next.

A change of the tables appends a version; what stands here for earlier ones never changes, since
files made by them exist.
"""

from __future__ import annotations

import sqlite3
from collections.abc import Callable
from fractions import Fraction

APPLICATION_ID = 0x5345_5153
"""In the header of every file of ours."""

_NANOMETRES = {"in": 25_400_000, "mm": 1_000_000}

_FIRST = (
    """
    CREATE TABLE settings (
        number INTEGER PRIMARY KEY AUTOINCREMENT,
        uid TEXT NOT NULL UNIQUE,
        saw TEXT NOT NULL,
        cutter TEXT NOT NULL,
        kerf TEXT NOT NULL,
        unit TEXT NOT NULL CHECK (unit IN ('in', 'mm')),
        carrier TEXT NOT NULL,
        makes TEXT NOT NULL,
        date TEXT NOT NULL,
        note TEXT NOT NULL,
        knobs INTEGER NOT NULL
    )
    """,
    """
    CREATE TABLE knobs (
        setting INTEGER NOT NULL REFERENCES settings (number) ON DELETE CASCADE,
        knob TEXT NOT NULL,
        value TEXT NOT NULL,
        read TEXT,
        share TEXT,
        measure TEXT NOT NULL,
        target TEXT,
        measured TEXT,
        per_unit TEXT,
        gauge_kind TEXT,
        gauge_name TEXT,
        PRIMARY KEY (setting, knob)
    ) WITHOUT ROWID
    """,
    """
    CREATE TABLE jobs (
        setting INTEGER NOT NULL REFERENCES settings (number) ON DELETE CASCADE,
        place INTEGER NOT NULL,
        job TEXT NOT NULL,
        PRIMARY KEY (setting, place)
    ) WITHOUT ROWID
    """,
    "CREATE INDEX settings_by_saw ON settings (saw, cutter)",
)


def _first(connection: sqlite3.Connection) -> None:
    connection.execute(f"PRAGMA application_id = {APPLICATION_ID}")
    for statement in _FIRST:
        connection.execute(statement)


def _second(connection: sqlite3.Connection) -> None:
    """Marks of doubt; where each knob really stood, and its place among others of its kind."""
    for statement in (
        "ALTER TABLE settings ADD COLUMN doubted INTEGER NOT NULL DEFAULT 0",
        "ALTER TABLE knobs ADD COLUMN off TEXT NOT NULL DEFAULT '0'",
        "ALTER TABLE knobs ADD COLUMN place INTEGER NOT NULL DEFAULT 0",
    ):
        connection.execute(statement)
    rows = connection.execute(
        "SELECT number, knob, unit, kerf, value, share, target, measured, per_unit "
        "FROM settings JOIN knobs ON setting = number"
    ).fetchall()
    for number, knob, unit, kerf, value, share, target, measured, per_unit in rows:
        off = Fraction(0)
        if target is not None and measured is not None and per_unit not in (None, "0"):
            off = (Fraction(measured) - Fraction(target)) / Fraction(per_unit)
        stands = Fraction(value) + off + Fraction(share or 0) * Fraction(kerf)
        connection.execute(
            "UPDATE knobs SET off = ?, place = ? WHERE setting = ? AND knob = ?",
            (str(off), round(stands * _NANOMETRES[unit]), number, knob),
        )


_PLACES = """
    INSERT INTO places (saw, cutter, carrier, knob, share, place, kerf, gauged, doubted, setting)
    SELECT saw, cutter, carrier, knob, coalesce(share, ''), place, kerf, gauge_kind IS NOT NULL,
        doubted, number
    FROM settings JOIN knobs ON setting = number
"""


def _third(connection: sqlite3.Connection) -> None:
    """All that a search by place needs, in one table that is its own index."""
    connection.execute(
        """
        CREATE TABLE places (
            saw TEXT NOT NULL,
            cutter TEXT NOT NULL,
            carrier TEXT NOT NULL,
            knob TEXT NOT NULL,
            share TEXT NOT NULL,
            place INTEGER NOT NULL,
            kerf TEXT NOT NULL,
            gauged INTEGER NOT NULL,
            doubted INTEGER NOT NULL,
            setting INTEGER NOT NULL REFERENCES settings (number) ON DELETE CASCADE,
            PRIMARY KEY (saw, cutter, carrier, knob, share, place, kerf, gauged, doubted, setting)
        ) WITHOUT ROWID
        """
    )
    connection.execute("CREATE INDEX places_by_setting ON places (setting)")
    connection.execute(_PLACES)


_FOUND = """
    INSERT INTO places (
        saw, made_with, cutter, carrier, knob, share, place, kerf, gauged, doubted, setting
    )
    SELECT saw, made_with, cutter, carrier, knob, coalesce(share, ''), place, kerf,
        gauge_kind IS NOT NULL, doubted, number
    FROM settings JOIN knobs ON setting = number
"""

_FOURTH = (
    "ALTER TABLE settings ADD COLUMN made_with TEXT NOT NULL DEFAULT ''",
    "ALTER TABLE settings ADD COLUMN sharpened INTEGER NOT NULL DEFAULT 0",
    "DROP TABLE places",
    """
    CREATE TABLE places (
        saw TEXT NOT NULL,
        made_with TEXT NOT NULL,
        cutter TEXT NOT NULL,
        carrier TEXT NOT NULL,
        knob TEXT NOT NULL,
        share TEXT NOT NULL,
        place INTEGER NOT NULL,
        kerf TEXT NOT NULL,
        gauged INTEGER NOT NULL,
        doubted INTEGER NOT NULL,
        setting INTEGER NOT NULL REFERENCES settings (number) ON DELETE CASCADE,
        PRIMARY KEY (saw, made_with, cutter, carrier, knob, share, place, kerf, gauged, doubted,
            setting)
    ) WITHOUT ROWID
    """,
    "CREATE INDEX places_by_setting ON places (setting)",
    """
    CREATE TABLE readings (
        number INTEGER PRIMARY KEY AUTOINCREMENT,
        uid TEXT NOT NULL UNIQUE,
        at TEXT NOT NULL,
        job TEXT NOT NULL,
        saw TEXT NOT NULL,
        made_with TEXT NOT NULL,
        cutter TEXT NOT NULL,
        sharpened INTEGER NOT NULL,
        carrier TEXT NOT NULL,
        knob TEXT NOT NULL,
        kerf TEXT NOT NULL,
        unit TEXT NOT NULL CHECK (unit IN ('in', 'mm')),
        wanted TEXT NOT NULL,
        shown TEXT NOT NULL,
        measure TEXT NOT NULL,
        planned TEXT NOT NULL,
        measured TEXT NOT NULL,
        per_unit TEXT NOT NULL,
        tool TEXT NOT NULL,
        good INTEGER NOT NULL
    )
    """,
    "CREATE INDEX readings_by_scale ON readings (saw, made_with, cutter, carrier, knob, at)",
    """
    CREATE TABLE noted (
        number INTEGER PRIMARY KEY AUTOINCREMENT,
        uid TEXT NOT NULL UNIQUE,
        at TEXT NOT NULL,
        job TEXT NOT NULL,
        saw TEXT NOT NULL,
        what TEXT NOT NULL,
        name TEXT NOT NULL,
        planned TEXT NOT NULL,
        value TEXT NOT NULL,
        unit TEXT NOT NULL
    )
    """,
    "CREATE INDEX noted_by_what ON noted (saw, what, name, at)",
    """
    CREATE TABLE earlier (
        source TEXT PRIMARY KEY,
        setting INTEGER NOT NULL,
        body TEXT
    ) WITHOUT ROWID
    """,
    _FOUND,
    """
    INSERT INTO readings (uid, at, job, saw, made_with, cutter, sharpened, carrier, knob, kerf,
        unit, wanted, shown, measure, planned, measured, per_unit, tool, good)
    SELECT uid || '/' || knob, date, coalesce((SELECT job FROM jobs WHERE setting = number
            ORDER BY place DESC LIMIT 1), ''), saw, '', cutter, 0, carrier, knob, kerf, unit,
        value, coalesce(read, value), measure, target, measured, per_unit, '', 1
    FROM settings JOIN knobs ON setting = number
    WHERE target IS NOT NULL AND measured IS NOT NULL AND per_unit IS NOT NULL AND per_unit <> '0'
    ORDER BY date, number
    """,
)


def _fourth(connection: sqlite3.Connection) -> None:
    """What a setting was made with; every reading; what else was measured, and how long it took;
    what a setting was before a reading that may be taken back. Readings of the settings that are
    there are their evidence."""
    for statement in _FOURTH:
        connection.execute(statement)


def _fifth(connection: sqlite3.Connection) -> None:
    """Which boards a finding belongs to; readings by their cutter, for its kerf."""
    connection.execute("ALTER TABLE noted ADD COLUMN belongs TEXT NOT NULL DEFAULT ''")
    connection.execute("CREATE INDEX readings_by_cutter ON readings (saw, cutter, sharpened, at)")


VERSIONS: tuple[Callable[[sqlite3.Connection], None], ...] = (
    _first,
    _second,
    _third,
    _fourth,
    _fifth,
)
"""`VERSIONS[n]` makes version n + 1 out of version n, inside the caller's transaction."""


def upgrade(connection: sqlite3.Connection, to: int = len(VERSIONS)) -> None:
    """Bring the file from the version it says to version `to`."""
    (at,) = connection.execute("PRAGMA user_version").fetchone()
    for step in VERSIONS[at:to]:
        step(connection)
    connection.execute(f"PRAGMA user_version = {to}")


def put_in_place(connection: sqlite3.Connection, number: int) -> None:
    """Write anew where a setting is found, after it was changed."""
    connection.execute("DELETE FROM places WHERE setting = ?", (number,))
    connection.execute(f"{_FOUND} WHERE number = ?", (number,))
