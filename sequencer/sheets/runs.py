"""Many things in few words: marks that follow one another, and things of a kind, drawn together."""

from __future__ import annotations

import re
from collections.abc import Callable, Hashable, Iterable, Sequence
from functools import reduce
from typing import TypeVar

T = TypeVar("T")

LEAST = 4
"""So many in a row are drawn together; fewer are named one by one, as they are read at a glance."""

_STRIP = re.compile(r"#(\d+)")
_DOOR = re.compile(r"([A-Z]+)")
_PIECE = re.compile(r"([A-Z]+)(\d.*)")


def together(marks: Iterable[str]) -> str:
    """Marks of strips or doors, in this order.

    >>> together(["#2", "#3", "#4", "#5", "#7", "#8"]), together(["Y", "Z", "AA", "AB"])
    ('#2–#5, #7, #8', 'Y–AB')
    """
    return ", ".join(_told(run) for run in _runs(marks, _follows))


def alike(things: Sequence[T], kind: Callable[[T], Hashable]) -> list[tuple[T, ...]]:
    """Things of a kind together where they are many, else each alone, in the order of the first.

    >>> alike([1, 3, 2, 5, 7, 4], lambda n: n % 2)
    [(1, 3, 5, 7), (2,), (4,)]
    """
    found: dict[Hashable, list[int]] = {}
    for at, thing in enumerate(things):
        found.setdefault(kind(thing), []).append(at)
    groups = []
    for places in found.values():
        groups += [places] if len(places) >= LEAST else [[at] for at in places]
    return [tuple(things[at] for at in places) for places in sorted(groups)]


def of_pieces(told: Sequence[str], each_of: Callable[[str], str]) -> str:
    """Pieces and strips, some with the ends that are cut: of doors in a row that have the same
    ones, these are named once, behind what `each_of` says of the doors. In this order, or, where
    any are drawn together, by their marks.

    >>> of_pieces(["A3/A/B", "A4/A/B", "B3/A/B", "B4/A/B"], "{} each:".format)
    'A3/A/B A4/A/B B3/A/B B4/A/B'
    >>> told = [f"{door}{n}" for door in "ABCDE" for n in (3, 4)] + ["F4"]
    >>> of_pieces(told, "{} each:".format)
    'A–E each: 3 4 F4'
    """
    doors: dict[str, list[str]] = {}
    strips: list[str] = []
    rest: list[str] = []
    for each in told:
        if piece := _PIECE.fullmatch(each):
            doors.setdefault(piece[1], []).append(piece[2])
        else:
            (strips if _STRIP.fullmatch(each) else rest).append(each)
    alike = _runs(sorted(doors, key=_place), lambda a, b: _follows(a, b) and doors[a] == doors[b])
    rows = _runs(sorted(strips, key=_place), _follows)
    if max(map(len, (*alike, *rows)), default=0) < LEAST:
        return " ".join(told)
    made = [*rest, *(_told(run, " ") for run in rows)]
    for run in alike:
        if len(run) < LEAST:
            made += [f"{door}{number}" for door in run for number in doors[door]]
        else:
            made += [each_of(_told(run)), *doors[run[0]]]
    return " ".join(made)


def _runs(marks: Iterable[str], follows: Callable[[str, str], bool]) -> list[list[str]]:
    found: list[list[str]] = []
    for mark in marks:
        if found and follows(found[-1][-1], mark):
            found[-1].append(mark)
        else:
            found.append([mark])
    return found


def _told(run: Sequence[str], between: str = ", ") -> str:
    return between.join(run) if len(run) < LEAST else f"{run[0]}–{run[-1]}"


def _follows(mark: str, after: str) -> bool:
    kind, place = _place(mark)
    return bool(kind) and _place(after) == (kind, place + 1)


def _place(mark: str) -> tuple[str, int]:
    """Where a mark stands among those of its kind; of another kind nothing follows it."""
    if strip := _STRIP.fullmatch(mark):
        return "strip", int(strip[1])
    if _DOOR.fullmatch(mark):  # A is the first, AA follows Z
        return "door", reduce(lambda n, letter: n * 26 + ord(letter) - ord("@"), mark, 0)
    return "", 0
