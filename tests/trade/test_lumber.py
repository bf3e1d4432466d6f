"""Board feet, surface measure and sizes against the trade's printed examples and standards."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from sequencer.trade.lumber import (
    HARDWOOD,
    SOFTWOOD,
    SOFTWOOD_WIDTHS,
    board_feet,
    is_softwood,
    nominal_thickness,
    nominal_width,
    surface_measure,
)
from sequencer.units import converted


def inches(text: str) -> Fraction:
    return sum(map(Fraction, text.split()), Fraction(0))


BOARD_FEET = [
    # Trade press, a tips page on buying hardwood (published): 1 × 9 × 96 in, and 1 1/2 in thick.
    ("1", "9", "96", "6"),
    ("1 1/2", "9", "96", "9"),
    # The same page counts stock 3/4 in thick as a full inch; so does the US Navy's text.
    ("3/4", "9", "96", "6"),
    # A sawmill's page (published): 3 in × 8 in × 10 ft.
    ("3", "8", "120", "20"),
    # A page of worked arithmetic (published, there rounded to 5.3): 2 in × 4 in × 8 ft.
    ("2", "4", "96", "16/3"),
    # A shipper's glossary (published): 1 in × 12 in × 10 ft.
    ("1", "12", "120", "10"),
]


@pytest.mark.parametrize(("thickness", "width", "length", "feet"), BOARD_FEET)
def test_board_feet_of_the_trades_examples(
    thickness: str, width: str, length: str, feet: str
) -> None:
    assert board_feet(inches(thickness), inches(width), inches(length)) == Fraction(feet)


SURFACE_MEASURE = [
    # American Hardwood Export Council, page on measurement (published): 6 1/4 in × 8 ft is 4 1/6.
    ("6 1/4", 8, 4),
    # An importer's page of NHLA rules (published): 6 1/2 in × 8 ft is 4 1/3, 8 in × 12 ft is 8,
    # 10 in × 13 ft is 10 10/12.
    ("6 1/2", 8, 4),
    ("8", 12, 8),
    ("10", 13, 11),
]


@pytest.mark.parametrize(("width", "feet", "measure"), SURFACE_MEASURE)
def test_surface_measure_of_the_trades_examples(width: str, feet: int, measure: int) -> None:
    assert surface_measure(inches(width), Fraction(feet)) == measure


def test_surface_measure_times_thickness_is_board_feet() -> None:
    """American Hardwood Export Council (published): 2 in × 6 1/4 in × 8 ft has surface measure 4
    and 8 board feet. Board feet by volume agree where nothing was rounded."""
    assert 2 * surface_measure(inches("6 1/4"), Fraction(8)) == 8
    assert board_feet(Fraction(2), Fraction(6), Fraction(96)) == 2 * surface_measure(
        Fraction(6), Fraction(8)
    )


@given(st.fractions(1, 30), st.fractions(1, 20))
def test_surface_measure_is_within_half_a_foot(width: Fraction, feet: Fraction) -> None:
    assert abs(surface_measure(width, feet) - width * feet / 12) <= Fraction(1, 2)


def test_a_cubic_metre_in_board_feet() -> None:
    """NIST SP 811 (2008), appendix B.8 (from memory): a board foot is 2.359 737 E−03 cubic
    metres."""
    assert round(converted(Fraction(1), "board_foot", "meter ** 3"), 9) == Fraction("0.002359737")


@pytest.mark.parametrize(
    ("thickness", "hardwood", "softwood"),
    [
        # NHLA standard surfaced thickness; PS 20, dry (published).
        ("3/4", "4/4", "1"),
        ("13/16", "4/4", "2"),
        ("7/8", "5/4", "2"),
        ("1 1/16", "5/4", "2"),
        ("1 5/16", "6/4", "2"),
        ("1 1/2", "8/4", "2"),
        ("1 3/4", "8/4", None),
        ("2 3/4", "12/4", None),
        ("3", None, None),
    ],
)
def test_the_nominal_thickness_that_yields_it(
    thickness: str, hardwood: str | None, softwood: str | None
) -> None:
    hard = nominal_thickness(inches(thickness))
    soft = nominal_thickness(inches(thickness), softwood=True)
    assert (hard and hard.name, soft and soft.name) == (hardwood, softwood)


@pytest.mark.parametrize(
    ("width", "nominal"), [("1 1/2", "2"), ("2 5/8", "4"), ("3 1/2", "4"), ("7 1/4", "8")]
)
def test_the_nominal_width_that_is_as_wide(width: str, nominal: str) -> None:
    """PS 20, dry (published)."""
    found = nominal_width(inches(width))
    assert found is not None
    assert found.name == nominal


def test_nothing_nominal_is_wide_enough() -> None:
    assert nominal_width(inches("7 3/8")) is None


def test_tables_rise_and_surfacing_takes_something() -> None:
    for table in (HARDWOOD, SOFTWOOD, SOFTWOOD_WIDTHS):
        assert all(each.surfaced < each.nominal for each in table)
        assert [each.surfaced for each in table] == sorted(each.surfaced for each in table)


@pytest.mark.parametrize(
    ("species", "soft"),
    [
        ("eastern white pine", True),
        ("Douglas-fir", True),
        ("western redcedar", True),
        ("redwood", True),
        ("baldcypress", True),
        ("black cherry", False),
        ("cherry", False),
        ("red oak", False),
        ("poplar", False),
        ("wood of the shed", False),
    ],
)
def test_a_softwood_is_a_conifer(species: str, soft: bool) -> None:
    assert is_softwood(species) == soft
