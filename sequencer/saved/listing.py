"""Saved settings as lines for people. Carriers, and what is set, go by the names that the command
takes."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from fractions import Fraction

from sequencer.facts import Fact, Length, measures, stores
from sequencer.lengths import Unit
from sequencer.saved.entry import Dialled, Entry
from sequencer.saved.evidence import TIME, Noted, Reading
from sequencer.saved.kerfs import Kerf
from sequencer.scales import Scale
from sequencer.wording import Room
from sequencer.wording.stores import COLUMNS, READING_COLUMNS, ROWS, SCALE_COLUMNS


def table(entries: Sequence[Entry], room: Room) -> str:
    """All settings, one a line."""
    if not entries:
        return room.say(stores.NONE_YET())
    return _table(COLUMNS, [_row(entry, room) for entry in entries], room)


def readings(found: Sequence[Reading | Noted], room: Room) -> str:
    """All readings and what else was found, one a line, by the names that `forget` takes."""
    if not found:
        return room.say(stores.NO_READINGS_YET())
    in_turn = sorted(found, key=lambda each: (each.at, each.uid))
    return _table(READING_COLUMNS, [_evidence(each, room) for each in in_turn], room)


def scales(found: Sequence[tuple[str, Scale, Fraction]], unit: Unit, room: Room) -> str:
    """What is known of each scale, by its saw."""
    if not found:
        return room.say(stores.NO_READINGS_YET())
    rows = [
        (saw, scale.cutter, room.term(f"carrier.{scale.carrier}"), room.term(f"knob.{scale.knob}"),
         str(scale.count), ", ".join(room.say(each) for each in _known(scale, kerf, unit)))
        for saw, scale, kerf in found
    ]  # fmt: skip
    return _table(SCALE_COLUMNS, rows, room)


def kerfs(found: Sequence[tuple[str, str, int, Kerf]], unit: Unit, room: Room) -> list[str]:
    """What cuts tell of each cutter's kerf."""
    lines: list[str] = []
    for saw, cutter, sharpened, kerf in found:
        says = stores.KERF_BY_CUTS(
            saw=saw,
            cutter=cutter,
            kerf=Length(kerf.kerf, unit),
            spread=Length(2 * kerf.sigma, unit),
            n=kerf.count,
        )
        lines.append(
            room.say(stores.KERF_SHARPENED(what=says, times=sharpened) if sharpened else says)
        )
    return lines


def _known(scale: Scale, kerf: Fraction, unit: Unit) -> Iterator[Fact]:
    off = scale.offset + (kerf / 2 if scale.knob != "height" else 0)
    yield stores.SCALE_OFF(by=Length(abs(off), unit), more="much" if off >= 0 else "little")
    yield stores.SPREAD(spread=Length(2 * scale.spread, unit))
    if scale.slope:
        yield stores.SCALE_SLOPE(by=Length(abs(100 * scale.slope), unit))
    if scale.since:
        yield stores.KNOCKED_ON(date=scale.since[:10], by=Length(abs(scale.by), unit))
    if scale.drift:
        yield stores.DRIFTS(by=Length(abs(scale.drift), unit))


def _evidence(each: Reading | Noted, room: Room) -> tuple[str, ...]:
    unit = each.unit
    if isinstance(each, Noted):
        if each.what == TIME:
            what = f"minutes.{each.name}"
            said = room.say(stores.TOOK(what=what, minutes=_tenth(each.value)))
        else:
            planned, value = Length(each.planned, unit), Length(each.value, unit)
            said = room.say(
                stores.FOUND(what=f"measured.{each.what}", planned=planned, value=value)
            )
        name = each.name if each.what == "kerf" else ""
        return (f"n{each.number}", each.at[:10], each.job, name, "", "", said)
    shown = stores.SET_AND_CAME(
        knob=f"knob.{each.knob}",
        wanted=Length(each.wanted, unit),
        shown=Length(each.shown, unit),
    )
    came = stores.CAME_OUT(
        what=measures.MEASURED(form=each.measure),
        planned=Length(each.planned, unit),
        measured=Length(each.measured, unit),
    )
    carrier = room.term(f"carrier.{each.carrier}")
    return (f"r{each.number}", each.at[:10], each.job, each.cutter, carrier, room.say(shown),
            room.say(came))  # fmt: skip


def _tenth(minutes: Fraction) -> Fraction:
    return Fraction(round(10 * minutes), 10)


def _table(heads: Sequence[str], lines: Sequence[tuple[str, ...]], room: Room) -> str:
    rows = [tuple(room.text(head) for head in heads), *lines]
    widths = [max(len(row[column]) for row in rows) for column in range(len(heads))]
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
