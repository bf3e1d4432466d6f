"""The process: `sequencer`, or `python -m sequencer`. From the first line to the last flush it ends
by an exit code of the README's table, whatever streams it was given and whatever ends it.

Nothing of the program is imported before that is made sure.
"""

import gc
import os
import signal
import sys
from types import FrameType
from typing import NoReturn

INTERRUPTED, BROKEN = 130, 4


def entry() -> NoReturn:
    """Run the command with the process's arguments and leave with its exit code."""
    try:
        _streams()
        _signals()
        # Nearly all that these commands make they keep to their end: looking for garbage on the
        # way costs a tenth of their time, looking through all of it once more at the end a sixth. A
        # page that is followed may stand for days, and the end closes its store.
        once = sys.argv[1:2] not in (["follow"], ["times"])
        gc.set_threshold(1_000_000 if once else 100_000)
        from sequencer.cli import main

        code = main(sys.argv[1:])
        if once:
            gc.freeze()
    except ImportError as error:
        code = _broken(error)
    except KeyboardInterrupt:  # while the program was loaded, or just as it ended
        _no_signals()
        code = _interrupted()
    _no_signals()
    sys.exit(code)


def _streams() -> None:
    """A closed stream gets a place that leads nowhere, so that no file that is opened later is
    taken for it; writing results to none fails like writing to a full disk."""
    for number, name in enumerate(("stdin", "stdout", "stderr")):
        if getattr(sys, name) is not None:
            continue
        try:
            os.fstat(number)
        except OSError:
            # The lowest free number, which is this one.
            os.open(os.devnull, os.O_WRONLY if name == "stderr" else os.O_RDONLY)
            mode = "r" if name == "stdin" else "w"
            setattr(sys, name, open(number, mode, encoding="utf-8", closefd=False))  # noqa: SIM115


def _signals() -> None:
    """What asks the process to end is an interruption, unless it is to be passed over."""
    for name in ("SIGTERM", "SIGHUP"):
        number = getattr(signal, name, None)
        if number is not None and signal.getsignal(number) == signal.SIG_DFL:
            signal.signal(number, _stop)


def _stop(_number: int, _frame: FrameType | None) -> None:
    raise KeyboardInterrupt


def _no_signals() -> None:
    """The answer stands: nothing changes it any more."""
    for name in ("SIGINT", "SIGTERM", "SIGHUP"):
        number = getattr(signal, name, None)
        if number is not None:
            signal.signal(number, signal.SIG_IGN)


def _interrupted() -> int:
    try:
        from sequencer.cli.console import interrupted

        return interrupted()
    except Exception:  # it was half loaded: the code says it
        return INTERRUPTED


def _broken(error: ImportError) -> int:
    try:
        from sequencer.cli.console import broken

        return broken(error)
    except ImportError:  # so broken that Python's own words are all there is
        sys.stderr.write(f"sequencer: {error}\n")
        return BROKEN


if __name__ == "__main__":
    entry()
