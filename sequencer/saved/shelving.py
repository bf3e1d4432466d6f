"""The store as the shelf that a plan looks in: one state of the file, searched as it is asked for.

Reading thousands of settings would take longer than the plan; a few dozen searches by an index do
not. The connection is the shelf's own and lasts as long as the shelf; it holds on to the state that
the file had, whatever is saved meanwhile.
"""

from __future__ import annotations

import sqlite3
from collections.abc import Mapping, Sequence
from contextlib import AbstractContextManager
from fractions import Fraction
from pathlib import Path
from threading import Lock
from typing import Any, cast

from msgspec import Struct, field

from sequencer.lengths import Unit, convert
from sequencer.saved.evidence import latest
from sequencer.scales import LATEST, Scale, fit
from sequencer.shelf import NANOMETRES, Gauge, GaugeKind, Key, Saved, Shelf, place_of

_COLUMNS = (
    "number, kerf, unit, value, read, off, gauge_kind, gauge_name, makes, doubted, sharpened, "
    "cutter, carrier, knob, share, target"
)
_OF_EQUALS_THE_LATEST = (
    "SELECT max(setting) FROM places WHERE saw = ? AND made_with = ? AND cutter = ? "
    "AND carrier = ? AND knob = ? AND share = ? AND place BETWEEN ? AND ? "
    "GROUP BY place, kerf, gauged, doubted"
)
_ONE = f"SELECT {_COLUMNS} FROM settings JOIN knobs ON setting = number WHERE number = ?"


class Owner(Struct, frozen=True):
    """Whose settings are looked for: what the saw is known as, by carrier the fittings that they
    were made with (empty: none that has a name), and how often each cutter has been sharpened."""

    saw: str
    made_with: Mapping[str, str] = field(default_factory=dict)
    sharpened: Mapping[str, int] = field(default_factory=dict)


def shelf_of(path: Path, owner: Owner, unit: Unit, told: AbstractContextManager[None]) -> Shelf:
    """The settings of the saw as the file has them now. `told` turns what SQLite says into errors
    for people."""
    reader = _Reader(path, owner, unit, told)
    return Shelf(
        unit,
        reader.shares(),
        reader.seek,
        reader.latest,
        scale=reader.scale,
        sharpened=owner.sharpened,
    )


def nanometres(number: Fraction, share: Fraction | None, kerf: Fraction, unit: Unit) -> int:
    """The place of a setting, as an index is searched by it."""
    return round(place_of(number, share, kerf) * NANOMETRES[unit])


class _Reader:
    def __init__(
        self, path: Path, owner: Owner, unit: Unit, told: AbstractContextManager[None]
    ) -> None:
        self.owner = owner
        self.saw = owner.saw
        self.unit = unit
        self.told = told
        self.lock = Lock()
        self.made: dict[tuple[int, str], Saved] = {}
        self.scales: dict[Key, Scale | None] = {}
        with told:
            uri = f"{path.absolute().as_uri()}?mode=ro"
            self.connection = sqlite3.connect(
                uri, uri=True, isolation_level=None, check_same_thread=False
            )
            self.connection.execute("BEGIN")  # from its first reading on, one state

    def __del__(self) -> None:
        if hasattr(self, "connection"):
            self.connection.close()

    def shares(self) -> dict[Key, tuple[Fraction | None, ...]]:
        found: dict[Key, tuple[Fraction | None, ...]] = {}
        rows = self._rows(
            "SELECT DISTINCT made_with, cutter, carrier, knob, share FROM places WHERE saw = ? "
            "ORDER BY cutter, carrier, knob, share",
            (self.saw,),
        )
        for made_with, cutter, carrier, knob, share in rows:
            if made_with != self.owner.made_with.get(carrier, ""):
                continue
            key = (cutter, carrier, knob)
            found[key] = (*found.get(key, ()), Fraction(share) if share else None)
        return found

    def seek(self, key: Key, share: Fraction | None, low: int, high: int) -> Sequence[Saved]:
        written = "" if share is None else str(share)
        rows = self._rows(_OF_EQUALS_THE_LATEST, (*self._scale(key), written, low, high))
        return [self._saved(number, key[2]) for (number,) in rows]

    def scale(self, key: Key) -> Scale | None:
        if key not in self.scales:
            with self.lock, self.told:
                seen = latest(self.connection, self._scale(key), LATEST, self.unit)
            self.scales[key] = fit(*key, seen, self.unit)
        return self.scales[key]

    def _scale(self, key: Key) -> tuple[str, ...]:
        cutter, carrier, knob = key
        return (self.saw, self.owner.made_with.get(carrier, ""), cutter, carrier, knob)

    def latest(self, most: int) -> Sequence[Saved]:
        rows = self._rows(
            "SELECT number, knob FROM settings JOIN knobs ON setting = number WHERE saw = ? "
            "ORDER BY number DESC, knob LIMIT ?",
            (self.saw, most),
        )
        return [self._saved(number, knob) for number, knob in reversed(rows)]

    def _rows(self, query: str, values: Sequence[object]) -> list[tuple[Any, ...]]:
        with self.lock, self.told:
            return self.connection.execute(query, values).fetchall()

    def _saved(self, number: int, knob: str) -> Saved:
        if (number, knob) not in self.made:
            (row,) = self._rows(f"{_ONE} AND knob = ?", (number, knob))
            self.made[number, knob] = _made(row, self.unit)
        return self.made[number, knob]


def _made(row: Sequence[Any], unit: Unit) -> Saved:
    (
        number, kerf, own, value, read, off, gauge_kind, gauge_name, makes, doubted, sharpened,
        cutter, carrier, knob, share, target,
    ) = row  # fmt: skip

    def length(text: str) -> Fraction:
        return convert(Fraction(text), cast(Unit, own), unit)

    return Saved(
        number=number,
        cutter=cutter,
        kerf=length(kerf),
        carrier=carrier,
        knob=knob,
        value=length(value),
        read=None if read is None else length(read),
        off=length(off),
        share=None if share is None else Fraction(share),
        gauge=None if gauge_kind is None else Gauge(cast(GaugeKind, gauge_kind), gauge_name),
        makes=makes,
        doubted=bool(doubted),
        sharpened=sharpened,
        tried=target is not None or read is not None,
    )
