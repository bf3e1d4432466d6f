"""Channels: a slot or groove in passes of the kerf."""

from __future__ import annotations

from fractions import Fraction

import pytest

from sequencer.errors import Refusal
from sequencer.measured import Measured
from sequencer.pipeline import plan
from tests.stages import to_job, to_operations, to_shop
from tests.test_hand_worked import FENCE_JIG, PAIR


def test_a_kerf_measured_wider_than_the_groove_is_refused_with_a_remedy() -> None:
    job = to_job(PAIR.replace('depth = "1/4"', 'depth = "1/4"\nwidth = "3/16"', 1))
    measured = Measured(kerf={"joinery": Fraction(1, 5)})
    with pytest.raises(Refusal, match=r"refusal\.kerf-too-wide"):
        plan([job], to_shop(FENCE_JIG, job), measured)


def test_passes_overlap_and_reach_both_walls() -> None:
    """A slot of 0.260 by a kerf of 1/8 takes three passes, the middle one in its own setting."""
    text = PAIR.replace("[panel]", '[panel]\nthickness = "1/4"')
    made = to_operations(text, FENCE_JIG)
    outer, middle = made["A1/slot-A/outer"].setting, made["A1/slot-A/middle"].setting
    assert outer is not None
    assert middle is not None
    assert outer.guide == (Fraction(3, 4) - Fraction("0.26")) / 2
    assert middle.guide == (Fraction(3, 4) - Fraction(1, 8)) / 2
    assert outer.guide + Fraction(1, 8) - middle.guide >= Fraction(1, 100)
    assert not middle.tests
