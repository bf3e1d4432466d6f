"""Leaf marks: A, B … Z, AA …, given by hand or in file order."""

from __future__ import annotations

import re
from collections.abc import Collection, Iterable, Iterator, Sequence
from itertools import count, product
from string import ascii_uppercase

from sequencer.facts import files
from sequencer.job.document import Path
from sequencer.job.reader import Reader
from sequencer.job.schema import Door
from sequencer.records import replace

MARK = re.compile(r"[A-Z]{1,3}")


def given(reader: Reader, doors: int, before: Collection[str]) -> list[tuple[str, ...]]:
    """The marks that each door gives by hand, none twice and none of those given before."""
    taken: dict[str, int] = {}
    found: list[tuple[str, ...]] = []
    for index in range(doors):
        path: Path = ("door", index, "mark")
        value = reader.document.get(path)
        listed = isinstance(value, list)
        written = value if listed else [] if value is None else [value]
        leaves = 2 if reader.document.get(("door", index, "leaves")) == 2 else 1
        if len(written) > leaves:
            kind = files.MARKS_OF_A_SINGLE if leaves == 1 else files.MARKS_OF_A_PAIR
            reader.fault(path, kind(n=len(written)), files.ONE_MARK_EACH())
            written = []
        good: list[str] = []
        for number, mark in enumerate(written):
            place = (*path, number) if listed else path
            if not isinstance(mark, str) or not MARK.fullmatch(mark):
                reader.fault(place, files.NO_MARK(), files.WRITE_MARK())
            elif mark in before:
                hint = files.NEXT_FREE(mark=free({*before, *taken}, after=mark))
                reader.fault(place, files.MARK_OF_THE_BATCH(mark=mark), hint)
            elif mark in taken:
                message = files.MARK_TAKEN(mark=mark, line=_line(reader, taken[mark]))
                hint = files.NEXT_FREE(mark=free({*before, *taken}, after=mark))
                reader.fault(place, message, hint)
            else:
                taken[mark] = index
                good.append(mark)
        found.append(tuple(good))
    return found


def _line(reader: Reader, door: int) -> int:
    """The line in which the door's mark stands."""
    return reader.document.place(("door", door, "mark")).line


def marked(
    doors: list[Door],
    counts: list[int],
    given: Sequence[tuple[str, ...]],
    had: Sequence[tuple[str, ...]],
    before: Collection[str],
    kept: Collection[str],
) -> tuple[Door, ...]:
    """Every leaf with its mark: those given by hand first, then those that it `had` when it was
    last printed, the others in file order and none of those `kept`. The second leaf of a pair
    follows its first."""
    taken = {mark for names in given for mark in names} | set(before)
    marks: list[list[str]] = []
    for door, copies, names, printed in zip(doors, counts, given, had, strict=True):
        rest = [mark for mark in printed[len(names) :] if mark not in taken]
        marks.append([*names, *rest][: copies * door.leaves])
        taken.update(marks[-1])
    taken.update(kept)
    done: list[Door] = []
    for door, copies, first in zip(doors, counts, marks, strict=True):
        for at in range(0, copies * door.leaves, door.leaves):
            own = first[at : at + door.leaves]
            while len(own) < door.leaves:
                own.append(free(taken, after=own[-1] if own else None))
                taken.add(own[-1])
            done.append(replace(door, marks=tuple(own)))
    return tuple(done)


def letters() -> Iterator[str]:
    """A, B … Z, AA, AB … without end."""
    for length in count(1):
        for combination in product(ascii_uppercase, repeat=length):
            yield "".join(combination)


def free(taken: Iterable[str], after: str | None = None) -> str:
    """The first mark that is not taken, or the first behind `after`.

    >>> free({"A", "B"}), free({"L"}, after="K"), free((), after="Z")
    ('C', 'M', 'AA')
    """
    gone = set(taken)
    start = _rank(after) if after else (0, "")
    return next(m for m in letters() if _rank(m) > start and m not in gone)


def _rank(mark: str) -> tuple[int, str]:
    return (len(mark), mark)
