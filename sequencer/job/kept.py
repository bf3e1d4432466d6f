"""Marks that stay: what was printed, and may be chalked on wood, keeps its letter."""

from __future__ import annotations

import json
import tomllib
from collections.abc import Collection, Mapping, Sequence
from hashlib import sha256
from itertools import groupby
from typing import Any

from msgspec import Struct

from sequencer.job.schema import Job
from sequencer.records import replace

Entry = tuple[str, tuple[str, ...]]
"""A `[[door]]` by what it says (`doors_of`), and the marks of its leaves, those of copies too."""


class Printed(Struct, frozen=True):
    """One file's doors as they were last printed, in its order, and those that it had before;
    `others` are marks that were printed of other files of the batch."""

    doors: tuple[Entry, ...] = ()
    gone: tuple[Entry, ...] = ()
    others: frozenset[str] = frozenset()

    @property
    def own(self) -> frozenset[str]:
        return frozenset(mark for _, marks in (*self.doors, *self.gone) for mark in marks)

    @property
    def taken(self) -> frozenset[str]:
        """What no new door is given."""
        return self.own | self.others

    def again(self, doors: Sequence[str]) -> list[tuple[str, ...]]:
        """The marks that each of a file's doors had. One that says something else by now is the
        door that stood in its place; one that was taken out and is back has its own again."""
        from difflib import SequenceMatcher  # not where nothing was printed

        had: list[tuple[str, ...]] = [()] * len(doors)
        were = [door for door, _ in self.doors]
        alike = SequenceMatcher(None, were, doors, autojunk=False)
        for how, start, stop, first, last in alike.get_opcodes():
            if how == "equal" or (how == "replace" and stop - start == last - first):
                had[first:last] = [marks for _, marks in self.doors[start:stop]]
        gone = self._without({mark for marks in had for mark in marks})
        for at, door in enumerate(doors):
            back = next((entry for entry in gone if not had[at] and entry[0] == door), None)
            if back:
                had[at] = back[1]
                gone.remove(back)
        return had

    def then(self, doors: Sequence[str], job: Job) -> Printed:
        """What is printed now, with all that was before; `doors` are those of the job's text."""
        now = [
            tuple(mark for door in copies for mark in door.marks)
            for _, copies in groupby(job.doors, lambda door: door.where)
        ]
        taken = {mark for marks in now for mark in marks}
        entries = tuple(
            (door, (*marks, *(mark for mark in had if mark not in taken)))
            for door, marks, had in zip(doors, now, self.again(doors), strict=True)
        )
        taken = {mark for _, marks in entries for mark in marks}
        return Printed(entries, tuple(self._without(taken)))

    def _without(self, taken: Collection[str]) -> list[Entry]:
        return [entry for entry in (*self.doors, *self.gone) if not {*entry[1]} & {*taken}]


NOTHING = Printed()


def doors_of(text: str) -> tuple[str, ...]:
    """What each `[[door]]` of a job file says, as a digest; none where it is no TOML.

    >>> one, same, other = doors_of('door = [{a = 1, mark = "A"}, {count = 2, a = 1}, {a = 2}]')
    >>> one == same != other
    True
    """
    try:
        doors: Any = tomllib.loads(text.removeprefix("\ufeff")).get("door")
    except (tomllib.TOMLDecodeError, RecursionError):
        return ()
    tables = [door for door in doors if isinstance(door, dict)] if isinstance(doors, list) else []
    said = [
        {key: value for key, value in door.items() if key not in ("mark", "count")}
        for door in tables
    ]
    return tuple(
        sha256(json.dumps(each, sort_keys=True, default=str).encode()).hexdigest()[:16]
        for each in said
    )


def of_files(known: Mapping[str, Printed], texts: Mapping[str, str]) -> Mapping[str, Printed]:
    """What was printed of each file of a batch, by its name and text. Where there is one alone,
    then and now, it may be called otherwise; of files that are not in the batch nothing is kept."""
    if len(known) == len(texts) == 1 and not known.keys() & texts.keys():
        (name, text), (printed,) = *texts.items(), known.values()
        if {door for door, _ in printed.doors} & {*doors_of(text)}:
            return {name: printed}
    owned = {name: printed.own for name, printed in known.items() if name in texts}
    return {
        name: replace(
            known.get(name, NOTHING),
            others=frozenset[str]().union(*(own for other, own in owned.items() if other != name)),
        )
        for name in texts
    }


def as_data(printed: Mapping[str, Printed]) -> dict[str, Any]:
    """What JSON can say of it."""
    return {name: {"doors": each.doors, "gone": each.gone} for name, each in printed.items()}


def from_data(value: Any) -> dict[str, Printed]:
    """The same again. What is no such table is passed over: what was kept earlier has none."""
    try:
        return {
            str(name): Printed(_entries(each["doors"]), _entries(each["gone"]))
            for name, each in value.items()
        }
    except (AttributeError, KeyError, TypeError, ValueError):
        return {}


def _entries(value: Any) -> tuple[Entry, ...]:
    return tuple((str(door), tuple(str(mark) for mark in marks)) for door, marks in value)
