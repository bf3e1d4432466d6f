"""A TOML text, parsed, that remembers where every value stands.

`tomllib` does the parsing and refuses what is no TOML; a scan over the text that it accepted
finds the places. A path is a tuple of keys and, inside arrays, indices: `("door", 0, "mark")`.
"""

from __future__ import annotations

import re
import tomllib
from bisect import bisect_right
from collections.abc import Iterator, Mapping
from fractions import Fraction
from typing import Any

from msgspec import Struct

from sequencer.errors import Fault, InputError
from sequencer.facts import Fact, files
from sequencer.job.schema import Place
from sequencer.lengths import LengthError, Unit, parse

Path = tuple[str | int, ...]

_LONGEST_LINE = 200
"""A longer line is not repeated in a message."""


class Spot(Struct, frozen=True):
    """Offsets of a key (or table header) and of its value."""

    key: int
    start: int
    end: int


class Document(Struct, frozen=True):
    file: str
    text: str
    data: Mapping[str, Any]
    spots: Mapping[Path, Spot]
    line_starts: tuple[int, ...]

    @property
    def unit(self) -> Unit:
        """What its bare lengths are in: inches, too, where it names no unit or a wrong one, which
        is a fault that its reader tells."""
        return "mm" if self.data.get("unit") == "mm" else "in"

    @property
    def doors(self) -> int:
        """How many it has."""
        doors = self.data.get("door")
        return len(doors) if isinstance(doors, list) else 0

    def get(self, path: Path) -> Any:
        """The value there, or `None`. An index must be within its array."""
        value: Any = self.data
        for part in path:
            fits = isinstance(value, dict) or (isinstance(value, list) and isinstance(part, int))
            if not fits or (isinstance(value, dict) and part not in value):
                return None
            value = value[part]
        return value

    def raw(self, path: Path) -> str:
        """The value as it is written."""
        spot = self.spots[path]
        return self.text[spot.start : spot.end]

    def fault(
        self,
        path: Path,
        message: Fact,
        hint: Fact | None = None,
        *,
        key: bool = False,
        skip: int = 0,
    ) -> Fault:
        """A fault at the `place` there, `skip` characters on, or at its key."""
        at = self.place(path, key=key, skip=skip)
        return Fault(at.file, at.line, at.column, message, hint, at.text)

    def fault_at(self, offset: int, message: Fact, hint: Fact | None = None) -> Fault:
        at = self._place_at(offset)
        return Fault(at.file, at.line, at.column, message, hint, at.text)

    def place(self, path: Path, *, key: bool = False, skip: int = 0) -> Place:
        """Where the value there stands, or its key; where nothing is written there, the header of
        the nearest table round it; else the whole file."""
        while path and path not in self.spots:
            path, key = path[:-1], True
        if not path:
            return Place(self.file, 0, 0)
        spot = self.spots[path]
        return self._place_at((spot.key if key else spot.start) + skip)

    def _place_at(self, offset: int) -> Place:
        line = bisect_right(self.line_starts, offset)
        start = self.line_starts[line - 1]
        text = self.text[start:].partition("\n")[0]
        plain = text.replace("\t", " ").isprintable()
        shown = text if plain and len(text) <= _LONGEST_LINE else ""
        return Place(self.file, line, offset - start + 1, shown)


def read_document(text: str, file: str, empty: Fact | None = None) -> Document:
    """Parse `text`; `file` is its name for messages, `empty` what to do where nothing is in it.
    Raises `InputError` where it is no TOML."""
    text = text.removeprefix("\ufeff").replace("\r\n", "\n")
    starts = (0, *(found.end() for found in re.finditer("\n", text)))
    bare = Document(file, text, {}, {}, starts)
    if not text.strip():
        raise InputError((Fault(file, 0, 0, files.EMPTY(), empty or files.NEW_WRITES_ONE()),))
    try:
        data = tomllib.loads(text, parse_float=_exact_float)
    except ValueError as error:
        raise InputError(_syntax_faults(bare, str(error))) from None
    except RecursionError:
        raise InputError((Fault(file, 0, 0, files.TOO_DEEP()),)) from None
    return Document(file, text, data, _Scanner(text).scan(), starts)


def _exact_float(text: str) -> Fraction | float:
    return float(text) if text.strip("+-") in ("inf", "nan") else Fraction(text.replace("_", ""))


def quoted(value: str) -> str:
    """A text as a file has it: in double quotes, or in single ones where it holds a double; a
    length in feet and inches, which holds both, with the inches as a word.

    >>> print(quoted("22 1/2"), quoted('22 1/2"'), quoted("1' 3" + '"'))
    "22 1/2" '22 1/2"' "1' 3 in"
    """
    if '"' in value and "'" in value:
        value = value.strip().removesuffix('"').rstrip() + " in"
    return f"'{value}'" if '"' in value else f'"{value}"'


_PLACE = re.compile(r" \(at (?:line (\d+), column (\d+)|[^)]*)\)$")
_ASSIGNMENT = re.compile(r"""\s*([\w.'"-]+)\s*=\s*(.*?)\s*(?:\#.*)?$""")


