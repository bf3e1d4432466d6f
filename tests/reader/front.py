"""The first pages of a paper, read back: blades and carriers, strips, doors, parts, the order."""

from __future__ import annotations

import re
from collections.abc import Callable, Sequence
from fractions import Fraction

from tests.reader.told import Document, DoorRow, OrderRow, PartRow
from tests.reader.words import LENGTH, MARK, RUN, SIGNALS, Unreadable, length, named

_SIZE = re.compile(rf"({LENGTH}) × ({LENGTH}) × ({LENGTH})")
_STRIP = re.compile(
    rf"(#\d+) ({LENGTH}) × ({LENGTH}) × ({LENGTH})(, test strip)?"
    r"(?:, (.*?))?(?:; so too, with their own pieces: (.*))?"
)
_BOARDS = re.compile(
    rf", (?:(\d+) boards, each ({LENGTH})(?:″| mm) wide|boards as the stock asks for)$"
)
_GLUED = re.compile(r"(#\d+) is glued up from ((?:#\d+/\d+(?:, )?)+)")
_LAID = re.compile(rf"({MARK})(?: ({LENGTH}))?")
_DECK = re.compile(rf"☐ (Crosscut sled|Mitre sled|Tenoning jig).*?, deck ({LENGTH})")
_BLADE = re.compile(rf"☐ Blade: (.*), kerf ({LENGTH})")
_LACKS = re.compile(rf"({MARK}(?:, {MARK})*) [\w ]+,")


def front(lines: Sequence[str], found: Document) -> None:
    """Everything that stands before the setups."""
    _pinned(lines, found)
    read: Callable[[str, list[str], Document], None] = _nothing
    last = ""
    for line in lines:
        cells = line.split(" | ")
        head = _HEADS.get((cells[0], cells[1] if len(cells) > 1 else "")) or _TITLES.get(line)
        if head:
            read = head
        elif deck := _DECK.match(line):
            found.decks[deck[1].lower()] = length(deck[2])
        elif each := _GLUED.findall(line):
            found.glued |= {strip: tuple(boards.split(", ")) for strip, boards in each}
        elif blade := _BLADE.match(line):
            found.kerfs[blade[1]] = length(blade[2])
        elif line.startswith("Detailed pieces"):
            read = _lacks
        elif read is _crosscut and _STRIP.fullmatch(last) and not _STRIP.fullmatch(line):
            _laid(last, cells, found)
        else:
            read(line, cells, found)
        last = line


def _nothing(_line: str, _cells: list[str], _found: Document) -> None:
    pass


def _blank(_line: str, cells: list[str], found: Document) -> None:
    """A row of the blanks to lay out, its wood in the middle where there are several; of many
    alike, one with their size and one with their marks, each with its pieces."""
    if len(cells) == 5:
        cells = [*cells[:2], "", *cells[2:]]
    if found.alike and cells[-1].startswith("#"):
        each = re.findall(rf"(#\d+) ({MARK}(?:, {MARK})*) ☐", cells[-1])
        if len(each) != int(found.alike[1].removesuffix(" ×")):
            raise Unreadable(f"{found.alike[1]} strips: “{cells[-1]}”")
        for mark, pieces in each:
            _blank("", ["", mark, *found.alike[2:5], pieces], found)
        found.alike = ()
        return
    if len(cells) == 6 and cells[1].endswith(" ×"):
        found.alike = tuple(cells)
        return
    if len(cells) != 6 or not cells[1].startswith("#"):
        return
    strip = found.strip(cells[1])
    size = _SIZE.match(cells[3])
    if size:
        strip.length, strip.width, strip.thickness = (length(size[n]) for n in (1, 2, 3))
    if several := _BOARDS.search(cells[3]):
        strip.boards = int(several[1] or 0)
        strip.board_width = length(several[2]) if several[2] else Fraction(0)
    strip.ripped = length(cells[4])
    strip.test = "(test)" in cells[5]
    strip.listed = tuple(re.findall(MARK, cells[5]))


def _scrap(_line: str, cells: list[str], found: Document) -> None:
    if len(cells) == 4 and cells[0].startswith("#"):
        numbers = _numbers(cells[2])
        found.serves[cells[0]] = numbers


def _numbers(text: str) -> tuple[int, ...]:
    made: list[int] = []
    for part in filter(None, text.split(", ")):
        low, _, high = part.partition("–")
        made += range(int(low), int(high or low) + 1)
    return tuple(made)


_HOW = "(?: (?:by the block|to fit|exactly))?"
"""What stands below a name where the mark that is large is not good enough."""

PIN = re.compile(
    r"(\d+) guard (on|off) \| (.+?) (mitre sled|fence|sled|jig)"
    rf" \| (fence|stop|jig|mitre stop)( [\d.]+)?{_HOW} \| height( [\d.]+)?{_HOW}"
)
"""A row above the saw."""


def figures_of(lines: Sequence[str], n: int) -> int:
    """Where its figures stand: in the next line, or, where rows are large, behind its words."""
    return next(at for at in range(n + 1, len(lines)) if " | " in lines[at])


