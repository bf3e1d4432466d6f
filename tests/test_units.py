"""Conversion by pint, and the figures that stand as fractions against it."""

from __future__ import annotations

from fractions import Fraction

import pint
from hypothesis import given
from hypothesis import strategies as st

from sequencer import units
from sequencer.lengths import convert
from sequencer.trade.moisture import celsius
from sequencer.units import converted


@given(st.fractions())
def test_there_and_back(value: Fraction) -> None:
    assert convert(convert(value, "in", "mm"), "mm", "in") == value
    warm = converted(value, "degree_Celsius", "degree_Fahrenheit")
    assert celsius(warm) == value


def test_scales_meet_where_they_are_known_to() -> None:
    """Water freezes at 32 °F; both scales read alike at −40 (NIST SP 811, appendix B.8)."""
    assert celsius(Fraction(32)) == 0
    assert celsius(Fraction(-40)) == -40


def test_what_stands_ready_is_as_pint_works_it_out() -> None:
    """By our definitions and by pint's own."""
    for registry in (units._registry(), pint.UnitRegistry(non_int_type=Fraction)):
        for (ours, other), factor in units.KNOWN.items():
            assert registry.convert(Fraction(1), ours, other) == factor


def test_the_definitions_are_those_of_pints_own_table() -> None:
    registry: pint.UnitRegistry[Fraction] = pint.UnitRegistry(non_int_type=Fraction)
    for ours, other in (("in", "mm"), ("cm", "mm"), ("foot", "in"), ("inch ** 3", "meter ** 3")):
        for value in (Fraction(1), Fraction(-7, 3)):
            assert converted(value, ours, other) == registry.convert(value, ours, other)
    assert converted(Fraction(1), "board_foot", "inch ** 3") == 144