def _syntax_faults(document: Document, error: str) -> tuple[Fault, ...]:
    """What `tomllib` said, placed; with the right spelling for a dimension that lacks quotes or
    has an inch mark inside its quotes. Curly quotation marks come by the page: each is told."""
    curly = tuple(_curly(document))
    if curly:
        return curly
    message = _PLACE.sub("", error)
    found = _PLACE.search(error)
    if found is None or found[1] is None:
        offset = len(document.text.rstrip())
    else:
        offset = document.line_starts[int(found[1]) - 1] + int(found[2]) - 1
    line = bisect_right(document.line_starts, offset)
    start = document.line_starts[line - 1]
    assignment = _ASSIGNMENT.match(document.text[start:].partition("\n")[0])
    if re.match(r"Cannot (?:overwrite|declare|mutate)|Duplicate", message):
        return (document.fault_at(start, files.TWICE(), files.KEEP_ONE()),)
    meant = _meant(assignment[2]) if assignment else None
    if assignment and meant is not None:
        within = assignment[2][0] in "\"'" and assignment[2].count(assignment[2][0]) > 1
        told = files.QUOTES_WITHIN() if within else files.NO_QUOTES()
        hint = files.WRITE(text=f"{assignment[1]} = {quoted(meant)}")
        return (document.fault_at(start + assignment.start(2), told, hint),)
    told = files.NOT_TOML(found=f"{message[:1].lower()}{message[1:]}")
    return (document.fault_at(offset, told),)


_CURLY = "“”„‟‘’‚"


def _curly(document: Document) -> Iterator[Fault]:
    """Values that stand in curly quotation marks, as a word processor makes them."""
    for start in document.line_starts:
        line = document.text[start:].partition("\n")[0]
        assignment = _ASSIGNMENT.match(line)
        if assignment and assignment[2][:1] in tuple(_CURLY):
            value = assignment[2].strip(_CURLY)
            hint = files.WRITE(text=f"{assignment[1]} = {quoted(_meant(value) or value)}")
            yield document.fault_at(start + assignment.start(2), files.CURLY_QUOTES(), hint)


def _meant(written: str) -> str | None:
    """The length that is written without quotes, or with a mark too many; `None` where it is
    none."""
    stripped = written.strip(f"\"'{_CURLY}").strip()
    for text in (written, f'{stripped}"', stripped, f"{stripped}'"):
        # Its own inch mark stays where there is one beside the quotes.
        marked = written.count('"') % 2 if text.endswith('"') else True
        if marked and _is_length(text):
            return text
    return stripped if _is_length(stripped) else _with_inches(stripped)


def _with_inches(text: str) -> str | None:
    """Feet with inches that lack their mark."""
    return f"{text} in" if _is_length(f"{text} in") else None


def _is_length(text: str) -> bool:
    for unit in ("in", "mm"):
        try:
            parse(text, unit)
        except LengthError:
            continue
        return True
    return False


_SKIP = re.compile(r"(?:[ \t\n]|#[^\n]*)*")
_KEY = re.compile(r"""[ \t]*([A-Za-z0-9_-]+|"(?:[^"\\\n]|\\.)*"|'[^'\n]*')[ \t]*""")
_STRING = re.compile(
    r'''"""(?:\\.|[^\\])*?"{3,5}|\'\'\'.*?'{3,5}|"(?:[^"\\\n]|\\.)*"|'[^'\n]*\'''', re.DOTALL
)
_SCALAR = re.compile(r"\d{4}-\d\d-\d\d[ ]\d\d:[^\s,\]}#]+|[^\s,\]}#]+")


class _Scanner:
    """Finds keys and values in a text that is known to be TOML, and checks nothing."""

    def __init__(self, text: str) -> None:
        self.text = text
        self.at = 0
        self.spots: dict[Path, Spot] = {}
        self.counts: dict[Path, int] = {}

    def scan(self) -> dict[Path, Spot]:
        table: Path = ()
        while self._skip() < len(self.text):
            if self.text[self.at] == "[":
                table = self._header()
            else:
                self._assignment(table)
        return self.spots

    def _skip(self) -> int:
        found = _SKIP.match(self.text, self.at)
        self.at = found.end() if found else self.at
        return self.at

    def _header(self) -> Path:
        start = self.at
        many = self.text.startswith("[[", start)
        self.at += 2 if many else 1
        keys = self._keys()
        path: Path = ()
        for depth, key in enumerate(keys, 1):
            path += (key,)
            if depth == len(keys) and many:
                self.counts[path] = self.counts.get(path, 0) + 1
            if path in self.counts:
                self.spots.setdefault(path, Spot(start, start, start))
                path += (self.counts[path] - 1,)
        self.at += 2 if many else 1
        self.spots[path] = Spot(start, start, self.at)
        return path

    def _keys(self) -> list[str]:
        keys: list[str] = []
        while found := _KEY.match(self.text, self.at):
            token = found[1]
            quoted = token[0] in "\"'"
            keys.append(tomllib.loads(f"k = {token}")["k"] if quoted else token)
            self.at = found.end()
            if not self.text.startswith(".", self.at):
                break
            self.at += 1
        return keys

    def _assignment(self, table: Path) -> None:
        start = self.at
        path = table
        for key in self._keys():
            path += (key,)
            self.spots.setdefault(path, Spot(start, start, start))
        self.at += 1  # the equals sign
        self._value(path, start)

    def _value(self, path: Path, key: int) -> None:
        self._skip()
        start = self.at
        opening = self.text[start]
        if opening == "[":
            self._items("]", path)
        elif opening == "{":
            self._items("}", path)
        else:
            found = (_STRING if opening in "\"'" else _SCALAR).match(self.text, start)
            self.at = found.end() if found else len(self.text)
        self.spots[path] = Spot(key, start, self.at)

    def _items(self, closing: str, path: Path) -> None:
        self.at += 1
        count = 0
        while self.text[self._skip()] != closing:
            if self.text[self.at] == ",":
                self.at += 1
            elif closing == "}":
                self._assignment(path)
            else:
                self._value((*path, count), self.at)
                count += 1
        self.at += 1
