"""Saved settings as a JSON text, to carry them to another machine or keep them apart."""

from __future__ import annotations

import json
from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass, replace
from typing import Any

from sequencer.errors import Fault, InputError, Refusal
from sequencer.facts import Fact, stores
from sequencer.saved.entry import Entry, from_data, to_data

SCHEMA = "sequencer-saved/1"


@dataclass(frozen=True, slots=True)
class Merged:
    """What an import did: `added` numbers; `joined` settings that were there and got a job more;
    `kept` that differ here and stayed, `taken` that differ here and were replaced."""

    added: tuple[int, ...] = ()
    joined: tuple[int, ...] = ()
    kept: tuple[int, ...] = ()
    taken: tuple[int, ...] = ()


Ask = Callable[[Entry, Entry], bool]
"""Whether the setting that is there (first) is to be replaced by the other (second)."""


def to_json(entries: Iterable[Entry]) -> str:
    """One line a setting; numbers belong to a store and are left out."""
    lines = ",\n".join(json.dumps(to_data(entry), ensure_ascii=False) for entry in entries)
    return f'{{"schema": "{SCHEMA}", "settings": [\n{lines}\n]}}\n'


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
