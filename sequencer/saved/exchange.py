"""Saved settings as a JSON text, to carry them to another machine or keep them apart."""

from __future__ import annotations

import json
from collections.abc import Callable, Iterable, Mapping
from typing import Any

from msgspec import Struct

from sequencer.errors import Fault, InputError, Refusal
from sequencer.facts import Fact, stores
from sequencer.records import replace
from sequencer.saved import evidence
from sequencer.saved.entry import Entry, from_data, to_data
from sequencer.saved.evidence import Noted, Reading

SCHEMA = "sequencer-saved/1"


class Merged(Struct, frozen=True):
    """What an import did: `added` numbers; `joined` settings that were there and got a job more;
    `kept` that differ here and stayed, `taken` that differ here and were replaced; `differed` are
    both of these, each as it was here and as it came."""

    added: tuple[int, ...] = ()
    joined: tuple[int, ...] = ()
    kept: tuple[int, ...] = ()
    taken: tuple[int, ...] = ()
    differed: tuple[tuple[Entry, Entry], ...] = ()


Ask = Callable[[Entry, Entry], bool]
"""Whether the setting that is there (first) is to be replaced by the other (second)."""


def to_json(entries: Iterable[Entry], found: Iterable[Reading | Noted] = ()) -> str:
    """One line a setting, a reading or another finding; numbers belong to a store and are left
    out."""
    lots: dict[str, list[str]] = {"settings": [], "readings": [], "noted": []}
    for entry in entries:
        lots["settings"].append(json.dumps(to_data(entry), ensure_ascii=False))
    for each in found:
        lot = "readings" if isinstance(each, Reading) else "noted"
        lots[lot].append(json.dumps(evidence.to_data(each), ensure_ascii=False))
    settings = lots.pop("settings")
    rest = "".join(f', "{name}": [\n{_lines(lot)}\n]' for name, lot in lots.items() if lot)
    return f'{{"schema": "{SCHEMA}", "settings": [\n{_lines(settings)}\n]{rest}}}\n'


def _lines(lot: Iterable[str]) -> str:
    return ",\n".join(lot)


def found_in(text: str, file: str) -> tuple[Reading | Noted, ...]:
    """Readings and other findings of an export whose settings are sound. Raises `InputError`."""
    data: Any = json.loads(text)
    found: list[Reading | Noted] = []
    faults: list[Fault] = []
    readers: tuple[tuple[str, Callable[[Any], Reading | Noted]], ...] = (
        ("readings", evidence.reading_of),
        ("noted", evidence.noted_of),
    )
    for name, read in readers:
        lot = data.get(name, [])
        for place, each in enumerate(lot if isinstance(lot, list) else [None], 1):
            try:
                found.append(read(each))
            except (KeyError, TypeError, ValueError, ZeroDivisionError):
                faults.append(Fault(file, 0, 0, stores.NO_READING(place=place)))
    if faults:
        raise InputError(tuple(faults))
    return tuple(found)


def from_json(text: str, file: str) -> tuple[Entry, ...]:
    """The settings of an export. Raises `InputError` with every fault; then nothing is imported."""
    try:
        data: Any = json.loads(text)
    except json.JSONDecodeError as error:
        raise InputError((Fault(file, error.lineno, error.colno, stores.NOT_JSON()),)) from None
    except (ValueError, RecursionError):
        raise InputError((Fault(file, 0, 0, stores.NOT_JSON()),)) from None
    if not isinstance(data, dict) or data.get("schema") != SCHEMA:
        other = stores.NO_EXPORT(schema=SCHEMA)
        raise InputError((Fault(file, 0, 0, other, stores.EXPORT_WRITES()),))
    settings = data.get("settings")
    if not isinstance(settings, list):
        raise InputError((Fault(file, 0, 0, stores.NO_LIST()),))
    found: list[Entry] = []
    faults: list[Fault] = []
    for place, setting in enumerate(settings, 1):
        try:
            found.append(from_data(setting))
        except Refusal as error:
            faults += [_fault(file, place, what) for what in error.says if isinstance(what, Fact)]
    uids = [entry.uid for entry in found]
    faults += [
        _fault(file, place, stores.NO_UID())
        for place, uid in enumerate(uids, 1)
        if not uid or uid in uids[: place - 1]
    ]
    if faults:
        raise InputError(tuple(faults))
    return tuple(found)


def _fault(file: str, place: int, what: Fact) -> Fault:
    return Fault(file, 0, 0, stores.IN_SETTING(place=place, what=what))


def difference(known: Entry, entry: Entry) -> tuple[str, ...]:
    """The fields in which two copies of one setting differ, their jobs apart: those are joined."""
    own: Mapping[str, Any] = to_data(replace(known, jobs=()))
    other: Mapping[str, Any] = to_data(replace(entry, jobs=()))
    return tuple(key for key in own if own[key] != other[key])


def conflict(known: Entry, entry: Entry) -> bool:
    """Whether two copies differ in more than names that stand here already."""

    def unnamed(one: Entry) -> Entry:
        bare = tuple(replace(knob, gauge=None) for knob in one.knobs)
        return replace(one, knobs=bare, note="", jobs=(), number=0)

    names_here = replace(joined(known, entry), jobs=known.jobs) == known
    return unnamed(known) != unnamed(entry) or not names_here


def newer(known: Entry, entry: Entry) -> bool:
    """Whether the copy that came was dialled in later than the one that is here."""
    return entry.date > known.date


def joined(kept: Entry, other: Entry) -> Entry:
    """One copy of a setting, with all that a person has named in the other: a gauge where the one
    has none, and what is written to it; a name that cannot stand beside another is written down."""
    gauges = {knob.knob: knob.gauge for knob in other.knobs}
    own = {knob.gauge for knob in kept.knobs}
    lost = [
        f"{gauge.kind} {gauge.name}"
        for knob in kept.knobs
        if (gauge := gauges.get(knob.knob)) and knob.gauge and gauge not in own
    ]
    note = kept.note
    for text in (other.note, *lost):
        if text and text not in note:
            note = f"{note}; {text}" if note else text
    knobs = tuple(replace(knob, gauge=knob.gauge or gauges.get(knob.knob)) for knob in kept.knobs)
    jobs = tuple(dict.fromkeys((*kept.jobs, *other.jobs)))
    return replace(kept, knobs=knobs, note=note, jobs=jobs)
