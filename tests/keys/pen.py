"""Writes a TOML file as a person might: any of its keys, its lengths in any of their spellings."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction
from random import Random

from sequencer.lengths import Unit, mixed

INCH = Fraction(127, 5)

ODD_LENGTHS = (
    "0", "1/128", "0.0001", "1/3", "5/64", "37/64", "3 7/64", "24", "119 63/64", "0.05 mm",
    "33.3 mm", "2999.99 mm", "1.27 cm", "1/16 in", "½", "11 13/16 in",
)  # fmt: skip
"""What hardly anybody writes, and some only as a slip."""
ODD_TEXTS = ("<b>&amp;</b>", "Ωß ½ × 2", "x" * 60, "a, b; 'c'", "=1+1", "{{ 7 * 7 }}", "ash, white")
ODD_NUMBERS = ("0", "1", '"1/4"', "0.5", "29", "120", "200", '"7 1/2"')
ODD_COUNTS = ("1", "2", "3", "8", "40")


@dataclass(frozen=True, slots=True)
class Written:
    """A file's text, and the keys that it sets, as the README names them."""

    text: str
    keys: frozenset[str]


class Pen:
    """`forced` keys are set whatever chance says; `odd` ones get a value that few would write."""

    def __init__(self, chance: Random, unit: Unit, forced: Sequence[str], *, odd: bool) -> None:
        self.chance = chance
        self.unit = unit
        self.forced = forced
        self.odd = forced if odd else ()
        self.keys: set[str] = set()
        self.lines: list[str] = []

    def written(self) -> Written:
        return Written("\n".join(self.lines) + "\n", frozenset(self.keys))

    def wants(self, *keys: str, share: float = 0.25) -> bool:
        """Whether one of the keys is forced, or comes by chance."""
        return any(key in self.forced for key in keys) or self.chance.random() < share

    def in_table(self, table: str) -> bool:
        """Whether a key of the table is forced."""
        return any(key.startswith(f"{table}.") for key in self.forced)

    def one(self, *of: str) -> str:
        return self.chance.choice(of)

    def head(self, line: str) -> None:
        self.lines.append(line)

    def raw(self, key: str, *values: str, odd: Sequence[str] = ()) -> None:
        """One of some values as TOML has them; the key is the last part of its name here."""
        value = self.one(*odd) if odd and key in self.odd else self.one(*values)
        self.keys.add(key)
        self.lines.append(f"{key.rpartition('.')[2]} = {value}")

    def word(self, key: str, *words: str) -> None:
        self.raw(key, *(f'"{word}"' for word in words))

    def text(self, key: str, *texts: str) -> None:
        self.raw(key, *(f'"{text}"' for text in texts), odd=[f'"{each}"' for each in ODD_TEXTS])

    def count(self, key: str, low: int, high: int) -> None:
        self.raw(key, str(self.chance.randint(low, high)), odd=ODD_COUNTS)

    def number(self, key: str, low: int, high: int) -> None:
        self.raw(key, str(self.chance.randint(low, high)), odd=ODD_NUMBERS)

    def length(self, key: str, low: str, high: str, *, fine: bool = False) -> Fraction:
        """A length between two of so many inches, in a spelling of its own; what it is in the
        file's unit, as far as that is meant well."""
        value = self.between(low, high, fine=fine)
        self.raw(key, f'"{self.spelt(value)}"', odd=[f'"{each}"' for each in ODD_LENGTHS])
        return value

    def between(self, low: str, high: str, *, fine: bool = False) -> Fraction:
        if self.unit == "in":
            step = Fraction(1, 1000) if fine else Fraction(1, self.chance.choice((8, 16, 32)))
            scale = Fraction(1)
        else:
            step, scale = Fraction(1, 100 if fine else self.chance.choice((1, 2))), INCH
        least, most = -(-Fraction(low) * scale // step), Fraction(high) * scale // step
        return self.chance.randint(int(least), max(int(least), int(most))) * step

    def spelt(self, value: Fraction) -> str:
        """A length of the file's unit as somebody would write it."""
        decimal = _decimal(value)
        fraction = value.denominator & (value.denominator - 1) == 0 and value.denominator <= 64
        ways = [decimal, f"{decimal} {self.unit}", f"{decimal}{self.unit}"]
        if self.unit == "in" and fraction:
            plain = mixed(value)
            ways += [plain, plain, plain.replace(" ", "-"), f"{plain} in"]
        if self.unit == "mm":
            ways += [decimal, f"{_decimal(value / 10)} cm"]
        elif (value * INCH * 100).denominator == 1:
            ways.append(f"{_decimal(value * INCH)} mm")
        return self.one(*ways)


def _decimal(value: Fraction) -> str:
    """All digits of a fraction that has an end.

    >>> _decimal(Fraction(7, 32))
    '0.21875'
    """
    return f"{float(value):.9f}".rstrip("0").rstrip(".")
