"""Movement against the Wood Handbook (FPL-GTR-190, 2010) and rules of thumb of the trade."""

from __future__ import annotations

import csv
from fractions import Fraction
from pathlib import Path

import pytest

from sequencer.movement import width_at
from sequencer.trade.moisture import celsius, equilibrium
from sequencer.trade.species import find, species


def rows(path: Path) -> list[dict[str, str]]:
    return list(csv.DictReader(path.read_text(encoding="utf-8").splitlines()))


CELLS = rows(Path(__file__).with_name("emc_cells.csv"))
SPECIES = Path(__file__).parents[2] / "sequencer" / "trade" / "species.csv"


@pytest.mark.parametrize("cell", CELLS, ids=lambda c: f"{c['temp_F']}F-{c['rh_pct']}%")
def test_moisture_table(cell: dict[str, str]) -> None:
    """Table 4-2, p. 4-4: the equation gives every printed cell within 0.07 % of moisture."""
    got = equilibrium(celsius(Fraction(cell["temp_F"])), Fraction(cell["rh_pct"]))
    assert abs(got - Fraction(cell["emc_pct"])) <= Fraction(7, 100)


def test_all_cells_are_there() -> None:
    assert len(CELLS) == 190


def test_worked_example() -> None:
    """p. 13-17, the printed result; the inputs from memory: flatsawn white fir 232 mm wide (9.15
    in), from 8 to 11 %: 233.7 mm (9.217 in)."""
    (fir,) = find("white fir")
    mm = width_at(Fraction(232), fir, "flat", Fraction(8), Fraction(11))
    assert abs(mm - Fraction("233.7")) < Fraction("0.05")
    inches = width_at(Fraction("9.15"), fir, "flat", Fraction(8), Fraction(11))
    assert abs(inches - Fraction("9.217")) < Fraction("0.001")


@pytest.mark.parametrize(
    ("name", "sawn", "change"),
    [
        ("black cherry", "flat", "3.720"),
        ("sugar maple", "flat", "5.295"),
        ("sugar maple", "quarter", "2.475"),
        ("black walnut", "flat", "4.110"),
        ("red oak commercial", "flat", "5.535"),
        ("eastern white pine", "flat", "3.180"),
    ],
)
def test_eq_13_2(name: str, sawn: str, change: str) -> None:
    """Eq. 13-2, p. 13-15, with Table 13-5's coefficients: 300 mm wide, from 6 to 11 %."""
    found = find(name)[0]
    got = width_at(Fraction(300), found, "flat" if sawn == "flat" else "quarter",
                   Fraction(6), Fraction(11))  # fmt: skip
    assert got - 300 == Fraction(change)


def agrees(coefficient: Fraction, shrinkage: Fraction, begins: Fraction) -> bool:
    given = shrinkage / (100 * begins - (begins - 10) * shrinkage)
    return abs(given - coefficient) <= Fraction("0.00001") + Fraction("0.000005")


def test_coefficients_against_shrinkage() -> None:
    """Eq. 13-3, p. 13-17, at 10 %: C = S / (100·F − (F − 10)·S), F where shrinking begins: 30 %, or
    22 % for western redcedar, northern white-cedar and redwood. The rows marked as agreeing give
    Table 13-5's printed coefficients to its last place."""
    checked = 0
    for row in rows(SPECIES):
        if row["eq_13_3_agrees_at_fsp"] not in ("30", "22"):
            continue
        begins = Fraction(row["eq_13_3_agrees_at_fsp"])
        for c, s in (("CR", "shrink_radial_pct"), ("CT", "shrink_tangential_pct")):
            if row[c] and row[s]:
                checked += 1
                assert agrees(Fraction(row[c]), Fraction(row[s]), begins), row["species"]
    assert checked >= 140


def test_outside_the_linear_range_eq_13_3_takes_over() -> None:
    """From green to ovendry (30 to 0 %) Eq. 13-3 gives back the shrinkage itself: Table 4-3, black
    cherry 7.1 % tangential."""
    (cherry,) = find("black cherry")
    dry = width_at(Fraction(100), cherry, "flat", Fraction(30), Fraction(0))
    assert 100 - dry == Fraction("7.1")


def test_a_name_that_means_several_gives_them_all() -> None:
    assert {each.name for each in find("walnut")} == {"walnut, black"}
    assert len(find("maple")) == 5
    assert find("no such wood") == ()


def test_figures_from_the_tables_are_sane() -> None:
    """Tangential movement exceeds radial in every row (Wood Handbook, p. 4-5)."""
    for each in species():
        if each.radial is not None and each.tangential is not None:
            assert each.tangential > each.radial, each.name
