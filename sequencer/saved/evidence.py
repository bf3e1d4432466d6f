"""Readings, and what else was measured or timed, as they are kept: rows and back.

A reading is what a scale is known by. It keeps the number wanted, what the scale showed, and what
came out; nothing that follows from them.
"""

from __future__ import annotations

import sqlite3
from collections.abc import Iterable, Iterator, Mapping, Sequence
from fractions import Fraction
from typing import Any, TypeVar, cast

from msgspec import Struct

from sequencer.lengths import Unit, convert
from sequencer.saved.kerfs import Cut
from sequencer.saw.measures import BETWEEN, TO_FAR, Measure
from sequencer.scales import Observation

TELLS_KERF = frozenset(what.value for what in (*BETWEEN, *TO_FAR))
"""Measures to a far wall, by name."""

TIME = "time"
"""Of what is noted, minutes: the key of a shop file's minutes is its name."""


class Reading(Struct, frozen=True):
    """One reading at the saw, lengths in its own `unit`. A knob that was wanted at `wanted` had its
    scale at `shown`; the measure, `planned` at that number, came out `measured`, and changes by
    `per_unit` with the knob. `at` is the time as `2025-11-25T14:03:20`; `uid` the same wherever it
    is copied to, `number` what one store calls it."""

    uid: str
    at: str
    job: str
    saw: str
    made_with: str
    cutter: str
    sharpened: int
    carrier: str
    knob: str
    kerf: Fraction
    unit: Unit
    wanted: Fraction
    shown: Fraction
    measure: str
    planned: Fraction
    measured: Fraction
    per_unit: Fraction
    tool: str = ""
    good: bool = True
    number: int = 0

    @property
    def stood(self) -> Fraction:
        """Where the knob really stood."""
        return self.wanted + (self.measured - self.planned) / self.per_unit

    def seen(self, unit: Unit) -> Observation:
        """What a scale is told by."""

        def own(value: Fraction) -> float:
            return float(convert(value, self.unit, unit))

        kerf = 0.0 if self.knob == "height" else own(self.kerf)
        return Observation(self.at, own(self.stood), own(self.shown), kerf, self.job)


class Noted(Struct, frozen=True):
    """What else was found in a job: `what` is a kerf, a thickness, a slot, an opening (`planned`
    before, now `value`), or the minutes that something took; `name` says of what."""

    uid: str
    at: str
    job: str
    saw: str
    what: str
    name: str
    planned: Fraction
    value: Fraction
    unit: Unit
    belongs: str = ""
    """To which job it belongs, as `job.identity.whole` tells it; empty where that is not known."""
    number: int = 0


_READING = (
    "number", "uid", "at", "job", "saw", "made_with", "cutter", "sharpened", "carrier", "knob",
    "kerf", "unit", "wanted", "shown", "measure", "planned", "measured", "per_unit", "tool", "good",
)  # fmt: skip
_NOTED = ("number", "uid", "at", "job", "saw", "what", "name", "planned", "value", "unit",
          "belongs")  # fmt: skip
_TABLES: Mapping[type, tuple[str, Sequence[str]]] = {
    Reading: ("readings", _READING),
    Noted: ("noted", _NOTED),
}
Kept = TypeVar("Kept", Reading, Noted)
_EXACT = {"kerf", "wanted", "shown", "planned", "measured", "per_unit", "value"}


def write(connection: sqlite3.Connection, lot: Iterable[Reading | Noted]) -> int:
    """Write those that are not there yet; how many these were."""
    written = 0
    for each in lot:
        table, _ = _TABLES[type(each)]
        data = to_data(each)
        places = ", ".join("?" * len(data))
        written += connection.execute(
            f"INSERT OR IGNORE INTO {table} ({', '.join(data)}) VALUES ({places})",
            tuple(data.values()),
        ).rowcount
    return written


def take_out(connection: sqlite3.Connection, uids: Iterable[str]) -> None:
    """What was taken back at the saw."""
    for uid in uids:
        for table, _ in _TABLES.values():
            connection.execute(f"DELETE FROM {table} WHERE uid = ?", (uid,))


