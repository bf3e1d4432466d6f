"""Conversion between units, exactly: pint's rules over fractions.

pint takes a tenth to a fifth of a second to load: it is loaded by the first value that is in
another unit than its job, and by the rough list, which counts in the lumber trade's units.
"""

from __future__ import annotations

from fractions import Fraction
from functools import cache
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    import pint

DEFINITIONS = (
    # International inch and foot, exact: NIST SP 811 (2008), appendix B.6; 0.0254 m, 0.3048 m.
    "meter = [length] = m",
    "mm = 0.001 * meter",
    "cm = 0.01 * meter",
    "inch = 0.0254 * meter = in",
    "foot = 12 * inch",
    # A board a foot long, a foot wide and an inch thick: US Navy, Engineering Aid training
    # course, board measure; published.
    "board_foot = foot * foot * inch",
    # Both scales, exact: NIST SP 811 (2008), appendix B.8, factors for temperature.
    "kelvin = [temperature]; offset: 0",
    "degree_Celsius = kelvin; offset: 273.15",
    "degree_Fahrenheit = 5 / 9 * kelvin; offset: 233.15 + 200 / 9",
)


def converted(value: Fraction, from_unit: str, to_unit: str) -> Fraction:
    """The same in the other unit; both are names of `DEFINITIONS`, or powers and products of them.

    >>> converted(Fraction(1), "in", "mm"), converted(Fraction(68), "degree_Fahrenheit",
    ... "degree_Celsius")
    (Fraction(127, 5), Fraction(20, 1))
    """
    at_zero, slope = _line(from_unit, to_unit)
    return at_zero + slope * value


@cache
def _line(from_unit: str, to_unit: str) -> tuple[Fraction, Fraction]:
    """What 0 becomes, and how much each 1 adds."""
    convert = _registry().convert
    at_zero = Fraction(convert(Fraction(0), from_unit, to_unit))
    return at_zero, Fraction(convert(Fraction(1), from_unit, to_unit)) - at_zero


@cache
def _registry() -> pint.UnitRegistry[Fraction]:
    import pint

    made: pint.UnitRegistry[Fraction] = pint.UnitRegistry(None, non_int_type=Fraction)
    for line in DEFINITIONS:
        made.define(line)
    return made
