"""Where what guides a piece stands: by what its carrier is built as, never by its name."""

from __future__ import annotations

from fractions import Fraction

import pytest

from sequencer.job.sides import guide_side
from sequencer.saw.fittings import CARRIERS, Carrier


@pytest.mark.parametrize(
    ("made", "tilt", "side"),
    [
        (Carrier("jig", "jig"), Fraction(0), "left"),
        (Carrier("stop", "sled"), Fraction(0), "right"),
        (Carrier("fence", "fence"), Fraction(0), "left"),
        (Carrier("fence", "fence"), Fraction(-1, 8), "right"),
    ],
)
def test_a_second_jig_sled_or_fence_stands_where_the_first_does(
    made: Carrier, tilt: Fraction, side: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setitem(CARRIERS, "another", made)
    assert guide_side("another", tilt, fence="left", jig="left", tilts="left") == side
