"""From the store's rows to the frozen shelf that a plan looks in.

Rows stay as they were read until a plan asks for what lies near a number: parsing thousands of
exact numbers would take longer than the plan.
"""

from __future__ import annotations

import sqlite3
from collections.abc import Sequence
from fractions import Fraction
from functools import cache
from typing import Any, cast

from sequencer.job.schema import Gauge, GaugeKind, Saved
from sequencer.job.shelf import NANOMETRES, Pile, Shelf
from sequencer.lengths import Unit, convert

_COLUMNS = (
    "place, number, kerf, unit, value, read, off, gauge_kind, gauge_name, makes, doubted, "
    "cutter, carrier, knob, share"
)


def shelf_of(connection: sqlite3.Connection, saw: str, unit: Unit) -> Shelf:
    """Every setting of the saw, in piles by cutter, carrier, knob and share, each by place."""
    rows = connection.execute(
        f"SELECT {_COLUMNS} FROM settings JOIN knobs ON setting = number WHERE saw = ? "
        "ORDER BY place, number",
        (saw,),
    )
    sorted_in: dict[tuple[str, str, str, str | None], list[tuple[Any, ...]]] = {}
    for row in rows.fetchall():
        sorted_in.setdefault(row[-4:], []).append(row)
    piles = {}
    for (cutter, carrier, knob, share), found in sorted(
        sorted_in.items(), key=lambda item: (*item[0][:3], item[0][3] or "")
    ):
        key = (cutter, carrier, knob, None if share is None else Fraction(share))
        piles[key] = Pile(
            tuple(row[0] for row in found), tuple(row[1] for row in found), tuple(found)
        )

    @cache
    def make(row: Sequence[Any]) -> Saved:
        return _saved(row, unit)

    return Shelf(unit, piles, make)


def place_of(number: Fraction, share: Fraction | None, kerf: Fraction, unit: Unit) -> int:
    """Where a setting stands in its pile."""
    return round(Shelf.place(number, share, kerf) * NANOMETRES[unit])


def _saved(row: Sequence[Any], unit: Unit) -> Saved:
    (
        _, number, kerf, own, value, read, off, gauge_kind, gauge_name, makes, doubted,
        cutter, carrier, knob, share,
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
    )
