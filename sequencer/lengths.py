"""Lengths, exact from the file to the sheet: read strictly, converted, shown as a rule shows them.

A length is a `Fraction` in a unit that is known from context. One spelling rule for every file:

- whole or decimal: `22`, `22.5` (digits on both sides of the point, no commas)
- inches with a fraction: `3/4`, `22 1/2`, `22-1/2`, `22½`; the fraction is smaller than 1 and its
  lower number one of 2, 4, 8 … 1024, as on a rule (`3/2` is written `1 1/2`; a third, `0.333`)
- feet and inches: `6'`, `6' 3-1/2"`, the inches under 12 and marked
- with a unit: `in` or `"`, `mm`, `cm`; without one it is in the file's unit

`″ ′ ⁄` are read like `" ' /`. Millimetres take no fractions: `22-1/2` in a millimetre file is
sooner a forgotten `in` than 22.5 mm. Anything else raises `LengthError`, which says where and how
to write it.
"""

from __future__ import annotations

import re
from fractions import Fraction
from functools import partial
from unicodedata import normalize

from msgspec import Struct

from sequencer.facts import Fact, spellings
from sequencer.facts.model import Unit
from sequencer.units import converted

__all__ = [
    "EXAMPLE",
    "LONGEST_TEXT",
    "LengthError",
    "Shown",
    "Unit",
    "convert",
    "exact",
    "mixed",
    "parse",
    "show",
]

EXAMPLE: dict[Unit, str] = {"in": "22 1/2", "mm": "571.5"}
LONGEST_TEXT = 40
_FINEST = 1024  # no rule, caliper or shim is divided finer
_INCH_MARKS = ('"', "″")

_WHOLE = r"(?:0|[1-9][0-9]*)"
_VULGAR = "½¼¾⅛⅜⅝⅞⅓⅔⅕⅖⅗⅘⅙⅚⅐⅑⅒"
_LENGTH = re.compile(
    rf"""\ *
    (?: (?P<feet>{_WHOLE})\ *['′] (?:-|\ *) )?
    (?: (?P<decimal>{_WHOLE}\.[0-9]+)
      | (?: (?P<whole>{_WHOLE}) (?:-|\ +) )? (?P<top>[1-9][0-9]*)[/⁄](?P<bottom>[1-9][0-9]*)
      | (?: (?P<before>{_WHOLE}) (?:-|\ +)? )? (?P<vulgar>[{_VULGAR}])
      | (?P<only>{_WHOLE})
    )?
    \ *(?P<unit>in|mm|cm|["″])?\ *""",
    re.VERBOSE,
)


class LengthError(ValueError):
    """A text that is not a length. `offset` counts characters of `text` from 0; `hint` says how
    to write it."""

    def __init__(self, text: str, offset: int, message: Fact, hint: Fact) -> None:
        self.text = text
        self.offset = offset
        self.message = message
        self.hint = hint
        super().__init__(f"{message}: {hint}")


class Shown(Struct, frozen=True):
    """A length as it is printed: `text` to the graduation, `exact` when nothing was rounded for
    it, `decimal` to thousandths of an inch or hundredths of a millimetre."""

    text: str
    exact: bool
    decimal: str


def parse(text: str, unit: Unit) -> Fraction:
    """The length in `unit`, never negative. Raises `LengthError` for any other spelling.

    >>> parse("22-1/2", "in"), parse("571.5 mm", "in"), parse("57.15 cm", "mm")
    (Fraction(45, 2), Fraction(45, 2), Fraction(1143, 2))
    """
    match = _match(text)
    if match is None:
        # Loaded here: only a wrong text needs the table of what can be wrong.
        from sequencer.spelling import diagnose

        raise LengthError(
            text, *diagnose(text, EXAMPLE[unit], LONGEST_TEXT, partial(_reads, unit=unit))
        )
    own = "in" if match["unit"] in _INCH_MARKS or match["feet"] else match["unit"] or unit
    amount = _amount(match, metric=own != "in")
    if match["feet"]:
        amount = _feet(match, amount)
    return amount if own == unit else converted(amount, own, unit)


def convert(value: Fraction, from_unit: Unit, to_unit: Unit) -> Fraction:
    """The same length in the other unit, exactly: 1 in is 127/5 mm.

    >>> convert(Fraction(127), "mm", "in")
    Fraction(5, 1)
    """
    if from_unit == to_unit:
        return value
    return converted(value, from_unit, to_unit)


def show(value: Fraction, unit: Unit, graduation: Fraction) -> Shown:
    """The length to the nearest graduation, halfway cases to the even one: inches as a mixed
    fraction (`graduation` one over a power of two), millimetres as a decimal.

    >>> show(Fraction(15, 64), "in", Fraction(1, 32))
    Shown(text='1/4', exact=False, decimal='0.234')
    >>> show(Fraction(1143, 2), "mm", Fraction(1, 2))
    Shown(text='571.5', exact=True, decimal='571.50')
    """
    nearest = round(value / graduation) * graduation
    text = mixed(nearest) if unit == "in" else _shortest(nearest)
    return Shown(text, nearest == value, _decimal(value, 3 if unit == "in" else 2))


def exact(value: Fraction) -> str:
    """In lowest terms, as plans are written: `23/4`, `19`."""
    return str(value)


