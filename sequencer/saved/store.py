"""The saved settings in one SQLite file, safe against crashes and a second process.

Every change is one transaction. The file is made whole before it gets its name, so that an empty
file with its name is a damaged one and is said so, never taken for a new one.
"""

from __future__ import annotations

import json
import uuid
from collections.abc import Callable, Iterable, Iterator, Mapping
from contextlib import contextmanager
from fractions import Fraction
from pathlib import Path
from types import TracebackType
from typing import TYPE_CHECKING, Literal

from sequencer.errors import UsageError
from sequencer.facts import stores
from sequencer.lengths import Unit
from sequencer.records import replace
from sequencer.saved import evidence, kerfs, opening
from sequencer.saved.entry import (
    Entry,
    as_before,
    faults,
    from_data,
    renewed,
    same_setting,
    to_data,
)
from sequencer.saved.evidence import Noted, Reading
from sequencer.saved.exchange import Ask, Merged, conflict, joined
from sequencer.saved.kerfs import MOST_CUTS, Kerf
from sequencer.saved.rows import insert, read_all
from sequencer.saved.shelving import Owner, shelf_of
from sequencer.saved.tables import put_in_place
from sequencer.saw.fittings import CARRIERS
from sequencer.scales import LATEST, Scale, fit
from sequencer.shelf import Gauge, Shelf

if TYPE_CHECKING:
    from sequencer.plan import Plan


