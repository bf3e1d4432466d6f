"""Conversion by pint, and the figures that stand as fractions against it."""

from __future__ import annotations

from fractions import Fraction

from hypothesis import given
from hypothesis import strategies as st

from sequencer.lengths import convert
from sequencer.proof.carriers import CARRIERS
from sequencer.trade.lumber import CUBIC_METRE
from sequencer.trade.moisture import celsius
from sequencer.units import INCH, converted


@given(st.fractions())
def test_there_and_back(value: Fraction) -> None:
    assert convert(convert(value, "in", "mm"), "mm", "in") == value
    warm = converted(value, "degree_Celsius", "degree_Fahrenheit")
    assert celsius(warm) == value


def test_scales_meet_where_they_are_known_to() -> None:
    """Water freezes at 32 °F; both scales read alike at −40 (NIST SP 811, appendix B.8)."""
    assert celsius(Fraction(32)) == 0
    assert celsius(Fraction(-40)) == -40


def test_figures_that_every_plan_needs_are_those_of_pint() -> None:
    assert converted(Fraction(1), "inch", "mm") == INCH
    assert converted(Fraction(1), "meter ** 3", "inch ** 3") == CUBIC_METRE
    bearing = CARRIERS["rip-fence"].bearing
    assert bearing is not None
    assert converted(bearing, "mm", "inch") * 1270 == CARRIERS["rip-fence"].least("in", 1270)
