"""Saved settings as lines for people. Carriers, and what is set, go by the names that the command
takes."""

from __future__ import annotations

from collections.abc import Sequence

from sequencer.facts import Fact, Length, measures, stores
from sequencer.lengths import Unit
from sequencer.saved.entry import Dialled, Entry
from sequencer.wording import Room
from sequencer.wording.stores import COLUMNS, ROWS


def table(entries: Sequence[Entry], room: Room) -> str:
    """All settings, one a line."""
    if not entries:
        return room.say(stores.NONE_YET())
    rows = [tuple(room.text(head) for head in COLUMNS), *(_row(entry, room) for entry in entries)]
    widths = [max(len(row[column]) for row in rows) for column in range(len(COLUMNS))]
    return "\n".join(
        "  ".join(cell.ljust(width) for cell, width in zip(row, widths, strict=True)).rstrip()
        for row in rows
    )


def sheet(entry: Entry, room: Room) -> str:
    """One setting with all that is known of it."""
    saw, cutter, carrier, date, jobs, note = (room.text(label) for label in ROWS)
    kerf = Length(entry.kerf, entry.unit)
    rows = [
        (saw, entry.saw),
        (cutter, room.say(stores.CUTTER(cutter=entry.cutter, kerf=kerf))),
        *([("", room.say(stores.IN_DOUBT()))] if entry.doubted else []),
        (carrier, room.term(f"carrier.{entry.carrier}")),
        *(
            (room.term(f"knob.{knob.knob}"), room.say(_number(knob, entry.unit)))
            for knob in entry.knobs
        ),
        (date, entry.date),
        *([(jobs, ", ".join(entry.jobs))] if entry.jobs else []),
        *([(note, entry.note)] if entry.note else []),
    ]
    width = max(len(label) for label, _ in rows)
    title = room.say(stores.TITLE(number=entry.number, makes=entry.makes))
    return "\n".join([title, *(f"  {label.ljust(width)}  {told}" for label, told in rows)])


def _row(entry: Entry, room: Room) -> tuple[str, ...]:
    def length(knob: Dialled) -> str:
        return room.length(Length(knob.value if knob.read is None else knob.read, entry.unit))

    kerf = room.length(Length(entry.kerf, entry.unit)) + (" ?" if entry.doubted else "")
    setting = ", ".join(f"{room.term(f'knob.{knob.knob}')} {length(knob)}" for knob in entry.knobs)
    gauges = ", ".join(room.say(knob.gauge.told) for knob in entry.knobs if knob.gauge is not None)
    carrier = room.term(f"carrier.{entry.carrier}")
    return (
        str(entry.number), entry.saw, entry.cutter, kerf, carrier, setting, entry.makes,
        gauges, entry.date,
    )  # fmt: skip


def _number(knob: Dialled, unit: Unit) -> Fact:
    test = None
    if knob.measured is not None and knob.target is not None:
        target, measured = Length(knob.target, unit), Length(knob.measured, unit)
        test = stores.TEST_UNNAMED(target=target, measured=measured)
        if knob.measure:
            what = measures.MEASURED(form=knob.measure)
            test = stores.TEST(what=what, target=target, measured=measured)
    return stores.NUMBER(
        computed=Length(knob.value, unit),
        read=None if knob.read is None else stores.READ(read=Length(knob.read, unit)),
        test=test,
        gauge=None if knob.gauge is None else stores.GAUGED(gauge=knob.gauge.told),
    )