class Store:
    """An open file of saved settings; a context manager. `path` is made if it is not there.

    `now` gives the time for the name of a backup, as `2025-11-25T09-30-00`. Raises
    `SurroundingsError` where the file cannot be used: its leaf `DamagedError`, with what could be
    read, where it is torn. Without `check` damage is found only where it is read.
    """

    def __init__(self, path: Path, now: Callable[[], str], *, check: bool = True) -> None:
        self.path = path
        self._connection = opening.connect(path, now, check=check)

    def __enter__(self) -> Store:
        return self

    def __exit__(
        self,
        kind: type[BaseException] | None,
        error: BaseException | None,
        trace: TracebackType | None,
    ) -> None:
        self.close()

    def close(self) -> None:
        self._connection.close()

    def remember(
        self,
        plan: Plan,
        setup: int,
        *,
        when: str,
        measured: Mapping[str, Fraction] | None = None,
        read: Mapping[str, Fraction] | None = None,
        source: str = "",
    ) -> int | None:
        """Keep what was dialled in at a setup of `plan` whose test cut passed; its number.

        `setup` is the setup's number, `when` the date as `2025-11-25`. `measured` gives, by knob
        (`fence`, `stop`, `jig`, `height`), the measure that passed for the checkpoint of that
        knob, `read` what the knob's scale showed then; knobs left out stood as computed. Lengths
        are in the plan's unit. Remembering the same again adds the job to the setting that is
        there and keeps the newer reading; `None` where the setup has nothing to keep (an end
        squared by eye at a height that any would do).

        With a `source`, the name of the reading that it comes from, it counts once however often it
        is said, and `withdraw` takes it back.
        """
        from sequencer.saved.remember import entry_of

        entry = entry_of(plan, setup, when, measured or {}, read or {})
        if entry is None:
            return None
        with self._changing():
            if source:
                for (number,) in self._connection.execute(
                    "SELECT setting FROM earlier WHERE source = ?", (source,)
                ):
                    return int(number)
            return self._keep(entry, source)

    def withdraw(self, source: str) -> None:
        """Take back what was remembered of a reading: the setting is as it was before, or gone.
        What a person has written to it since stays."""
        with self._changing():
            rows = self._connection.execute(
                "SELECT setting, body FROM earlier WHERE source = ?", (source,)
            ).fetchall()
            self._connection.execute("DELETE FROM earlier WHERE source = ?", (source,))
            for number, body in rows:
                now = next(read_all(self._connection, " WHERE number = ?", (number,)), None)
                if now is None:
                    continue
                if body is not None:
                    self._replace(as_before(from_data(json.loads(body)), now))
                elif not now.note and not any(knob.gauge for knob in now.knobs):
                    self._connection.execute("DELETE FROM settings WHERE number = ?", (number,))

    def note(self, lot: Iterable[Reading | Noted]) -> int:
        """Keep readings, and what else was found; those that are there already count once. How many
        were new."""
        with self._changing():
            return evidence.write(self._connection, lot)

    def unnote(self, uids: Iterable[str]) -> None:
        """Take out readings and findings by their uids."""
        with self._changing():
            evidence.take_out(self._connection, uids)

    def readings(self) -> tuple[Reading, ...]:
        """All readings in the order of their times."""
        with self._looking():
            return tuple(evidence.kept(self._connection, Reading))

    def noted(self, saw: str | None = None) -> tuple[Noted, ...]:
        """All that else was found, of one saw or of all, in the order of its times."""
        where, values = ("", ()) if saw is None else (" WHERE saw = ?", (saw,))
        with self._looking():
            return tuple(evidence.kept(self._connection, Noted, where, values))

    def kerf(
        self, saw: str, cutter: str, sharpened: int, unit: Unit, taken: Fraction | None = None
    ) -> Kerf | None:
        """What readings of walls tell of a cutter's kerf since it was sharpened so often; since it
        was `taken` to be so first, where that is given."""
        with self._looking():
            cuts = evidence.cuts(self._connection, saw, cutter, sharpened, MOST_CUTS, unit)
        return kerfs.fit(kerfs.told(kerfs.since(cuts, taken), unit), unit)

    def kerfs(self, unit: Unit) -> list[tuple[str, str, int, Kerf]]:
        """The same of all: saw, cutter, how often it was sharpened, and the kerf."""
        with self._looking():
            rows = self._connection.execute(
                "SELECT DISTINCT saw, cutter, sharpened FROM readings ORDER BY 1, 2, 3"
            ).fetchall()
        return [
            (saw, cutter, sharpened, kerf)
            for saw, cutter, sharpened in rows
            if (kerf := self.kerf(saw, cutter, sharpened, unit)) is not None
        ]

    def forget_evidence(self, of: Literal["readings", "noted"], number: int) -> None:
        """Take out one reading, or one other finding. Raises `UsageError` where there is none."""
        with self._changing():
            gone = self._connection.execute(f"DELETE FROM {of} WHERE number = ?", (number,))
            if not gone.rowcount:
                raise UsageError(stores.NO_SUCH_EVIDENCE(number=f"{of[0]}{number}"))

    def adopt(self, was: str, now: str) -> int:
        """Say that what was kept under one name of a saw is of another's; how many settings and
        readings that is."""
        with self._changing():
            moved = 0
            for table in ("places", "settings", "readings", "noted"):
                count = self._connection.execute(
                    f"UPDATE {table} SET saw = ? WHERE saw = ?", (now, was)
                ).rowcount
                moved += count if table in ("settings", "readings") else 0
            return moved

    def refit(self, saw: str, carrier: str, was: str, now: str) -> None:
        """A fitting of a carrier got its name: what was made with it is found under that."""
        with self._changing():
            for table in ("places", "settings", "readings"):
                self._connection.execute(
                    f"UPDATE {table} SET made_with = ? WHERE saw = ? AND carrier = ? "
                    "AND made_with = ?",
                    (now, saw, carrier, was),
                )

    def scales(self) -> tuple[Unit, list[tuple[str, Scale, Fraction]]]:
        """What is known of every scale, by saws, each with its cutter's kerf; in the unit of most
        readings."""
        with self._looking():
            rows = self._connection.execute(
                "SELECT DISTINCT saw, made_with, cutter, carrier, knob FROM readings "
                "ORDER BY saw, cutter, carrier, knob"
            ).fetchall()
            units = self._connection.execute(
                "SELECT unit FROM readings GROUP BY unit ORDER BY count(*) DESC LIMIT 1"
            ).fetchone()
            unit: Unit = "mm" if units == ("mm",) else "in"
            found: list[tuple[str, Scale, Fraction]] = []
            for saw, made_with, cutter, carrier, knob in rows:
                of = (saw, made_with, cutter, carrier, knob)
                seen = evidence.latest(self._connection, of, LATEST, unit)
                scale = fit(cutter, carrier, knob, seen, unit)
                if scale is not None:
                    whose = f"{saw}, {made_with}" if made_with else saw
                    found.append((whose, scale, Fraction(str(seen[-1].kerf))))
        return unit, found

    def saws(self) -> Mapping[str, int]:
        """How many settings and readings are kept under each name of a saw."""
        with self._looking():
            return dict(
                self._connection.execute(
                    "SELECT saw, count(*) FROM (SELECT saw FROM settings UNION ALL "
                    "SELECT saw FROM readings) GROUP BY saw ORDER BY saw"
                ).fetchall()
            )

    def add(self, entry: Entry) -> int:
        """Keep a new setting; its number. Raises `UsageError` where it is no sound one."""
        wrong = faults(entry)
        if wrong:
            raise UsageError(*wrong)
        with self._changing():
            return insert(self._connection, _named(entry))

    def entries(self) -> tuple[Entry, ...]:
        """All settings by their numbers."""
        with self._looking():
            return tuple(read_all(self._connection))

    def likely(self, saw: str, cutters: Iterable[str]) -> Mapping[str, int]:
        """Other names of saws under which settings with one of the cutters are kept, each with how
        many settings and readings that is: a saw that was renamed, or another one."""
        names = tuple(cutters)
        marks = ", ".join("?" * len(names))
        with self._looking():
            rows = self._connection.execute(
                f"SELECT DISTINCT saw FROM settings WHERE saw <> ? AND cutter IN ({marks})",
                (saw, *names),
            ).fetchall()
        found = self.saws()
        return {name: found[name] for (name,) in sorted(rows)}

    def shelf(self, owner: Owner | str, unit: Unit) -> Shelf:
        """The settings of one saw as they are now, for a plan in `unit`; good for as long as it is
        kept, also when the store is closed or changed."""
        owner = Owner(owner) if isinstance(owner, str) else owner
        return shelf_of(self.path, owner, unit, opening.told(self.path))

    def entry(self, number: int) -> Entry:
        """One setting. Raises `UsageError` where there is none of that number."""
        with self._looking():
            return self._entry(number)

    def annotate(self, number: int, note: str) -> None:
        """Put `note` in place of the setting's note."""
        with self._changing():
            self._entry(number)
            self._connection.execute(
                "UPDATE settings SET note = ? WHERE number = ?", (note, number)
            )

    def name_gauge(self, number: int, gauge: Gauge | None, knob: str | None = None) -> None:
        """Say what sets a knob of the setting (without `knob`: its guide) again, or that nothing
        does any more."""
        with self._changing():
            entry = self._entry(number)
            knob = knob or CARRIERS[entry.carrier].knob
            if knob not in [dialled.knob for dialled in entry.knobs]:
                has = tuple(dialled.knob for dialled in entry.knobs)
                raise UsageError(stores.NO_KNOB(number=number, knob=knob, has=has))
            self._connection.execute(
                "UPDATE knobs SET gauge_kind = ?, gauge_name = ? WHERE setting = ? AND knob = ?",
                (gauge and gauge.kind, gauge and gauge.name, number, knob),
            )
            put_in_place(self._connection, number)

    def forget(self, number: int) -> Entry:
        """Take a setting out; what it was. Its number is not given again."""
        with self._changing():
            entry = self._entry(number)
            self._connection.execute("DELETE FROM settings WHERE number = ?", (number,))
        return entry

    def doubt(self, cutter: str, doubted: bool) -> int:
        """Mark every setting of a cutter that was sharpened or changed as one whose kerf is to be
        checked, or lift the mark; how many were marked anew."""
        with self._changing():
            values = (doubted, cutter, doubted)
            where = "SET doubted = ? WHERE cutter = ? AND doubted <> ?"
            self._connection.execute(f"UPDATE places {where}", values)
            return self._connection.execute(f"UPDATE settings {where}", values).rowcount

    def merge(
        self, entries: Iterable[Entry], ask: Ask, found: Iterable[Reading | Noted] = ()
    ) -> Merged:
        """Take in settings of an export, and what else was found: all of it or, where something
        fails, nothing. Where a setting is here already its jobs are joined; where it differs
        otherwise `ask` says which copy's numbers stand. What a person has named stays of both."""
        added, more, kept, taken = [], [], [], []
        # Asked before anything is locked: a person may take a minute to answer.
        entries = tuple(entries)
        here = {entry.uid: entry for entry in self.entries()}
        differed = tuple(
            (here[entry.uid], entry)
            for entry in entries
            if entry.uid in here and conflict(here[entry.uid], entry)
        )
        answers = {entry.uid: ask(known, entry) for known, entry in differed}
        with self._changing():
            here = {entry.uid: entry for entry in read_all(self._connection)}
            for entry in entries:
                known = here.get(entry.uid)
                if known is None:
                    added.append(insert(self._connection, replace(entry, number=0)))
                    continue
                take = answers.get(entry.uid, False)
                merged = joined(entry, known) if take else joined(known, entry)
                jobs = tuple(dict.fromkeys((*known.jobs, *entry.jobs)))
                merged = replace(merged, number=known.number, jobs=jobs)
                if merged != known:
                    self._replace(merged)
                if take:
                    taken.append(known.number)
                elif entry.uid in answers:
                    kept.append(known.number)
                elif jobs != known.jobs:
                    more.append(known.number)
            evidence.write(self._connection, found)
        return Merged(tuple(added), tuple(more), tuple(kept), tuple(taken), differed)

    def _entry(self, number: int) -> Entry:
        for found in read_all(self._connection, " WHERE number = ?", (number,)):
            return found
        raise UsageError(stores.NO_SUCH(number=number))

    def _keep(self, entry: Entry, source: str = "") -> int:
        """A new setting, or the one that is there with the newer readings and one job more; what it
        was before is kept by the `source`."""

        def before(number: int, known: Entry | None) -> int:
            if source:
                body = None if known is None else json.dumps(to_data(known))
                self._connection.execute(
                    "INSERT INTO earlier VALUES (?, ?, ?)", (source, number, body)
                )
            return number

        where = " WHERE saw = ? AND cutter = ? AND carrier = ?"
        for known in read_all(self._connection, where, (entry.saw, entry.cutter, entry.carrier)):
            if same_setting(known, entry):
                self._replace(renewed(known, entry))
                return before(known.number, known)
        return before(insert(self._connection, _named(entry)), None)

    def _replace(self, entry: Entry) -> None:
        self._connection.execute("DELETE FROM settings WHERE number = ?", (entry.number,))
        insert(self._connection, entry)

    @contextmanager
    def _looking(self) -> Iterator[None]:
        """One state of the file, whatever another process does meanwhile."""
        with opening.told(self.path):
            self._connection.execute("BEGIN")
            try:
                yield
            finally:
                self._connection.execute("COMMIT")

    @contextmanager
    def _changing(self) -> Iterator[None]:
        """One transaction: all of it or nothing, and no other process in between."""
        with opening.told(self.path):
            self._connection.execute("BEGIN IMMEDIATE")
            try:
                yield
            except BaseException:
                self._connection.execute("ROLLBACK")
                raise
            self._connection.execute("COMMIT")


def _named(entry: Entry) -> Entry:
    return replace(entry, uid=entry.uid or uuid.uuid4().hex)
