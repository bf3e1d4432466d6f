"""What happened at the saw, on disk: an append-only table of events in SQLite.

An event is acknowledged only after its commit has reached the disk (WAL, full sync). Its id is made
by the page, so the same tap sent twice counts once. Nothing is ever changed or deleted; what was
undone stays, with the undo after it.
"""

from __future__ import annotations

import json
import os
import secrets
import sqlite3
from collections.abc import Iterable
from pathlib import Path
from typing import Any

from msgspec import Struct

from sequencer.errors import SurroundingsError
from sequencer.facts import follows

SCHEMA = 1
_TABLES = """
create table if not exists facts (name text primary key, value text not null) strict;
create table if not exists bases (digest text primary key, body text not null) strict;
create table if not exists plans (key text primary key, body text not null) strict;
create table if not exists events (
    seq integer primary key autoincrement,
    id text not null unique,
    at integer not null,
    body text not null
) strict;
create trigger if not exists events_stay before update on events
    begin select raise(abort, 'events are never changed'); end;
create trigger if not exists events_remain before delete on events
    begin select raise(abort, 'events are never deleted'); end;
"""


class Event(Struct, frozen=True):
    """One tap. `id` is the page's, `at` milliseconds since 1970, when it was tapped."""

    id: str
    at: int
    body: dict[str, Any]


class NotSavedError(SurroundingsError):
    """The disk did not take an event: full, or failing. The event is not acknowledged."""


class Store:
    """One file of events. Use from one thread at a time."""

    def __init__(self, path: Path) -> None:
        """Opens the file, or makes it, for its owner alone. Raises `SurroundingsError`."""
        self.path = path
        try:
            path.parent.mkdir(parents=True, exist_ok=True, mode=0o700)
            os.close(os.open(path, os.O_RDWR | os.O_CREAT, 0o600))
            self._db = sqlite3.connect(path, check_same_thread=False, isolation_level=None)
            self._db.execute("pragma journal_mode = wal")
            self._db.execute("pragma synchronous = full")
            self._db.executescript(_TABLES)
            self._others = self._data_version()
            if int(self.fact("schema") or SCHEMA) != SCHEMA:
                raise SurroundingsError(follows.WRITTEN_BY_NEWER(file=str(path)))
            self.put_fact("schema", str(SCHEMA))
        except (OSError, sqlite3.Error) as error:
            reason = getattr(error, "strerror", None) or str(error)
            raise SurroundingsError(follows.NOT_OPENED(file=str(path), reason=reason)) from None

    def close(self) -> None:
        self._db.close()

    def token(self) -> str:
        """128 random bits, the same for as long as the file lives: an open page goes on working
        after a restart."""
        token = self.fact("token")
        if token is None:
            token = secrets.token_hex(16)
            self.put_fact("token", token)
        return token

    def append(self, events: Iterable[Event]) -> None:
        """All or none, on disk when this returns. A known id is passed over.

        Raises `NotSavedError`.
        """
        try:
            with self._db:
                self._db.execute("begin immediate")
                for event in events:
                    self._db.execute(
                        "insert or ignore into events (id, at, body) values (?, ?, ?)",
                        (event.id, event.at, json.dumps(event.body, separators=(",", ":"))),
                    )
        except sqlite3.Error as error:
            raise NotSavedError(follows.NOT_SAVED(reason=str(error))) from None

    def events(self, after: int = 0) -> tuple[list[Event], int]:
        """Those past the first `after`, in order, and how many there are by then."""
        rows = self._db.execute(
            "select seq, id, at, body from events where seq > ? order by seq", (after,)
        ).fetchall()
        found = [Event(id_, at, json.loads(body)) for _, id_, at, body in rows]
        return found, rows[-1][0] if rows else after

    def written_elsewhere(self) -> bool:
        """Whether another connection has written to the file since this was last asked."""
        before, self._others = self._others, self._data_version()
        return before != self._others

    def _data_version(self) -> int:
        return int(self._db.execute("pragma data_version").fetchone()[0])

    def knows(self, id_: str) -> bool:
        found = self._db.execute("select 1 from events where id = ?", (id_,)).fetchone()
        return found is not None

    def fact(self, name: str) -> str | None:
        return self._one("select value from facts where name = ?", name)

    def put_fact(self, name: str, value: str) -> None:
        self._put("insert or replace into facts values (?, ?)", name, value)

    def base(self, digest: str) -> str | None:
        return self._one("select body from bases where digest = ?", digest)

    def put_base(self, digest: str, body: str) -> None:
        self._put("insert or ignore into bases values (?, ?)", digest, body)

    def plan(self, key: str) -> str | None:
        """A plan that was worked out before; what is lost here is only time."""
        return self._one("select body from plans where key = ?", key)

    def put_plan(self, key: str, body: str) -> None:
        self._put("insert or replace into plans values (?, ?)", key, body)

    def sound(self) -> str:
        """`ok`, or what SQLite finds wrong with the file."""
        return str(self._db.execute("pragma integrity_check").fetchone()[0])

    def _one(self, question: str, key: str) -> str | None:
        row = self._db.execute(question, (key,)).fetchone()
        return None if row is None else str(row[0])

    def _put(self, statement: str, key: str, value: str) -> None:
        try:
            self._db.execute(statement, (key, value))
        except sqlite3.Error as error:
            raise NotSavedError(follows.NOT_SAVED(reason=str(error))) from None
