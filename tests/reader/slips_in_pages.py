"""Slips of whole lines and blocks, and in the tables of the first pages."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from itertools import pairwise

from tests.reader.front import PIN, figures_of
from tests.reader.slips import BENCH, SETUP, Kind, Lines, Places, Slip, nudged
from tests.reader.slips_in_lines import FIGURE
from tests.reader.turns import CORRECTS
from tests.reader.words import MARK


def _blocks(lines: Lines) -> list[tuple[int, int, str]]:
    """From and to which line each setup and step at the bench stands, and its name."""
    heads = [
        (n, f"setup {setup[1]}" if setup else f"step {bench[1]}" if bench else "")
        for n, line in enumerate(lines)
        for setup, bench in [(SETUP.match(line), BENCH.match(line))]
        if setup or bench
    ]
    stops = [*(n for n, _ in heads[1:]), len(lines)]
    return [(start, stop, name) for (start, name), stop in zip(heads, stops, strict=True)]


def _swapped(lines: Lines, _: Places) -> Iterator[Slip]:
    """Two neighbours in the order change over."""
    for (a, b, one), (_start, c, two) in pairwise(_blocks(lines)):
        yield Slip(a, None, (one, two), (*lines[:a], *lines[b:c], *lines[a:b], *lines[c:]))


def _missing(lines: Lines, _: Places) -> Iterator[Slip]:
    for a, b, name in _blocks(lines):
        yield Slip(a, None, (name,), (*lines[:a], *lines[b:]))


def _tried_late(lines: Lines, places: Places) -> Iterator[Slip]:
    """Good wood is cut before the test cut of the same setup."""
    for a, b, name in _blocks(lines):
        steps = [n for n in range(a, b) if re.match(r"Step \d+ (?!\|)", lines[n])]
        for one, two in pairwise(steps):
            if "Test cut" in lines[one] and "Test cut" not in lines[two]:
                whole = (*lines[:one], *lines[two:b], *lines[one:two], *lines[b:])
                yield Slip(one, None, (name, places[one][1], places[two][1]), whole)


def _unchecked(lines: Lines, places: Places) -> Iterator[Slip]:
    """A measure is missing with what is to be turned."""
    for n, (line, where) in enumerate(zip(lines, places, strict=True)):
        if where and re.search(r", target .* _", line):
            turned = n + 1 < len(lines) and bool(CORRECTS.match(lines[n + 1]))
            yield Slip(n, None, where, (*lines[:n], *lines[n + 1 + turned :]))


def _unwarned(lines: Lines, places: Places) -> Iterator[Slip]:
    for n, (line, where) in enumerate(zip(lines, places, strict=True)):
        if where and re.match(r"(DANGER|WARNING|CAUTION) ", line):
            yield Slip(n, None, where)


def _laid(lines: Lines, _: Places) -> Iterator[Slip]:
    """Two pieces of a strip change places in the list of strips."""
    for n, (before, line) in enumerate(pairwise(lines), 1):
        head = re.match(r"(#\d+) .* × .* × ", before)
        cells = line.split(" | ")
        at = [k for k, cell in enumerate(cells) if re.match(MARK, cell)]
        if head and " × " not in line and len(at) > 1:
            cells[at[0]], cells[at[1]] = cells[at[1]], cells[at[0]]
            yield Slip(n, " | ".join(cells), (f"strip {head[1]}", *re.findall(MARK, line)))


def _turned(lines: Lines, _: Places) -> Iterator[Slip]:
    """A piece that lies end for end is not said to."""
    for n, line in enumerate(lines):
        found = re.match(r"#\d+ .*(, turned end for end: ([^;]+?))(?:;|$)", line)
        if found:
            yield Slip(n, line.replace(found[1], ""), tuple(re.findall(MARK, found[2])))


_LACKS = re.compile(
    rf"(?:slot|tenon|groove|reb\w+|rabbet|half-lap) ({FIGURE})(?=″? (?:mm )?(?:wide|long)"
    r"(?![^;]*follows the shape))"
)


def _lacking(lines: Lines, places: Places) -> Iterator[Slip]:
    """A figure of what a detailed piece is said to lack."""
    marks: tuple[str, ...] = ()
    for n, line in enumerate(lines[: places.index(next(filter(None, places)))]):
        if re.match(rf"{MARK}(?:, {MARK})* [a-z][\w ]*, .* × .* × ", line):
            marks = tuple(re.findall(MARK, line.split(" × ", maxsplit=1)[0]))
        for found in _LACKS.finditer(line) if marks and line.endswith(".") else ():
            changed = f"{line[: found.start(1)]}{nudged(found[1])}{line[found.end(1) :]}"
            yield Slip(n, changed, marks)


def _cells(lines: Lines, places: Places, count: int, first: str) -> Iterator[tuple[int, list[str]]]:
    """The rows before the setups that have so many cells, one of the first two as the pattern."""
    for n, (line, where) in enumerate(zip(lines, places, strict=True)):
        cells = line.split(" | ")
        named = any(re.fullmatch(first, cell) for cell in cells[:2])
        if not where and len(cells) == count and named:
            yield n, cells


def _nudged(n: int, cells: list[str], at: int, names: tuple[str, ...]) -> Slip:
    """One figure of a row, or the decimal beside it, which is the one that is meant."""
    exact = re.search(rf"(?:{FIGURE}) \(({FIGURE})\)", cells[at])
    found = re.search(FIGURE, cells[at])
    assert found is not None
    here, told = (exact.start(1), exact[1]) if exact else (found.start(), found[0])
    more = f"{cells[at][:here]}{nudged(told)}{cells[at][here + len(told) :]}"
    return Slip(n, " | ".join([*cells[:at], more, *cells[at + 1 :]]), names)


def _part(lines: Lines, places: Places) -> Iterator[Slip]:
    for count in (4, 5):
        for n, cells in _cells(lines, places, count, r"[a-z].*"):
            if " × " in cells[2] and re.search(r"\d ☐", cells[-1]):
                yield _nudged(n, cells, 2, tuple(re.findall(MARK, cells[-1])))


def _ripped(lines: Lines, places: Places) -> Iterator[Slip]:
    for columns in (5, 6):  # with their wood where there are several
        for n, cells in _cells(lines, places, columns, r"#\d+"):
            if cells[0] == "☐":
                yield _nudged(n, cells, columns - 2, (f"strip {cells[1]}",))


def _doors(lines: Lines, places: Places) -> Iterator[tuple[int, list[str], tuple[str, ...]]]:
    for n, cells in _cells(lines, places, 7, r"[A-Z]+(?:, [A-Z]+)*"):
        if cells[6] in ("in", "out"):
            yield n, cells, tuple(f"door {mark}" for mark in cells[0].split(", "))


def _door(at: int) -> Kind:
    """A figure of a door."""

    def kind(lines: Lines, places: Places) -> Iterator[Slip]:
        for n, cells, names in _doors(lines, places):
            yield _nudged(n, cells, at, names)

    return kind


def _side(at: int) -> Kind:
    """Where a door hangs, or where its marked face looks: then every setup tells otherwise."""
    other = {"left": "right", "right": "left", "in": "out", "out": "in"}

    def kind(lines: Lines, places: Places) -> Iterator[Slip]:
        for n, cells, names in _doors(lines, places):
            said = " | ".join([*cells[:at], other[cells[at]], *cells[at + 1 :]])
            setups = [name for _, _, name in _blocks(lines)] if at == 6 else []
            yield Slip(n, said, (*names, *setups))

    return kind


def _order(at: int) -> Kind:
    """A figure above the saw, or the decimal that stands at its name."""

    def kind(lines: Lines, _: Places) -> Iterator[Slip]:
        for n, line in enumerate(lines):
            head = PIN.fullmatch(line)
            if not head:
                continue
            names, exact = (f"setup {head[1]}",), head[6 + at]
            if exact:
                start = head.start(6 + at) + 1
                told = f"{line[:start]}{nudged(exact[1:])}{line[head.end(6 + at) :]}"
                yield Slip(n, told, names)
                continue
            row = figures_of(lines, n)
            cells = lines[row].split(" | ")
            if re.fullmatch(FIGURE, cells[at]):
                yield _nudged(row, cells, at, names)

    return kind


KINDS: Mapping[str, Kind] = {
    "two setups swapped": _swapped,
    "a setup missing": _missing,
    "the test cut after the work": _tried_late,
    "a check missing": _unchecked,
    "a caution missing": _unwarned,
    "a strip's order": _laid,
    "end for end unsaid": _turned,
    "what a piece lacks": _lacking,
    "a part's size": _part,
    "a strip's width": _ripped,
    "a door's size": _door(2),
    "a door's opening": _door(3),
    "the side of the hinges": _side(4),
    "a door's gaps": _door(5),
    "where a face looks": _side(6),
    "a setting above the saw": _order(0),
    "a height above the saw": _order(1),
}
