"""Typed values out of a document; every fault is kept, so that all are told at once."""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Iterable
from fractions import Fraction
from typing import Any

from sequencer.errors import Fault
from sequencer.facts import Fact, files
from sequencer.job.document import Document, Path
from sequencer.job.ranges import answer, asked, dotted, ranges
from sequencer.job.said_default import without_defaults
from sequencer.job.schema import SEPARATOR
from sequencer.lengths import LengthError, Unit, parse
from sequencer.records import replace
from sequencer.trade.species import find, meant_wood

WOODS = ("species", "panel.species", "board.species")
MOST_FAULTS = 100
_LONGEST_NAME = 60
_NUMBER = re.compile(r"(?:[0-9]{1,6} )?[0-9]{1,6}/[1-9][0-9]{0,5}|[0-9]{1,6}(?:\.[0-9]{1,6})?")
_BIDI_CONTROLS = frozenset("\u202a\u202b\u202c\u202d\u202e\u2066\u2067\u2068\u2069")


class Reader:
    """Getters return `None` for what is missing or wrong, and keep the faults. `broken` holds the
    paths whose values were wrong, so that nothing is concluded from their absence. `questions` are
    about values that are sooner a slip; of `sure` keys none is asked."""

    def __init__(self, document: Document) -> None:
        data, self.defaults = without_defaults(document.data)
        self.document = replace(document, data=data)
        self.unit: Unit = "in"
        self.faults: list[Fault] = []
        self.broken: set[Path] = set()
        self.sure: tuple[str, ...] = ()
        self.questions: list[tuple[Path, Fact, Fact]] = []

    def fault(
        self,
        path: Path,
        message: Fact,
        hint: Fact | None = None,
        *,
        key: bool = False,
        skip: int = 0,
    ) -> None:
        """Keep a fault; of several in one place the first, and no more than can be read."""
        if path in self.broken or self.full:
            return
        self.broken.add(path)
        made = self.document.fault(path, message, hint, key=key, skip=skip)
        self.faults.append(replace(made, key=dotted(path)))

    @property
    def full(self) -> bool:
        """Whether there are so many faults that the rest is not looked for."""
        return len(self.faults) >= MOST_FAULTS

    def has(self, path: Path) -> bool:
        return self.document.get(path) is not None

    def known(self, path: Path, names: Iterable[str]) -> None:
        """Refuse every other key of the table there."""
        known = list(names)
        for key in self.document.get(path) or ():
            if key not in known and not self.full:
                close = meant(str(key), known)
                hint = files.KNOWN_HERE(names=tuple(known))
                if close:
                    hint = files.DID_YOU_MEAN(name=close)
                self.fault((*path, key), files.UNKNOWN_KEY(key=str(key)), hint, key=True)

    def table(self, path: Path) -> bool:
        """Whether a table stands there."""
        value = self.document.get(path)
        if value is None:
            return False
        if not isinstance(value, dict):
            name = str(path[-1])
            hint = files.OWN_LINE(header=f"[{_dotted(path)}]")
            self.fault(path, files.NO_TABLE(key=name), hint)
            return False
        return True

    def tables(self, path: Path) -> int:
        """How many tables stand in the array there."""
        value = self.document.get(path)
        if value is None:
            return 0
        if not isinstance(value, list) or not all(isinstance(item, dict) for item in value):
            name = str(path[-1])
            hint = files.LINE_BEFORE_EACH(header=f"[[{_dotted(path)}]]")
            self.fault(path, files.NO_TABLES(key=name), hint, key=True)
            return 0
        return len(value)

    def length(self, path: Path) -> Fraction | None:
        value = self.document.get(path)
        if value is None:
            return None
        name = "" if isinstance(path[-1], int) else f"{path[-1]} = "
        if not isinstance(value, str):
            raw = self.document.raw(path)
            number = isinstance(value, int | Fraction) and not isinstance(value, bool)
            if number:
                self.fault(path, files.NO_QUOTES(), files.WRITE(text=f'{name}"{raw}"'))
            else:
                self._wrong(path, files.A_LENGTH(), f'{name}"…"')
            return None
        try:
            found = parse(value, self.unit)
            self._ask(path, found, value)
            return found
        except LengthError as error:
            raw = self.document.raw(path)
            plain = raw[1:-1] == value  # else offsets in the value are not those in the text
            skip = 1 + error.offset if plain else 0
            self.fault(path, error.message, error.hint, skip=skip)
            return None

    def lengths(self, path: Path, most: int) -> tuple[Fraction, ...]:
        """A list of lengths, in any order; empty where there is none."""
        value = self.document.get(path)
        if value is None:
            return ()
        if not isinstance(value, list):
            self._wrong(path, files.LENGTHS(), f'{path[-1]} = ["1/4", "1/2"]')
            return ()
        if len(value) > most:
            message = files.TOO_MANY(key=str(path[-1]), n=len(value), most=most)
            self.fault((*path, most), message)
            return ()
        found = (self.length((*path, index)) for index in range(len(value)))
        return tuple(each for each in found if each)

    def span(self, path: Path) -> tuple[Fraction, Fraction] | None:
        """A range such as `7/32 to 9/32`; `None` where it is wrong."""
        value = self.document.get(path)
        ends: list[Fraction] = []
        at = 0
        for text in value.split(SEPARATOR):
            try:
                ends.append(parse(text, self.unit))
                self._ask(path, ends[-1], text)
            except LengthError as error:
                plain = self.document.raw(path)[1:-1] == value
                skip = 1 + at + error.offset if plain else 0
                self.fault(path, error.message, error.hint, skip=skip)
                return None
            at += len(text) + len(SEPARATOR)
        if len(ends) != 2 or not ends[0] < ends[1]:
            hint = files.WRITE(text=f'{path[-1]} = "7/32 in to 9/32 in"')
            self.fault(path, files.NO_RANGE(), hint)
            return None
        return (ends[0], ends[1])

    def _ask(self, path: Path, value: Fraction, written: str) -> None:
        key = dotted(path)
        if key not in self.sure:
            found = asked(key, value, written, self.unit, self.sure)
            if found is not None:
                self.questions.append((path, *found))

    def species(self, path: Path) -> str | None:
        """The name of a wood; one that is spelt nearly like a known one is asked about."""
        name = self.text(path)
        if name is None or find(name):
            return name
        close = meant_wood(name)
        key = dotted(path)
        if close is not None and key not in self.sure:
            text = f'{path[-1]} = "{close}"'
            hint = files.MEANT_OR_SURE(text=text, sure=answer(key, self.sure))
            self.questions.append((path, files.UNKNOWN_WOOD(wood=name), hint))
        return name

    def read_sure(self) -> None:
        """The keys that the file is sure of, from its list `sure`."""
        path: Path = ("sure",)
        value = self.document.get(path)
        if value is None:
            return
        if not isinstance(value, list) or not all(isinstance(each, str) for each in value):
            self._wrong(path, files.A_LIST(), 'sure = ["jig.thickness"]')
            return
        known = (*ranges("in"), *WOODS)
        for index, key in enumerate(value):
            if key not in known:
                close = meant(key, known)
                hint = files.DID_YOU_MEAN(name=close) if close else files.LEAVE_IT_OUT()
                self.fault((*path, index), files.NOT_SURE_OF(key=key), hint)
        self.sure = tuple(value)

    def ask_all(self) -> None:
        """Of questions that nothing else answers, each becomes a fault: where no other is."""
        told = {(fault.line, fault.column) for fault in self.faults}
        for path, question, hint in self.questions:
            at = self.document.place(path)
            if (at.line, at.column) not in told:
                self.fault(path, question, hint)

    def number(self, path: Path, wanted: Fact) -> Fraction | None:
        """No length: a plain number, or one in quotes such as `"1/4"`."""
        value = self.document.get(path)
        if isinstance(value, str):
            if _NUMBER.fullmatch(value):
                return sum(map(Fraction, value.split()), Fraction(0))
        elif isinstance(value, int | Fraction) and not isinstance(value, bool) and value >= 0:
            return Fraction(value)
        if value is not None:
            self._wrong(path, wanted, f"{path[-1]} = 2", f'{path[-1]} = "1/4"')
        return None

    def text(self, path: Path) -> str | None:
        """A name: one line, printable, kept as written."""
        value = self.document.get(path)
        if value is None:
            return None
        if not isinstance(value, str):
            self._wrong(path, files.A_TEXT(), f'{path[-1]} = "…"')
            return None
        bad = next((char for char in value if _unprintable(char)), None)
        key = str(path[-1])
        if bad is not None:
            self.fault(path, files.CONTROL(code=f"U+{ord(bad):04X}"), files.LEAVE_IT_OUT())
        elif not value.strip():
            self.fault(path, files.EMPTY_NAME(key=key), files.LEAVE_OUT_OR_NAME())
        elif len(value) > _LONGEST_NAME:
            message = files.TOO_LONG(key=key, most=_LONGEST_NAME)
            self.fault(path, message, files.SHORTEN(now=len(value)))
        else:
            return value
        return None

    def choice(self, path: Path, options: tuple[str, ...]) -> str | None:
        value = self.document.get(path)
        if value is None or value in options:
            return value  # type: ignore[no-any-return]  # one of the options
        key = str(path[-1])
        message = files.NONE_OF(key=key, options=tuple(f'"{option}"' for option in options))
        close = meant(value, options) if isinstance(value, str) else None
        hint = files.WRITE_ONE(texts=tuple(f'{key} = "{option}"' for option in options))
        if close is not None:
            hint = files.DID_YOU_MEAN(name=f'{key} = "{close}"')
        self.fault(path, message, hint)
        return None

    def count(self, path: Path, most: int) -> int | None:
        value = self.document.get(path)
        if value is None:
            return None
        if isinstance(value, bool) or not isinstance(value, int) or not 1 <= value <= most:
            self._wrong(path, files.A_COUNT(most=most), f"{path[-1]} = {min(2, most)}")
            return None
        return value

    def flag(self, path: Path) -> bool | None:
        value = self.document.get(path)
        if value is None or isinstance(value, bool):
            return value
        self._wrong(path, files.TRUE_OR_FALSE(), f"{path[-1]} = true")
        return None

    def _wrong(self, path: Path, wanted: Fact, *examples: str) -> None:
        message = files.NOT_WANTED(key=str(path[-1]), wanted=wanted)
        self.fault(path, message, files.WRITE_ONE(texts=examples))


def meant(written: str, known: Iterable[str]) -> str | None:
    """Which of the names is meant: the same in another case or with other joins, or one that is
    spelt nearly so. `None` where none is.

    >>> meant("Hinge", ["hinge", "lock"]), meant("Edge-Allowance", ["edge_allowance"])
    ('hinge', 'edge_allowance')
    >>> meant("widht", ["width", "height"]), meant("colour", ["width", "height"])
    ('width', None)
    """
    import difflib  # only a slip needs it

    names = {_plainly(name): name for name in known}
    close = difflib.get_close_matches(_plainly(written), names, 1, 0.65)
    return names[close[0]] if close else None


def _plainly(name: str) -> str:
    return re.sub(r"[\s_,-]+", " ", name).strip().lower()


def _dotted(path: Path) -> str:
    """A table as its header has it: `door.rails`."""
    return ".".join(part for part in path if isinstance(part, str))


def _unprintable(char: Any) -> bool:
    return unicodedata.category(char) in ("Cc", "Cs", "Zl", "Zp") or char in _BIDI_CONTROLS
