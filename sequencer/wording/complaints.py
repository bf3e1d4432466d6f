"""What went wrong, as the command line and the page show it."""

from __future__ import annotations

from sequencer.errors import Fault, InputError, SequencerError
from sequencer.facts import Fact
from sequencer.wording.room import Room


def complaint(error: SequencerError, room: Room) -> str:
    """All that the error says, one thing after another; of faults, each with its place."""
    if isinstance(error, InputError):
        return "\n".join(fault_text(fault, room) for fault in error.faults)
    return "\n".join(said(each, room) for each in error.says)


def fault_text(fault: Fault, room: Room) -> str:
    """`file:line:column: message`, the line with a caret under the place, and the hint.

    >>> fault = Fault("a.toml", 2, 9, "no unit", "write 22 1/2 in", "width = 3")
    >>> print(fault_text(fault, Room("UK")))
    a.toml:2:9: no unit
        width = 3
                ^
        write 22 1/2 in
    """
    place = f"{fault.file}:{fault.line}:{fault.column}" if fault.line else fault.file
    lines = [f"{place}: {said(fault.message, room)}"]
    if fault.text:
        before = fault.text[: fault.column - 1]
        indent = "".join("\t" if c == "\t" else " " for c in before)
        lines += [f"    {fault.text}", f"    {indent}^"]
    if fault.hint:
        lines.append(f"    {said(fault.hint, room)}")
    return "\n".join(lines)


def said(fact: Fact | str, room: Room) -> str:
    return fact if isinstance(fact, str) else room.say(fact)