def kept(
    connection: sqlite3.Connection,
    kind: type[Kept],
    where: str = "",
    values: Sequence[object] = (),
) -> Iterator[Kept]:
    """All of a kind in the order of their times. `where` restricts them."""
    table, columns = _TABLES[kind]
    rows = connection.execute(
        f"SELECT {', '.join(columns)} FROM {table}{where} ORDER BY at, number", values
    )
    for row in rows.fetchall():
        yield kind(**_read(columns, row))


def latest(
    connection: sqlite3.Connection, scale: Sequence[str], most: int, unit: Unit
) -> list[Observation]:
    """The last readings of one scale (saw, fittings, cutter, carrier, knob), the latest last."""
    rows = connection.execute(
        "SELECT at, job, kerf, unit, wanted, shown, planned, measured, per_unit FROM readings "
        "WHERE saw = ? AND made_with = ? AND cutter = ? AND carrier = ? AND knob = ? "
        "ORDER BY at DESC, number DESC LIMIT ?",
        (*scale, most),
    ).fetchall()
    found: list[Observation] = []
    for at, job, kerf, own, wanted, shown, planned, measured, per_unit in reversed(rows):
        times = 1.0 if own == unit else float(convert(Fraction(1), cast(Unit, own), unit))
        off = (_real(measured) - _real(planned)) / _real(per_unit)
        wide = 0.0 if scale[-1] == "height" else _real(kerf)
        stood, at_scale = times * (_real(wanted) + off), times * _real(shown)
        found.append(Observation(at, stood, at_scale, times * wide, job))
    return found


def cuts(
    connection: sqlite3.Connection, saw: str, cutter: str, sharpened: int, most: int, unit: Unit
) -> list[Cut]:
    """The last readings of a cutter's walls since it was sharpened so often, the latest last."""
    rows = connection.execute(
        "SELECT at, job, made_with, carrier, knob, unit, kerf, wanted, shown, measure, planned, "
        "measured, per_unit, tool FROM readings WHERE saw = ? AND cutter = ? AND sharpened = ? "
        "AND knob <> 'height' ORDER BY at DESC, number DESC LIMIT ?",
        (saw, cutter, sharpened, most),
    ).fetchall()
    # Most jobs cut no wall that tells it; exact numbers take their time.
    if not any(row[9].partition("/")[0] in TELLS_KERF for row in rows):
        return []
    found: list[Cut] = []
    for row in reversed(rows):
        at, job, made_with, carrier, knob, own, *numbers = row
        kerf, wanted, shown, measure, planned, measured, per_unit, tool = numbers
        times = 1.0 if own == unit else float(convert(Fraction(1), cast(Unit, own), unit))
        try:
            what = Measure.parse(measure)
        except ValueError:
            continue  # a name that a person gave it
        found.append(
            Cut(
                at, job, (made_with, carrier, knob), times * _real(kerf), times * _real(wanted),
                times * _real(shown), what, times * _real(planned), times * _real(measured),
                _real(per_unit), tool,
            )
        )  # fmt: skip
    return found


def to_data(each: Reading | Noted) -> dict[str, Any]:
    """As plain data for JSON, its number left out."""
    _, columns = _TABLES[type(each)]
    return {column: _plain(getattr(each, column)) for column in columns[1:]}


def reading_of(data: dict[str, Any]) -> Reading:
    """A reading again. Raises `KeyError`, `TypeError` or `ValueError` where it is none."""
    found = Reading(**_read(_READING[1:], [data[column] for column in _READING[1:]]))
    if not found.per_unit or found.unit not in ("in", "mm"):
        raise ValueError(found.uid)
    return found


def noted_of(data: dict[str, Any]) -> Noted:
    """The same of what else was noted."""
    data = {"belongs": "", **data}  # exports from before it was kept
    return Noted(**_read(_NOTED[1:], [data[column] for column in _NOTED[1:]]))


def _real(text: str) -> float:
    """What a scale is told by needs no more than this; exact numbers take their time."""
    over, _, under = text.partition("/")
    return int(over) / int(under or 1)


def _plain(value: object) -> object:
    return str(value) if isinstance(value, Fraction) else value


def _read(columns: Sequence[str], row: Sequence[Any]) -> dict[str, Any]:
    found = dict(zip(columns, row, strict=True))
    for column in _EXACT & found.keys():
        found[column] = Fraction(found[column])
    if "good" in found:
        found["good"] = bool(found["good"])
    return found
