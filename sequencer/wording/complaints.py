"""What went wrong, as the command line and the page show it."""

from __future__ import annotations

from sequencer.errors import Fault, InputError, SequencerError
from sequencer.facts import Dialect, Length, dialect_for, nested
from sequencer.wording.room import Room


def complaint(error: SequencerError, room: Room) -> str:
    """All that the error says, one thing after another; of faults, each with its place."""
    if isinstance(error, InputError):
        return "\n".join(fault_text(fault, room) for fault in error.faults)
    return "\n".join(room.say(each) for each in error.says)


def fault_text(fault: Fault, room: Room) -> str:
    """`file:line:column: message`, the line with a caret under the place, and the hint.

    >>> from sequencer.facts import files
    >>> fault = Fault("a.toml", 2, 8, files.NO_MARK(), text="mark = ?")
    >>> print(fault_text(fault, Room("UK")))
    a.toml:2:8: a mark is one to three capital letters
        mark = ?
               ^
    """
    place = f"{fault.file}:{fault.line}:{fault.column}" if fault.line else fault.file
    lines = [f"{place}: {room.say(fault.message)}"]
    if fault.text:
        before = fault.text[: fault.column - 1]
        indent = "".join("\t" if c == "\t" else " " for c in before)
        lines += [f"    {fault.text}", f"    {indent}^"]
    if fault.hint:
        lines.append(f"    {room.say(fault.hint)}")
    return "\n".join(lines)


def dialect_of(error: SequencerError) -> Dialect | None:
    """The dialect of whoever works in the unit of the first length that the error tells; `None`
    where it tells none."""
    told = (
        [each for fault in error.faults for each in (fault.message, fault.hint)]
        if isinstance(error, InputError)
        else error.says
    )
    inside = (value for each in told for value in nested(each))
    return next((dialect_for(value.unit) for value in inside if isinstance(value, Length)), None)
