"""Many files put into a folder as one: all of them, or what was there before.

They are written beside their places first. A journal, put there by one rename, then says what goes
where: from that moment the new files are the folder's, and whoever comes next finishes what a
killed process left. Two processes wait for each other.
"""

from __future__ import annotations

import json
import os
import re
import time
from collections.abc import Callable, Iterator, Mapping, Sequence, Set
from contextlib import contextmanager, suppress
from hashlib import sha256
from pathlib import Path
from typing import NamedTuple

from sequencer.errors import SurroundingsError
from sequencer.facts import commands

JOURNAL = ".set.json"
PATIENCE = 60
"""Seconds that another process may take to write its files."""

_PART = re.compile(r"\.(.+)\.[0-9]+\.part")


class _Journal(NamedTuple):
    """Which part becomes which file, and which files go."""

    put: dict[str, str]
    gone: list[str]


def put(
    folder: Path,
    files: Mapping[str, bytes],
    gone: Sequence[str],
    look: Callable[[], None] | None = None,
) -> None:
    """Put all files into the folder, and take `gone` ones out of it. `look` is called once nobody
    else writes there, before anything is touched: what it raises leaves all as it was. Raises
    `SurroundingsError` where it cannot be, or where the journal's name is another file's."""
    try:
        folder.mkdir(parents=True, exist_ok=True)
        with _alone(folder):
            _finish(folder)
            if os.path.lexists(folder / JOURNAL):
                raise SurroundingsError(commands.NO_JOURNAL(path=str(folder / JOURNAL)))
            if look is not None:
                look()
            _sweep(folder, {*files, *gone, JOURNAL})
            _put(folder, files, gone)
    except OSError as error:
        raise _unwritable(folder, error) from None


def rewrite(path: Path, text: str) -> None:
    """Put another text into a file that is there: where it is a link, into what that leads to. It
    keeps its mode. Raises `SurroundingsError` where that cannot be."""
    try:
        file = path.resolve(strict=True)
        mode = file.stat().st_mode
        put(file.parent, {file.name: text.encode()}, ())
        file.chmod(mode)
    except OSError as error:
        reason = error.strerror or ""
        raise SurroundingsError(commands.UNWRITABLE(path=str(path), reason=reason)) from None


def finish(folder: Path) -> None:
    """Finish what a killed process left. Raises `SurroundingsError` where that cannot be."""
    if not (folder / JOURNAL).exists():
        return
    try:
        with _alone(folder):
            _finish(folder)
    except OSError as error:
        raise _unwritable(folder, error) from None


def _unwritable(folder: Path, error: OSError) -> SurroundingsError:
    reason = error.strerror or ""
    return SurroundingsError(commands.UNWRITABLE_FOLDER(path=str(folder), reason=reason))


def _put(folder: Path, files: Mapping[str, bytes], gone: Sequence[str]) -> None:
    parts = {name: f".{name}.{os.getpid()}.part" for name in files}
    journal = f".{JOURNAL}.{os.getpid()}.part"
    try:
        for name, part in parts.items():
            if (folder / name).is_dir():
                raise IsADirectoryError(21, os.strerror(21), name)
            _write(folder / part, files[name])
        said = {"put": {part: name for name, part in parts.items()}, "gone": list(gone)}
        _write(folder / journal, json.dumps(said).encode())
        (folder / journal).replace(folder / JOURNAL)
    except BaseException:
        # Interrupted or failed before anything was replaced.
        for part in (*parts.values(), journal):
            with suppress(OSError):
                (folder / part).unlink(missing_ok=True)
        raise
    _finish(folder)


def _write(path: Path, data: bytes) -> None:
    with path.open("wb") as file:
        file.write(data)
        file.flush()
        os.fsync(file.fileno())  # a name is never to stand for what a lost current took away


def _finish(folder: Path) -> None:
    """Do what the journal says, as often as it takes. What is no journal stays."""
    said = _journal(folder / JOURNAL)
    if said is None:
        return
    for part, name in said.put.items():
        with suppress(FileNotFoundError):  # it was done before
            (folder / part).replace(folder / name)
    for name in said.gone:
        (folder / name).unlink(missing_ok=True)
    (folder / JOURNAL).unlink(missing_ok=True)


def _journal(path: Path) -> _Journal | None:
    """`None` where there is none, or a file of this name that this program has not written."""
    try:
        said = json.loads(path.read_bytes())
        found = _Journal({**said["put"]}, [*said["gone"]])
        own = all(_part_of(part) == name for part, name in found.put.items())
        plain = all(Path(name).name == name for name in (*found.put.values(), *found.gone))
    except (FileNotFoundError, ValueError, TypeError, KeyError, RecursionError):
        return None
    return found if own and plain else None


def _part_of(name: str) -> str | None:
    """The file that a part would become; `None` where the name is no part's."""
    found = _PART.fullmatch(name)
    return found and found[1]


def _sweep(folder: Path, names: Set[str]) -> None:
    """Take away what a process left that was killed before it had a journal: of these files alone,
    for somebody else's may be called alike."""
    for path in folder.iterdir():
        if _part_of(path.name) in names:
            path.unlink(missing_ok=True)


@contextmanager
def _alone(folder: Path) -> Iterator[None]:
    """While no other process writes there. The lock dies with its process."""
    lock = _Lock(folder)
    try:
        lock.take()
        yield
    finally:
        lock.leave()


class _Lock:
    """Of the folder itself where the system can lock one; else of a file of its name among the
    system's temporary ones."""

    def __init__(self, folder: Path) -> None:
        self.folder = folder
        self.handle: int | None = None

    def take(self) -> None:
        try:
            import fcntl
        except ImportError:
            self._take_file()
            return
        self.handle = os.open(self.folder, os.O_RDONLY)
        handle = self.handle

        def lock() -> None:
            fcntl.flock(handle, fcntl.LOCK_EX | fcntl.LOCK_NB)

        self._until(lock)

    def _take_file(self) -> None:
        import tempfile

        name = sha256(str(self.folder.resolve()).encode("utf-8", "replace")).hexdigest()[:24]
        path = Path(tempfile.gettempdir()) / f"sequencer-{name}.lock"
        self.handle = os.open(path, os.O_RDWR | os.O_CREAT, 0o600)
        handle = self.handle
        try:
            import msvcrt
        except ImportError:
            return

        def lock() -> None:
            os.lseek(handle, 0, os.SEEK_SET)
            msvcrt.locking(handle, msvcrt.LK_NBLCK, 1)  # type: ignore[attr-defined]  # of Windows

        self._until(lock)

    def _until(self, lock: Callable[[], None]) -> None:
        end = time.monotonic() + PATIENCE
        while True:
            try:
                lock()
            except (BlockingIOError, PermissionError):
                if time.monotonic() > end:
                    told = commands.FOLDER_BUSY(path=str(self.folder))
                    raise SurroundingsError(told) from None
                time.sleep(0.02)
            except OSError:  # a file system without locks
                return
            else:
                return

    def leave(self) -> None:
        if self.handle is not None:
            os.close(self.handle)
            self.handle = None
