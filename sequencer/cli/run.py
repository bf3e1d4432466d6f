"""One command from its arguments to its exit code: whatever goes wrong is said."""

from __future__ import annotations

import argparse
import sys
from collections.abc import Sequence
from pathlib import PurePath

from sequencer.cli import console
from sequencer.cli.parser import parser_of
from sequencer.errors import InputError, InternalError, SequencerError, SurroundingsError
from sequencer.facts import Dialect, Fact, commands
from sequencer.wording import Room

_PACKAGE = PurePath(__file__).parent.parent


def main(arguments: Sequence[str]) -> int:
    """Run one command; returns the exit code."""
    console.any_screen()
    options = argparse.Namespace(words=None, here=console.words_here())
    try:
        return _run(arguments, options)
    except KeyboardInterrupt:
        return console.interrupted(Room(options.words or options.here))


def _run(arguments: Sequence[str], options: argparse.Namespace) -> int:
    try:
        return _outcome(arguments, options)
    except SequencerError as error:
        told = error.words if isinstance(error, InputError) else None
        _complain(error, told or options.words, options.here)
        return error.exit_code


def _outcome(arguments: Sequence[str], options: argparse.Namespace) -> int:
    """The command's exit code. Raises `SequencerError` for all that goes wrong."""
    try:
        code = _code(arguments, options)
        console.told_all()
    except SequencerError:
        _all_out()
        raise
    except BrokenPipeError:  # whoever read our output has gone, and wants no more
        console.nothing_more()
        return SurroundingsError.exit_code
    except OSError as error:
        console.nothing_more()
        raise console.unwritten(error) from error
    except ImportError as error:
        raise console.no_library(error) from error
    except MemoryError:
        raise SurroundingsError(commands.NO_MEMORY()) from None
    except Exception as error:
        if sys.flags.dev_mode:
            raise
        raise InternalError(_own_fault(error)) from error
    return code


def _code(arguments: Sequence[str], options: argparse.Namespace) -> int:
    try:
        parser_of(Room(options.here), *arguments[:1]).parse_args(arguments, options)
    except SystemExit as done:  # the parser has shown its help
        return int(done.code or 0)
    code: int = options.command(options)
    return code


def _all_out() -> None:
    """What was shown before is out, or goes nowhere: there is something else to be told now."""
    try:
        console.told_all()
    except OSError:
        console.nothing_more()


def _own_fault(error: Exception) -> Fact:
    """Where in the program it happened, for whoever mends it."""
    from traceback import extract_tb  # hardly ever asked for

    own = [
        (path, frame.lineno)
        for frame in extract_tb(error.__traceback__)
        if (path := PurePath(frame.filename)).is_relative_to(_PACKAGE)
    ]
    path, line = own[-1]
    place = path.relative_to(_PACKAGE.parent).as_posix()
    what = f"{type(error).__name__}: {error}".rstrip(": ")
    return commands.OWN_FAULT(what=what, place=f"{place}:{line}")


def _complain(error: SequencerError, words: Dialect | None, here: Dialect) -> None:
    from sequencer.wording.complaints import complaint, dialect_of, fault_text

    room = Room(words or dialect_of(error) or here)
    if isinstance(error, InputError):
        for fault in error.faults:
            console.tell(fault_text(fault, room), red=True)
    else:
        console.tell(f"sequencer: {complaint(error, room)}", red=True)
