"""Entries to rows and back."""

from __future__ import annotations

import sqlite3
from collections.abc import Iterator, Sequence
from fractions import Fraction
from typing import Any, cast

from sequencer.lengths import Unit
from sequencer.saved.entry import Dialled, Entry
from sequencer.saved.old import measure_now
from sequencer.saved.shelving import nanometres
from sequencer.saved.tables import put_in_place
from sequencer.shelf import Gauge, GaugeKind

SETTING = (
    "number, uid, saw, cutter, kerf, unit, carrier, makes, date, note, knobs, doubted, made_with, "
    "sharpened"
)
KNOB = (
    "setting, knob, value, read, share, measure, target, measured, per_unit, gauge_kind, gauge_name"
)
_KEPT_BESIDE = "off, place"
"""What is worked out of an entry and kept beside it, to be searched by."""


def insert(connection: sqlite3.Connection, entry: Entry) -> int:
    """Write an entry, under its own number where it has one; its number."""
    cursor = connection.execute(
        f"INSERT INTO settings ({SETTING}) VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?)",
        (
            entry.number or None, entry.uid, entry.saw, entry.cutter, str(entry.kerf), entry.unit,
            entry.carrier, entry.makes, entry.date, entry.note, len(entry.knobs),
            entry.doubted, entry.made_with, entry.sharpened,
        ),
    )  # fmt: skip
    number = int(cursor.lastrowid or 0)
    for knob in entry.knobs:
        connection.execute(
            f"INSERT INTO knobs ({KNOB}, {_KEPT_BESIDE}) "
            "VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?)",
            (
                number, knob.knob, str(knob.value), _text(knob.read), _text(knob.share),
                knob.measure, _text(knob.target), _text(knob.measured), _text(knob.per_unit),
                knob.gauge and knob.gauge.kind, knob.gauge and knob.gauge.name, str(knob.off),
                nanometres(knob.value + knob.off, knob.share, entry.kerf, entry.unit),
            ),
        )  # fmt: skip
    set_jobs(connection, number, entry.jobs)
    put_in_place(connection, number)
    return number


def set_jobs(connection: sqlite3.Connection, number: int, jobs: Sequence[str]) -> None:
    connection.execute("DELETE FROM jobs WHERE setting = ?", (number,))
    connection.executemany(
        "INSERT INTO jobs (setting, place, job) VALUES (?, ?, ?)",
        [(number, place, job) for place, job in enumerate(jobs)],
    )


def read_all(
    connection: sqlite3.Connection, where: str = "", values: Sequence[object] = ()
) -> Iterator[Entry]:
    """Entries by number. `where` restricts the settings."""
    rows = connection.execute(f"SELECT {SETTING} FROM settings{where} ORDER BY number", values)
    for row in rows.fetchall():
        knobs = connection.execute(
            f"SELECT {KNOB} FROM knobs WHERE setting = ? ORDER BY knob", (row[0],)
        ).fetchall()
        jobs = connection.execute(
            "SELECT job FROM jobs WHERE setting = ? ORDER BY place", (row[0],)
        ).fetchall()
        yield entry_of(row, knobs, [job for (job,) in jobs])


def entry_of(row: Sequence[Any], knobs: Sequence[Sequence[Any]], jobs: Sequence[str]) -> Entry:
    """One entry of its rows. Raises `ValueError` where a number in them is none or a knob
    is missing."""
    number, uid, saw, cutter, kerf, unit, carrier, makes, date, note, count, doubted = row[:12]
    made_with, sharpened = row[12:] or ("", 0)  # a torn file may be older than these
    if count != len(knobs):
        raise ValueError(f"{count} knobs are said to be there, {len(knobs)} are")
    return Entry(
        saw=saw,
        cutter=cutter,
        kerf=Fraction(kerf),
        unit=cast(Unit, unit),
        carrier=carrier,
        knobs=tuple(dialled(knob[1:]) for knob in knobs),
        makes=makes,
        date=date,
        jobs=tuple(jobs),
        note=note,
        doubted=bool(doubted),
        uid=uid,
        number=number,
        made_with=made_with,
        sharpened=int(sharpened),
    )


def dialled(row: Sequence[Any]) -> Dialled:
    knob, value, read, share, measure, target, measured, per_unit, kind, name = row
    return Dialled(
        knob=knob,
        value=Fraction(value),
        read=_number(read),
        share=_number(share),
        measure=measure_now(measure),
        target=_number(target),
        measured=_number(measured),
        per_unit=_number(per_unit),
        gauge=None if kind is None else Gauge(cast(GaugeKind, kind), name),
    )


def _text(value: Fraction | None) -> str | None:
    return None if value is None else str(value)


def _number(text: str | None) -> Fraction | None:
    return None if text is None else Fraction(text)
