"""Lengths and minutes as they stand in a line of text.

Inches carry a double prime, so that no number runs into the word “in”; a rounded length never
stands alone.
"""

from __future__ import annotations

from fractions import Fraction

from sequencer.facts import Length, Unit
from sequencer.lengths import mixed, show

SIGNS: dict[Unit, str] = {"in": "″", "mm": " mm"}
_PLACES: dict[Unit, int] = {"in": 3, "mm": 2}
_FINEST = Fraction(1, 64)
_QUARTERS = {Fraction(0): "", Fraction(1, 4): "¼", Fraction(1, 2): "½", Fraction(3, 4): "¾"}


def inline(length: Length, graduation: Fraction | None = None) -> str:
    """To the graduation, with the decimal where that rounds; without one, a fraction of inches
    only where 1/64 shows it exactly.

    >>> inline(Length(Fraction(33, 128), "in"), Fraction(1, 64))
    '1/4″ (0.258″)'
    >>> inline(Length(Fraction(1, 256), "in"), Fraction(1, 64)), inline(Length(Fraction(6), "mm"))
    ('0.004″', '6 mm')
    """
    value, unit = length.value, length.unit
    sign = SIGNS[unit]
    if graduation is None:
        if unit == "in" and value % _FINEST == 0:
            return f"{mixed(value)}{sign}"
        return f"{_short(length)}{sign}"
    shown = show(value, unit, graduation)
    if shown.exact:
        return f"{shown.text}{sign}"
    if unit == "mm" or shown.text == "0":
        return f"{_short(length)}{sign}"
    return f"{shown.text}{sign} ({shown.decimal}{sign})"


def moved_by(stood: Fraction, number: Fraction, unit: Unit, graduation: Fraction) -> str:
    """How far a knob goes, as the figures of both ends say it: where these are rounded, and their
    difference is another than the rounded way between them, as a decimal alone.

    >>> half = Fraction(1, 128)
    >>> moved_by(Fraction(1, 4), Fraction(3, 8) + half, "in", Fraction(1, 64))
    '1/8″ (0.133″)'
    >>> moved_by(Fraction(1, 4) + half, Fraction(3, 8) - half, "in", Fraction(1, 64))
    '0.109″'
    """
    length = Length(abs(number - stood), unit)
    if unit == "mm":
        return inline(length, graduation)
    ends = [round(value / graduation) for value in (stood, number)]
    agree = round(length.value / graduation) == abs(ends[1] - ends[0])
    return inline(length, graduation) if agree else decimal(length)


def decimal(length: Length) -> str:
    """As a caliper shows it, with its sign.

    >>> decimal(Length(Fraction(1, 4), "in")), decimal(Length(Fraction(6), "mm"))
    ('0.250″', '6.00 mm')
    """
    return f"{show(length.value, length.unit, Fraction(1)).decimal}{SIGNS[length.unit]}"


def fine(length: Length) -> str:
    """As a caliper shows it; with a place more where that would hide a difference.

    >>> fine(Length(Fraction(1, 4), "in")), fine(Length(Fraction(61, 1000), "mm"))
    ('0.250″', '0.061 mm')
    """
    places = _PLACES[length.unit]
    if (length.value * 10**places).denominator == 1:
        return decimal(length)
    whole, rest = divmod(round(length.value * 10 ** (places + 1)), 10 ** (places + 1))
    text = f"{whole}.{rest:0{places + 1}d}".rstrip("0").rstrip(".")
    return f"{text}{SIGNS[length.unit]}"


def as_written(length: Length) -> str:
    """As a job file has it: `22 1/2 in`, `0.234 in`, `571.5 mm`.

    >>> as_written(Length(Fraction(45, 2), "in")), as_written(Length(Fraction(6), "mm"))
    ('22 1/2 in', '6 mm')
    """
    value, unit = length.value, length.unit
    if unit == "in" and value % _FINEST == 0:
        return f"{mixed(value)} in"
    return f"{_short(length)} {unit}"


def minutes(value: Fraction) -> str:
    """The number alone, with quarters as on a clock: `41½`; a decimal where it is no quarter.

    >>> minutes(Fraction(83, 2)), minutes(Fraction(1, 4)), minutes(Fraction(1, 3))
    ('41½', '¼', 'about 0.3')
    """
    whole, rest = divmod(value, 1)
    if rest in _QUARTERS:
        return f"{whole if whole or not rest else ''}{_QUARTERS[rest]}"
    tenths = round(value * 10)
    text = f"{tenths // 10}.{tenths % 10}"
    return text if tenths == value * 10 else f"about {text}"


def tenth(value: Fraction | int) -> str:
    """To a tenth, as a moisture meter shows it.

    >>> tenth(Fraction(8)), tenth(Fraction(92, 10)), tenth(Fraction(-1, 2))
    ('8', '9.2', '-0.5')
    """
    whole, rest = divmod(abs(round(value * 10)), 10)
    return f"{'-' if value < 0 else ''}{whole}" + (f".{rest}" if rest else "")


def _short(length: Length) -> str:
    text = show(length.value, length.unit, Fraction(1)).decimal
    return text if length.unit == "in" else text.rstrip("0").rstrip(".")