def _pinned(lines: Sequence[str], found: Document) -> None:
    """The rows above the saw, and what is done at the bench between them."""
    for n, line in enumerate(lines):
        if head := PIN.fullmatch(line):
            told = lines[figures_of(lines, n)]
            figures = told.split(" | ")
            if len(figures) != 2:
                raise Unreadable(f"setup {head[1]} above the saw: “{told}”")
            guide, height = (
                Fraction(exact) if exact else None if figure == "none" else length(figure)
                for figure, exact in zip(figures, (head[6], head[7]), strict=True)
            )
            if height is None:
                raise Unreadable(f"setup {head[1]} above the saw: no height")
            marks = next((_cut(line) for line in lines[n + 1 :] if _CUT.match(line)), frozenset())
            row = OrderRow(int(head[1]), head[3], head[4], head[5], guide, height, head[2], marks)
            found.order.append(row)
        elif bench := re.match(r"steps? ([\d–, ]+): (.*)", line):
            found.benches.append((bench[1], bench[2]))


_ENDS = r"(?:/[AB])*"
_TOGETHER = rf"{RUN} each:(?: \d+{_ENDS})+"
_ALONE = rf"{RUN}|{MARK}{_ENDS}"
_CUT = re.compile(
    rf"(?:(?:{'|'.join(SIGNALS)}) )?(?:{_TOGETHER}|{_ALONE})(?: (?:{_TOGETHER}|{_ALONE}))*$"
)
"""The pieces of a row, behind its signal word; of doors in a row that have the same, once."""


def _cut(line: str) -> frozenset[str]:
    found: set[str] = set()
    for each in re.findall(rf"{_TOGETHER}|{_ALONE}", line):
        doors, several, numbers = each.partition(" each:")
        if several:
            told = [number.partition("/")[0] for number in numbers.split()]
            found |= {f"{door}{number}" for door in named(doors) for number in told}
        else:
            found |= set(named(each.partition("/")[0]))
    return frozenset(found)


def _doors(_line: str, cells: list[str], found: Document) -> None:
    if len(cells) != 7:
        return
    wide, high = (length(each) for each in cells[2].split(" × "))
    opening = tuple(length(each) for each in cells[3].split(" × "))
    for mark in named(cells[0]):
        found.doors[mark] = DoorRow(
            mark, (wide, high), (opening[0], opening[1]), cells[4], cells[5], cells[6]
        )


def _parts(_line: str, cells: list[str], found: Document) -> None:
    size = _SIZE.fullmatch(cells[2]) if len(cells) >= 4 else None
    if size is None:
        return
    for mark in re.findall(rf"({MARK}) ☐", cells[-1]):
        found.parts[mark] = PartRow(
            mark,
            cells[0],
            (length(size[1]), length(size[2]), length(size[3])),
            cells[3] if len(cells) > 4 else "",
        )


def _lacks(line: str, _cells: list[str], found: Document) -> None:
    """What a detailed piece lacks stands in the line that ends with a stop."""
    named = _LACKS.match(line)
    if named and not line.endswith("."):
        found.naming = tuple(re.findall(MARK, line.split(" × ", maxsplit=1)[0]))
    elif line.endswith(".") and found.naming:
        for mark in found.naming:
            found.lacking[mark] = line[:-1]
        found.naming = ()


def _crosscut(line: str, _cells: list[str], found: Document) -> None:
    if head := _STRIP.fullmatch(line):
        strip = found.strip(head[1])
        strip.laid_size = (length(head[2]), length(head[3]), length(head[4]))
        told = head[6] or ""
        for part in told.split("; "):
            words, _, marks = part.rpartition(": ")
            if words.endswith("turned end for end"):
                strip.turned = tuple(marks.split(", "))
            elif words.endswith("the marks decide"):
                strip.either = tuple(marks.split(", "))


def _laid(line: str, cells: list[str], found: Document) -> None:
    """The pieces in the picture of a strip, from the squared end on, and those of all that are laid
    out like it, in the order in which the list of blanks has them."""
    head = _STRIP.fullmatch(line)
    if head is None:
        return
    strip = found.strip(head[1])
    strip.pieces = [
        (each[1], length(each[2]) if each[2] else None)
        for cell in cells
        if (each := _LAID.fullmatch(cell))
    ]
    for mark in named(head[7]) if head[7] else ():
        other = found.strip(mark)
        like = dict(zip((piece for piece, _ in strip.pieces), other.listed, strict=True))
        other.laid_size = strip.laid_size
        other.pieces = [(like[piece], long) for piece, long in strip.pieces]
        other.turned = tuple(like[piece] for piece in strip.turned)
        other.either = tuple(like[piece] for piece in strip.either)


_HEADS = {
    ("", "Strip"): _blank,
    ("Test piece", "Size (in)"): _scrap,
    ("Test piece", "Size (mm)"): _scrap,
    ("Mark", "Door"): _doors,
    ("Part", "Wood"): _parts,
}
_TITLES = {
    "Why this order": _nothing,
    "Wood": _nothing,
    "Strips: crosscut list": _crosscut,
    "Every setup, before the saw is switched on": _nothing,
}


def gap(text: str) -> dict[str, Fraction]:
    """The gaps of a row of the table of doors by their sides, negative where the leaf laps over.

    >>> gap("top, bottom, hinge side laps over 10; meeting 3")["top"]
    Fraction(-10, 1)
    """
    found: dict[str, Fraction] = {}
    for part in text.split("; "):
        told = re.fullmatch(rf"(.*?)( laps over)? ({LENGTH})", part)
        if told is None:
            raise Unreadable(f"“{part}” tells no gap")
        by = -length(told[3]) if told[2] else length(told[3])
        found |= dict.fromkeys(told[1].split(", "), by)
    return found
