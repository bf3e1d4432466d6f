"""Saved settings as lines for people."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction

from sequencer.lengths import Unit, show
from sequencer.saved.entry import Dialled, Entry
from sequencer.saw.names import CARRIERS

_STEP = {"in": Fraction(1, 64), "mm": Fraction(1, 10)}
_HEAD = ("no.", "saw", "cutter", "kerf", "on", "set", "makes", "gauge", "date")


def table(entries: Sequence[Entry]) -> str:
    """All settings, one a line."""
    if not entries:
        return "no saved settings yet: follow a plan, or sequencer setups add"
    rows = [_HEAD, *(_row(entry) for entry in entries)]
    widths = [max(len(row[column]) for row in rows) for column in range(len(_HEAD))]
    return "\n".join(
        "  ".join(cell.ljust(width) for cell, width in zip(row, widths, strict=True)).rstrip()
        for row in rows
    )


def sheet(entry: Entry) -> str:
    """One setting with all that is known of it."""
    lines = [
        f"saved setting {entry.number}: {entry.makes}",
        f"  saw      {entry.saw}",
        f"  cutter   {entry.cutter}, kerf {_say(entry.kerf, entry.unit)}",
        f"  carrier  {CARRIERS[entry.carrier].short}",
    ]
    if entry.doubted:
        lines.append("  kerf to be checked: the cutter was sharpened or changed since")
    lines += [f"  {knob.knob:8} {_knob(knob, entry.unit)}" for knob in entry.knobs]
    lines.append(f"  date     {entry.date}")
    if entry.jobs:
        lines.append(f"  jobs     {', '.join(entry.jobs)}")
    if entry.note:
        lines.append(f"  note     {entry.note}")
    return "\n".join(lines)


def _row(entry: Entry) -> tuple[str, ...]:
    kerf = _say(entry.kerf, entry.unit) + (" ?" if entry.doubted else "")
    setting = ", ".join(f"{knob.knob} {_say(_shown(knob), entry.unit)}" for knob in entry.knobs)
    gauges = ", ".join(str(knob.gauge) for knob in entry.knobs if knob.gauge is not None)
    return (
        str(entry.number), entry.saw, entry.cutter, kerf, CARRIERS[entry.carrier].short, setting,
        entry.makes, gauges, entry.date,
    )  # fmt: skip


def _shown(knob: Dialled) -> Fraction:
    return knob.value if knob.read is None else knob.read


def _knob(knob: Dialled, unit: Unit) -> str:
    said = f"{_say(knob.value, unit)} as computed"
    if knob.read is not None:
        said += f", {_say(knob.read, unit)} as read"
    if knob.measured is not None and knob.target is not None:
        said += f"; {knob.measure or 'measured'} {_say(knob.measured, unit)}"
        said += f" for {_say(knob.target, unit)}"
    return said if knob.gauge is None else f"{said}; {knob.gauge}"


def _say(length: Fraction, unit: Unit) -> str:
    shown = show(length, unit, _STEP[unit])
    return f"{shown.text if shown.exact else shown.decimal} {unit}"
