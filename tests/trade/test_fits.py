"""The figures of the trade in both units."""

from __future__ import annotations

import importlib
import pkgutil
from fractions import Fraction

import sequencer
from sequencer.trade.fits import Datum

STEPS = {"WIDTH_STEP", "BLANK_STEP", "STEP"}
"""What sizes are rounded to is a round figure of each unit's own; a card of 1 mm, too, where
there is veneer of 1/32 in."""

MARKS = {
    "PANEL_STEP", "PANEL_BAND", "LIGHT_BAND",
    "SHOULDER_BAND", "LENGTH_BAND", "OPENING_BAND", "DIAGONAL_BAND", "CORNERS_BAND", "SLAB_OVER",
    "RULE",
}  # fmt: skip
"""What is read by rule or tape is whole marks of each unit's own: half a millimetre for 1/64 in."""


def figures() -> dict[str, Datum]:
    """Every one of the program's, by the name that it has in its module."""
    found: dict[str, Datum] = {}
    for module in pkgutil.walk_packages(sequencer.__path__, "sequencer."):
        if not module.name.endswith("__main__"):
            names = vars(importlib.import_module(module.name))
            found |= {name: each for name, each in names.items() if isinstance(each, Datum)}
    return found


def test_a_shop_in_millimetres_is_held_to_what_one_in_inches_is() -> None:
    """As near as the round figures of a rule are: 3 mm for 1/8 in is 5.5 % less."""
    lot = figures()
    assert len(lot) > 30
    for name, datum in lot.items():
        if datum.inch == datum.mm == 0:
            continue  # nothing is nothing in either
        if name in MARKS:
            assert 1 < datum.mm / (datum.inch * Fraction(254, 10)) < Fraction(13, 10), name
        elif name not in {*STEPS, "THINNEST"}:
            share = datum.mm / (datum.inch * Fraction(254, 10))
            assert Fraction(94, 100) < share < Fraction(106, 100), name
