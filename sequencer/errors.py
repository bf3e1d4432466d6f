"""What can go wrong, as data: one base class, one leaf for each exit code.

The command line turns an error into its message and its exit code; nothing else does.
"""

from __future__ import annotations

import dataclasses

from sequencer.facts import Dialect, Fact


class SequencerError(Exception):
    """Base of every error that a user may see: what it says, as facts. The words are the wording
    room's; `str` is for traces and tests."""

    exit_code = 1

    def __init__(self, *says: Fact) -> None:
        self.says = says
        super().__init__("\n".join(str(each) for each in says))


class Refusal(SequencerError):
    """A plan cannot be made as asked: unsafe or impossible. Nothing to be cut from is printed."""

    exit_code = 1


class UsageError(SequencerError):
    """The command was called wrongly."""

    exit_code = 2


class SurroundingsError(SequencerError):
    """Font, port, permission or system library failed: nothing the user wrote is wrong."""

    exit_code = 4


class InternalError(SequencerError):
    """The program contradicts itself; the message says where. Nothing is printed to cut from."""

    exit_code = 1


class Unsupported(InternalError):
    """A piece does not bear, or has nothing to stand on, where the plan would have it sawn. It
    rules out a way of cutting that is only tried."""


@dataclasses.dataclass(frozen=True, slots=True)
class Fault:
    """One thing wrong in one place of one file.

    `line` and `column` count from 1 (0: the whole file); `text` is the line as written;
    `hint` says how to write it; `key` is the dotted name of what it is about, where it is one.
    """

    file: str
    line: int
    column: int
    message: Fact
    hint: Fact | None = None
    text: str = ""
    key: str = dataclasses.field(default="", compare=False)

    def __str__(self) -> str:
        """`file:line:column: message`, the line with a caret under the place, and the hint: facts
        as they are, for traces and tests.

        >>> from sequencer.facts import files
        >>> print(Fault("a.toml", 2, 9, files.NO_OPENING(), text="width = 3"))
        a.toml:2:9: file.no-opening()
            width = 3
                    ^
        """
        place = f"{self.file}:{self.line}:{self.column}" if self.line else self.file
        lines = [f"{place}: {self.message}"]
        if self.text:
            indent = "".join("\t" if c == "\t" else " " for c in self.text[: self.column - 1])
            lines += [f"    {self.text}", f"    {indent}^"]
        if self.hint:
            lines.append(f"    {self.hint}")
        return "\n".join(lines)


class InputError(SequencerError):
    """A file is wrong: all its faults at once, in the order of their places; `words` are those
    of whoever wrote it, where the file says."""

    exit_code = 3

    def __init__(self, faults: tuple[Fault, ...], words: Dialect | None = None) -> None:
        self.faults = faults
        self.words = words
        super().__init__(*(fault.message for fault in faults))

    def __str__(self) -> str:
        return "\n".join(map(str, self.faults))
