"""Texts of good files, changed as slips of hand, of programs and of chance change them."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from random import Random

TOKENS = (
    '"', "'", "=", "[", "]", "[[door]]", "[door.opening]", "{", "}", ",", ".", "#", "\n", "\r\n",
    "\t", "\ufeff", "\u00a0", "½", "″", "“", "”", "\u202e", "\x00", "-", "--", "/", "0", "1e9",
    "99999999", "12345678.5", "-1", "nan", "inf", "true", "1979-05-27", "in", "mm", "' 3\"", "é",
    "unit", "unit = \"mm\"\n", "x" * 70, "1/0", "3/2", "7/32 to 9/32", "to", "sure", "\U0001f6aa",
)  # fmt: skip
"""What may come in anywhere."""
VALUES = (
    '"0"', '""', '"1/64"', '"99999999"', '"12345678"', '"1/3"', '"2 to 3"', '"40"', '"x"', "1", "0",
    "-3", "1.5", "true", "[]", "{}", '["A"]', '["A", "B"]', "[[1]]", "1e400", '"\\u0000"', "nan",
    '"1 in"', '"1000 mm"', '"5\' 2\\""', "[1, \"a\"]", '{a = "1"}',
)  # fmt: skip
"""What may stand where a value stood."""


def mutant(chance: Random, text: str, texts: Sequence[str]) -> str:
    """The text with one change or several; a line of another of the `texts` may come in."""
    for _ in range(chance.choice((1, 1, 1, 2, 4))):
        text = chance.choice(_CHANGES)(chance, text, texts)
    return text


def _place(chance: Random, text: str) -> int:
    return chance.randint(0, len(text))


def _out(chance: Random, text: str, _texts: Sequence[str]) -> str:
    at = _place(chance, text)
    return text[:at] + text[at + chance.choice((1, 1, 2, 9)) :]


def _in(chance: Random, text: str, _texts: Sequence[str]) -> str:
    at = _place(chance, text)
    return text[:at] + chance.choice(TOKENS) + text[at:]


def _instead(chance: Random, text: str, _texts: Sequence[str]) -> str:
    at = _place(chance, text)
    return text[:at] + chance.choice(TOKENS) + text[at + 1 :]


def _digit(chance: Random, text: str, _texts: Sequence[str]) -> str:
    """Another figure in a number, of all slips the likeliest to be read."""
    places = [at for at, char in enumerate(text) if char.isdigit()]
    if not places:
        return text
    at = chance.choice(places)
    return text[:at] + chance.choice("0123456789") + text[at + 1 :]


def _lines(change: Callable[[Random, list[str], Sequence[str]], None]) -> _Change:
    def changed(chance: Random, text: str, texts: Sequence[str]) -> str:
        lines = text.split("\n")
        change(chance, lines, texts)
        return "\n".join(lines)

    return changed


def _line_gone(chance: Random, lines: list[str], _texts: Sequence[str]) -> None:
    del lines[chance.randrange(len(lines))]


def _line_twice(chance: Random, lines: list[str], _texts: Sequence[str]) -> None:
    lines.insert(chance.randrange(len(lines) + 1), chance.choice(lines))


def _line_of_another(chance: Random, lines: list[str], texts: Sequence[str]) -> None:
    line = chance.choice(chance.choice(texts).split("\n"))
    lines.insert(chance.randrange(len(lines) + 1), line)


def _value(chance: Random, lines: list[str], _texts: Sequence[str]) -> None:
    having = [number for number, line in enumerate(lines) if "=" in line]
    if having:
        number = chance.choice(having)
        key = lines[number].partition("=")[0]
        lines[number] = f"{key}= {chance.choice(VALUES)}"


def _cell(chance: Random, lines: list[str], _texts: Sequence[str]) -> None:
    number = chance.randrange(len(lines))
    cells = lines[number].split(",")
    cells[chance.randrange(len(cells))] = chance.choice((*VALUES, *TOKENS))
    lines[number] = ",".join(cells)


_Change = Callable[[Random, str, Sequence[str]], str]
_CHANGES: tuple[_Change, ...] = (
    _digit, _digit, _digit, _out, _in, _instead, _lines(_line_gone), _lines(_line_twice),
    _lines(_line_of_another), _lines(_value), _lines(_value), _lines(_cell),
)  # fmt: skip
