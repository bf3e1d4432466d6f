"""What the command shows: results on stdout, all else on stderr, whatever these are."""

from __future__ import annotations

import codecs
import os
import sys
from collections.abc import Iterator
from contextlib import contextmanager, suppress

from sequencer.errors import SurroundingsError
from sequencer.facts import Dialect, Fact, commands
from sequencer.wording import Room

INTERRUPTED = 130


def words_here() -> Dialect:
    """What is spoken where nothing was read yet: the US words where the locale is American."""
    asked = (os.environ.get(name) for name in ("LC_ALL", "LC_MESSAGES", "LANG"))
    return "US" if next(filter(None, asked), "").startswith("en_US") else "UK"


_PLAIN = {
    "″": '"',
    "′": "'",
    "−": "-",
    "…": "...",
    "’": "'",
    "‘": "'",
    "“": '"',
    "”": '"',
    "×": "x",
}
"""What stands in for a character that a screen does not have."""


def _plainly(error: UnicodeError) -> tuple[str, int]:
    """For screens of old code pages: the nearest plain character, else its number."""
    assert isinstance(error, UnicodeEncodeError)
    text = error.object[error.start : error.end]
    plain = "".join(_PLAIN.get(c, c) for c in text)
    return plain.encode(error.encoding, "backslashreplace").decode(error.encoding), error.end


def any_screen() -> None:
    """From now on nothing that is shown is too much for the streams."""
    codecs.register_error("sequencer-plain", _plainly)
    for stream in (sys.stdout, sys.stderr):
        if hasattr(stream, "reconfigure"):
            stream.reconfigure(errors="sequencer-plain")


def show(text: str) -> None:
    """A result."""
    print(printable(text))  # noqa: T201  the console is ours


def tell(text: str, *, red: bool = False) -> None:
    """A message; `red` colours its first line on a terminal that takes colour. Where there is
    nobody to tell, nothing happens."""
    first, line_end, rest = printable(text).partition("\n")
    plain = "NO_COLOR" in os.environ or os.environ.get("TERM") == "dumb"
    with suppress(OSError, ValueError):  # full, gone, or closed
        if red and not plain and sys.stderr is not None and sys.stderr.isatty():
            first = f"\x1b[31m{first}\x1b[39m"
        print(f"{first}{line_end}{rest}", file=sys.stderr, flush=True)  # noqa: T201


def told_all() -> None:
    """All results are out. Raises `OSError` where they cannot be written."""
    if sys.stdout is not None:
        sys.stdout.flush()


def nothing_more() -> None:
    """What is still to be written to stdout goes nowhere: it failed once, and would again when the
    process ends."""
    with suppress(OSError, ValueError, AttributeError):
        nowhere = os.open(os.devnull, os.O_WRONLY)
        os.dup2(nowhere, sys.stdout.fileno())
        os.close(nowhere)


def interrupted(room: Room | None = None) -> int:
    """Says so; returns the exit code."""
    tell((room or Room(words_here())).say(commands.INTERRUPTED()))
    return INTERRUPTED


def no_library(error: ImportError) -> SurroundingsError:
    return SurroundingsError(commands.NO_LIBRARY(name=error.name or str(error)))


def broken(error: ImportError) -> int:
    """Says what is missing of the program itself; returns the exit code."""
    told = Room(words_here()).say(*no_library(error).says)
    tell(f"sequencer: {told}", red=True)
    return SurroundingsError.exit_code


def unwritten(error: OSError) -> SurroundingsError:
    """What failed in the world outside, where nothing nearer to it says more."""
    reason = error.strerror or type(error).__name__
    if error.filename is None:
        return SurroundingsError(commands.NOT_SHOWN(reason=reason))
    return SurroundingsError(commands.FAILED(path=str(error.filename), reason=reason))


@contextmanager
def progress(what: Fact, room: Room) -> Iterator[None]:
    """Say what is going on, on a terminal, once it has taken a second."""
    if sys.stderr is None or not sys.stderr.isatty():
        yield
        return
    from threading import Timer

    timer = Timer(1, tell, (room.say(what),))
    timer.daemon = True
    timer.start()
    try:
        yield
    finally:
        timer.cancel()


def printable(text: str) -> str:
    """Without what would drive the terminal: names come from files."""
    return "".join(c if c.isprintable() or c in "\n\t" else "\ufffd" for c in text)
