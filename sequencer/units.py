"""Conversion between units, exactly: pint's rules over fractions.

pint takes a third of a second to load, and a plan in millimetres asks for inches at every board
that is bought. So the one factor that every plan needs is written down, and held against pint by a
test; whatever else is converted loads it.
"""

from __future__ import annotations

from fractions import Fraction
from functools import cache
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    import pint

INCH = Fraction(127, 5)
"""mm, exact: NIST SP 811 (2008), appendix B.6."""

DEFINITIONS = (
    # International inch, exact: NIST SP 811 (2008), appendix B.6; 0.0254 m.
    "meter = [length]",
    "mm = 0.001 * meter",
    "inch = 0.0254 * meter",
    # Both scales, exact: NIST SP 811 (2008), appendix B.8, factors for temperature.
    "kelvin = [temperature]; offset: 0",
    "degree_Celsius = kelvin; offset: 273.15",
    "degree_Fahrenheit = 5 / 9 * kelvin; offset: 233.15 + 200 / 9",
)


def converted(value: Fraction, from_unit: str, to_unit: str) -> Fraction:
    """The same in the other unit; both are names of `DEFINITIONS`, or powers and products of them.

    >>> converted(Fraction(1), "inch", "mm"), converted(Fraction(68), "degree_Fahrenheit",
    ... "degree_Celsius")
    (Fraction(127, 5), Fraction(20, 1))
    """
    return Fraction(_registry().convert(value, from_unit, to_unit))


@cache
def _registry() -> pint.UnitRegistry[Fraction]:
    import pint

    made: pint.UnitRegistry[Fraction] = pint.UnitRegistry(None, non_int_type=Fraction)
    for line in DEFINITIONS:
        made.define(line)
    return made
