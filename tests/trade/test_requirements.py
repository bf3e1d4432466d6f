"""What leaves are held to and how far shops are off: every figure says where it is from, and its
inch and millimetre figures are one."""

from __future__ import annotations

import pytest

from sequencer.trade import requirements, spreads
from sequencer.trade.fits import Datum

FIGURES = {
    f"{module.__name__}.{name}": value
    for module in (requirements, spreads)
    for name, value in vars(module).items()
    if isinstance(value, Datum)
}
GROUNDS = (
    "ours", "common practice", "DIN 862", "trade answers, published", "a US university",
)  # fmt: skip


@pytest.mark.parametrize("name", FIGURES)
def test_it_says_where_it_is_from(name: str) -> None:
    assert FIGURES[name].source.startswith(GROUNDS)


@pytest.mark.parametrize("name", FIGURES)
def test_both_units_say_the_same(name: str) -> None:
    """Within a quarter: a rule's half mark is 1/128 in or 0.25 mm, 0.198 and 0.25."""
    figure = FIGURES[name]
    assert abs(figure.inch * 254 / 10 - figure.mm) <= figure.mm / 4


def test_a_calipers_error_is_within_the_standards() -> None:
    """DIN 862, digital step 0.01 mm, up to 300 mm: 0.02 mm (table in makers' data sheets)."""
    assert float(spreads.CALIPER.mm) == 0.02


def test_air_in_a_joint_stays_under_what_costs_a_fifth_of_its_strength() -> None:
    """0.010 in: tests at a US university's wood laboratory, second-hand from a magazine."""
    assert float(requirements.JOINT_AIR.inch) <= 0.010
