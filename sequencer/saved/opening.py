"""Opening the store's file: made whole, checked, brought to the present version, or refused."""

from __future__ import annotations

import os
import shutil
import sqlite3
import tempfile
from collections.abc import Callable
from contextlib import closing
from pathlib import Path
from types import TracebackType

from sequencer.errors import SurroundingsError
from sequencer.facts import Fact, stores
from sequencer.saved import tables
from sequencer.saved.entry import Entry
from sequencer.saved.salvage import salvage

PATIENCE = 20_000
"""Milliseconds that one process waits for another's transaction."""

_HEADER = b"SQLite format 3\0"
_SIDES = ("", "-wal", "-shm")


class DamagedError(SurroundingsError):
    """The file is torn. `read` holds every setting that could be read whole, `lost` counts what
    is known to be missing; the file is as it was."""

    def __init__(self, path: Path, what: Fact, read: tuple[Entry, ...], lost: int) -> None:
        self.path = path
        self.read = read
        self.lost = lost
        backups = sorted(path.parent.glob(f"{path.name}.before-*"))
        lines = [
            stores.COULD_READ_BUT(n=len(read), lost=lost)
            if lost
            else stores.COULD_READ(n=len(read))
        ]
        if read:
            lines.append(stores.EXPORT_SAVES())
        lines += [stores.OLDER_COPY(path=str(backup)) for backup in backups[-1:]]
        lines.append(stores.MOVE_AWAY())
        damage = stores.DAMAGED(path=str(path), what=what)
        super().__init__(damage, stores.DAMAGED_REST(lines=tuple(lines)))


def connect(path: Path, now: Callable[[], str], *, check: bool) -> sqlite3.Connection:
    """A connection to the store at `path`, at the present version. Raises `SurroundingsError`."""
    with told(path):
        try:
            path.parent.mkdir(parents=True, exist_ok=True)
            if not path.exists():
                _create(path)
            _check_header(path)
        except OSError as error:
            why = stores.SYSTEM_SAYS(text=error.strerror or "")
            raise SurroundingsError(stores.UNUSABLE(path=str(path), why=why)) from None
        connection = _connection(path)
        try:
            _check(connection, path, whole=check)
            _migrate(connection, path, now)
        except BaseException:
            connection.close()
            raise
        return connection


class told:  # noqa: N801  used like a function, and more than once
    """Turns what SQLite says into an error that a person can act on."""

    def __init__(self, path: Path) -> None:
        self.path = path

    def __enter__(self) -> None:
        return None

    def __exit__(
        self,
        kind: type[BaseException] | None,
        error: BaseException | None,
        trace: TracebackType | None,
    ) -> None:
        if not isinstance(error, sqlite3.DatabaseError) or isinstance(
            error, sqlite3.IntegrityError
        ):
            return
        said = stores.SYSTEM_SAYS(text=str(error))
        code = getattr(error, "sqlite_errorcode", 0) & 0xFF  # the rest says more of the same
        torn = code in (sqlite3.SQLITE_CORRUPT, sqlite3.SQLITE_NOTADB)
        if torn or not isinstance(error, sqlite3.OperationalError):
            raise damaged(self.path, said) from None
        why = stores.HELD() if code in (sqlite3.SQLITE_BUSY, sqlite3.SQLITE_LOCKED) else said
        raise SurroundingsError(stores.UNUSABLE(path=str(self.path), why=why)) from None


def damaged(path: Path, what: Fact) -> DamagedError:
    """What to raise for a damaged file, with all that can be read out of a copy of it."""
    with tempfile.TemporaryDirectory() as folder:
        copy = Path(folder, "copy")
        for side in _SIDES[:2]:
            if Path(f"{path}{side}").exists():
                shutil.copyfile(f"{path}{side}", f"{copy}{side}")
        read, lost = salvage(copy)
    return DamagedError(path, what, read, lost)


def _create(path: Path) -> None:
    """A new store, whole before it has its name. Another process may be quicker: its file stays."""
    handle, name = tempfile.mkstemp(prefix=f"{path.name}.new-", dir=path.parent)
    os.close(handle)
    try:
        with closing(sqlite3.connect(name, isolation_level=None)) as connection:
            connection.execute("PRAGMA journal_mode = WAL")
            connection.execute("BEGIN IMMEDIATE")
            tables.upgrade(connection)
            connection.execute("COMMIT")
        try:
            os.link(name, path)
        except FileExistsError:
            pass
        except OSError:  # a file system without links
            if not path.exists():
                Path(name).replace(path)
    finally:
        for side in _SIDES:
            Path(f"{name}{side}").unlink(missing_ok=True)


def _check_header(path: Path) -> None:
    if path.is_dir():
        raise SurroundingsError(stores.FOLDER(path=str(path)))
    with path.open("rb") as file:
        start = file.read(len(_HEADER))
    if not start:
        raise damaged(path, stores.EMPTY())
    if start != _HEADER:
        raise damaged(path, stores.OTHER_BEGINNING())


def _connection(path: Path) -> sqlite3.Connection:
    connection = sqlite3.connect(path, isolation_level=None, timeout=PATIENCE / 1000)
    connection.execute("PRAGMA foreign_keys = ON")
    connection.execute("PRAGMA synchronous = FULL")
    return connection


def _check(connection: sqlite3.Connection, path: Path, *, whole: bool) -> None:
    (ours,) = connection.execute("PRAGMA application_id").fetchone()
    if ours != tables.APPLICATION_ID:
        raise SurroundingsError(stores.FOREIGN(path=str(path)))
    found = [row[0] for row in connection.execute("PRAGMA quick_check(1)")] if whole else ["ok"]
    if found != ["ok"]:
        raise damaged(path, stores.SYSTEM_SAYS(text=str(found[0]).splitlines()[-1]))


def _version(connection: sqlite3.Connection) -> int:
    (version,) = connection.execute("PRAGMA user_version").fetchone()
    return int(version)


def _migrate(connection: sqlite3.Connection, path: Path, now: Callable[[], str]) -> None:
    newest = len(tables.VERSIONS)
    version = _version(connection)
    if version > newest:
        raise SurroundingsError(stores.LATER(path=str(path), version=version, known=newest))
    if version == newest:
        return
    connection.execute("BEGIN IMMEDIATE")
    try:
        version = _version(connection)  # another process may have been quicker
        if version < newest:
            _back_up(path, Path(f"{path}.before-v{newest}-{now()}"))
            tables.upgrade(connection)
        connection.execute("COMMIT")
    except BaseException:
        connection.execute("ROLLBACK")
        raise


def _back_up(path: Path, copy: Path) -> None:
    """A copy of the file as last committed. Without a backup nothing is changed: errors go on."""
    with closing(sqlite3.connect(path)) as source, closing(sqlite3.connect(copy)) as target:
        source.backup(target)
