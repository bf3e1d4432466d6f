"""Single changes to the text of a finished paper, each of which would spoil a piece, a door or a
hand: what a slip of the program's words would print.

A kind finds all its places in a paper's lines, and says of each what a message must name: the setup
or step that it stands in, or the piece, strip or door that it is about.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass

from sequencer.records import replace

Lines = Sequence[str]
Places = Sequence[tuple[str, ...]]


@dataclass(frozen=True)
class Slip:
    """`line` becomes `said`, nothing where it is dropped; or the paper as a whole becomes `whole`.
    `names` are what a message may name it by."""

    line: int
    said: str | None
    names: tuple[str, ...]
    whole: tuple[str, ...] | None = None
    kind: str = ""

    def made(self, lines: Lines) -> list[str]:
        """The paper with the slip in it."""
        if self.whole is not None:
            return list(self.whole)
        middle = [] if self.said is None else [self.said]
        return [*lines[: self.line], *middle, *lines[self.line + 1 :]]

    def told(self, messages: Sequence[str]) -> bool:
        """Whether one of the messages names where it is."""
        pattern = "|".join(rf"{re.escape(name)}(?![\w.])" for name in self.names)
        return any(re.search(pattern, message) for message in messages)


Kind = Callable[[Lines, Places], Iterator[Slip]]

SETUP = re.compile(r"(\d+) \| [\w ]+ \| height(?: stays)?$")
BENCH = re.compile(r"Step (\d+) \| ")
_STEP = re.compile(r"(?:☐ )?Step (\d+)\b")


def slips(lines: Lines, kinds: Mapping[str, Kind]) -> dict[str, list[Slip]]:
    """Every change of every kind that the paper has a place for."""
    places = _places(lines)
    found = {
        name: [replace(slip, kind=name) for slip in kind(lines, places)]
        for name, kind in kinds.items()
    }
    return {name: each for name, each in found.items() if each}


def _places(lines: Lines) -> list[tuple[str, ...]]:
    """The setup and step that each line stands in; nothing before the setups."""
    where: tuple[str, ...] = ()
    found = []
    for line in lines:
        if head := SETUP.match(line):
            where = (f"setup {head[1]}",)
        elif bench := BENCH.match(line):
            where = (f"step {bench[1]}",)
        elif where and (step := _STEP.match(line)):
            where = (where[0], f"step {step[1]}")
        found.append(where)
    return found


def nudged(text: str) -> str:
    """A figure one graduation more: a 64th, half a millimetre, 0.016 of a decimal in inches.

    >>> nudged("2 1/4"), nudged("6.95"), nudged("23"), nudged("0.320")
    ('2 17/64', '7.45', '24', '0.336')
    """
    if "/" in text:
        *whole, fraction = text.split(" ")
        top, bottom = (int(part) for part in fraction.split("/"))
        return " ".join([*whole, f"{top * 64 // bottom + 1}/64"])
    if "." not in text:
        return str(int(text) + 1)
    places = len(text.split(".")[1])
    by = 0.016 if places == 3 else 0.5
    return f"{float(text) + by:.{places}f}"