def mixed(value: Fraction) -> str:
    """Whole number and proper fraction.

    >>> mixed(Fraction(45, 2)), mixed(Fraction(3, 4)), mixed(Fraction(0))
    ('22 1/2', '3/4', '0')
    """
    whole, rest = divmod(abs(value), 1)
    sign = "-" if value < 0 else ""
    return sign + (" ".join(str(part) for part in (whole, rest) if part) or "0")


def _decimal(value: Fraction, places: int) -> str:
    whole, rest = divmod(round(abs(value) * 10**places), 10**places)
    sign = "-" if value < 0 and (whole or rest) else ""
    return f"{sign}{whole}.{rest:0{places}d}"


def _shortest(value: Fraction) -> str:
    """A terminating decimal without closing noughts; to a thousandth when it does not end."""
    text = _decimal(value, 6) if 10**6 % value.denominator == 0 else _decimal(value, 3)
    return text.rstrip("0").rstrip(".")


def _match(text: str) -> re.Match[str] | None:
    match = _LENGTH.fullmatch(text) if len(text) <= LONGEST_TEXT else None
    return match if match and (match["feet"] or _has_number(match)) else None


def _reads(text: str, unit: Unit) -> bool:
    """Whether a repaired text is a length after all, and may be offered as the right spelling."""
    match = _match(text)
    if match is None:
        return False
    try:
        parse(text, unit)
    except LengthError:
        return False
    return True


def _has_number(match: re.Match[str]) -> bool:
    return any(match[name] for name in ("decimal", "top", "vulgar", "only"))


def _amount(match: re.Match[str], *, metric: bool) -> Fraction:
    """The number before its unit, feet apart."""
    if not _has_number(match):
        return Fraction(0)
    plain = match["decimal"] or match["only"]
    if plain:
        return Fraction(plain)
    whole = int(match["whole"] or match["before"] or 0)
    if match["vulgar"]:
        top, bottom = map(int, normalize("NFKC", match["vulgar"]).split("⁄"))
        place = match.start("vulgar")
    else:
        top, bottom = int(match["top"]), int(match["bottom"])
        place = match.start("top")
    value = whole + Fraction(top, bottom)

    def error(message: Fact, hint: Fact) -> LengthError:
        return LengthError(match.string, place, message, hint)

    on_rules = not bottom & (bottom - 1) and bottom <= _FINEST
    if metric:
        meant = f"{mixed(value)} in" if on_rules and not match["unit"] else None
        decimal = f"{_shortest(value)} {match['unit'] or 'mm'}" if 1000 % bottom == 0 else None
        raise error(spellings.MM_FRACTION(), _mm_hint(decimal, meant))
    if not on_rules:
        feet, mark = (f"{match['feet']}' ", '"') if match["feet"] else ("", " in")
        nearest = mixed(Fraction(round(value * 64), 64))
        text = f"{feet}{_shortest(round(value, 4))}{mark}"
        raise error(
            spellings.NOT_ON_RULES(parts=bottom),
            spellings.WRITE(text=text)
            if nearest == "0"
            else spellings.WRITE_NEAREST(text=text, nearest=f"{feet}{nearest}{mark}"),
        )
    if top >= bottom:
        write = spellings.WRITE_ROUGH if bottom == 4 and not whole else spellings.WRITE
        raise error(spellings.NOT_BELOW_ONE(fraction=f"{top}/{bottom}"), write(text=mixed(value)))
    return value


def _mm_hint(decimal: str | None, inches: str | None) -> Fact:
    """How to write millimetres, and inches where those may be meant."""
    if inches is None:
        return spellings.WRITE(text=decimal) if decimal else spellings.WRITE_DECIMAL()
    if decimal is None:
        return spellings.WRITE_DECIMAL_OR_INCHES(inches=inches)
    return spellings.WRITE_OR_INCHES(text=decimal, inches=inches)


def _feet(match: re.Match[str], inches: Fraction) -> Fraction:
    """Feet and inches, as inches."""
    feet = int(match["feet"])
    after, unit = match.end("feet") + 1, match.start("unit")
    wrong = None
    if match["unit"] in ("mm", "cm"):
        hint = spellings.WRITE_EITHER(text="6' 3\"", other="1905 mm")
        wrong = unit, spellings.FEET_AND_MM(), hint
    elif _has_number(match) and not match["unit"]:
        more, left = divmod(inches, 12)
        wrong = after, spellings.INCHES_UNMARKED(), _feet_hint(feet + more, left)
    elif match["unit"] and not _has_number(match):
        wrong = unit, spellings.TWO_UNITS(), _feet_hint(feet, Fraction(0))
    elif inches >= 12:
        more, left = divmod(inches, 12)
        wrong = after, spellings.TWELVE_INCHES(), _feet_hint(feet + more, left)
    if wrong:
        raise LengthError(match.string, *wrong)
    return 12 * feet + inches


def _feet_hint(feet: int, inches: Fraction) -> Fact:
    return spellings.WRITE(text=f"{feet}' {mixed(inches)}\"" if inches else f"{feet}'")


def round_up(length: Fraction, unit: Unit) -> Fraction:
    """The next larger length that is easily written."""
    step = Fraction(1, 64) if unit == "in" else Fraction(1, 10)
    return -(-length // step) * step
