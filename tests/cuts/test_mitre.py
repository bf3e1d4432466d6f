"""Mitred shoulders on the mitre sled."""

from __future__ import annotations

from fractions import Fraction
from math import ceil, sqrt

import pytest

from sequencer.cuts.context import Context
from sequencer.cuts.mitre import SLANT, cut_mitres
from sequencer.job.shop import default_shop
from sequencer.methods import Choices
from sequencer.plan import Feature, Part, Prism, Size
from tests.told import by_name

F = Fraction
KERF = F(1, 8)


def mitred(at: str, start: Fraction) -> Part:
    """A stile 20 in long and 2 in wide, mitred to a third of its thickness."""
    corners = [(F(0), F(0)), (start + 2, F(0)), (start, F(2)), (F(0), F(2))]
    if at == "B":
        corners = [(20 - x, y) for x, y in corners]
    prism = Prism("xy", tuple(corners), (F(0), F(1, 4)))
    feature = Feature("mitre", at, prism.box, "A3/A", prism)
    return Part(
        "A1", "A", "stile", by_name("stile"), "cherry", Size(F(20), F(2), F(3, 4)), (feature,)
    )


@pytest.mark.parametrize("at", ["A", "B"])
@pytest.mark.parametrize("start", [F(0), F(1, 32)])
def test_the_stop_is_where_the_line_crosses_the_outside_edge(at: str, start: Fraction) -> None:
    shop = default_shop("in")
    context = Context("in", shop, Choices(), shop.joinery_blade, KERF)
    (operation,) = cut_mitres(mitred(at, start), "#1b", context)
    assert operation.setting is not None
    assert (operation.setting.carrier, operation.setting.guide) == ("mitre-sled", start)
    assert operation.setting.depth == (F(1, 4), F(1, 4))
    (cut,) = operation.cuts
    assert (cut.down, cut.against, cut.sweep, cut.back) == ("face", f"end-{at}", True, None)
    line, depth = operation.setting.tests
    assert (line.target, line.per_unit) == (start, F(1))
    assert (depth.target, depth.per_unit) == (F(1, 4), F(1))
    assert depth.low < depth.target < depth.high, "slot and tenon meet there: a fit, either way"
    # The waste's far corner is (start + 2)/√2 from the line.
    passes = ceil((float(start) + 2) / sqrt(2) / (float(KERF) - 0.01))
    assert operation.minutes == passes * shop.minutes.nibble


def test_the_slant_is_never_under_what_it_stands_for() -> None:
    assert 2 * SLANT**2 > 1
    assert float(SLANT) == pytest.approx(1 / sqrt(2), rel=1e-3)
