"""Conversion between units, exactly: pint's rules over fractions.

pint takes a tenth to a fifth of a second to load: what every plan asks for stands here as
pint works it out, and anything else, as centimetres, feet or degrees, loads it.
"""

from __future__ import annotations

from collections.abc import Mapping
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

KNOWN: Mapping[tuple[str, str], Fraction] = {
    ("in", "mm"): Fraction(127, 5),
    ("mm", "in"): Fraction(5, 127),
    ("in ** 2", "inch ** 2"): Fraction(1),
    ("mm ** 2", "inch ** 2"): Fraction(25, 16129),
    ("inch ** 3", "board_foot"): Fraction(1, 144),
    ("inch ** 3", "meter ** 3"): Fraction(2048383, 125 * 10**9),
}
"""Factors that need no pint, held to it by `tests/test_units.py`."""


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
    known = KNOWN.get((from_unit, to_unit))
    if known is not None:
        return Fraction(0), known
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
