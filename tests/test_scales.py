"""Scales by their readings, against a plain model, published examples and what chance makes."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction
from random import Random
from statistics import median

import pytest
from hypothesis import given
from hypothesis import strategies as st

from sequencer.scales import (
    KNOCK,
    LATEST,
    NORMAL,
    RECENT,
    Observation,
    chance,
    deviation,
    fit,
    knocked,
    slope_of,
    theil_sen,
)

STEP = Fraction(1, 100)


def seen(numbers: Sequence[tuple[float, float]], kerf: float = 0) -> list[Observation]:
    """Places in millimetres, and what the scale showed there, one a day."""
    return [
        Observation(f"2025-01-{n:02d}", stood, shown, kerf)
        for n, (stood, shown) in enumerate(numbers, 1)
    ]  # fmt: skip


def test_the_slope_of_sens_own_example() -> None:
    """Sen, Journal of the American Statistical Association 63 (1968): of 21 slopes the 11th."""
    xs, ys = [1, 2, 3, 4, 10, 12, 18], [9, 15, 19, 20, 45, 55, 78]
    assert theil_sen(xs, ys) == 4
    slopes = sorted((ys[j] - ys[i]) / (xs[j] - xs[i]) for i in range(7) for j in range(i + 1, 7))
    assert slopes[10] == 4


def test_the_deviation_of_the_textbook_example() -> None:
    """1, 1, 2, 2, 4, 6, 9: median 2, deviations 1, 1, 0, 0, 2, 4, 7, and their median 1, as works
    on robust statistics have it; of a normal error it is 0.6745 sigma (Hampel 1974)."""
    assert deviation([1, 1, 2, 2, 4, 6, 9]) == 1
    assert pytest.approx(1 / 0.67449, rel=1e-4) == NORMAL
    draws = Random(1)
    assert NORMAL * deviation([draws.gauss(0, 3) for _ in range(4000)]) == pytest.approx(3, rel=0.1)


def test_one_two_and_three_sigmas() -> None:
    """0.6827, 0.9545, 0.9973, as every table of the normal distribution has it."""
    for n, share in ((1, 0.6827), (2, 0.9545), (3, 0.9973)):
        assert chance(-n, n, 1) == pytest.approx(share, abs=5e-5)


def test_nothing_is_known_of_a_scale_that_was_never_read() -> None:
    assert fit("b", "rip-fence", "fence", [], "mm") is None


def test_a_scale_is_told_from_the_middle_of_the_blade() -> None:
    """Set to 10.5, the near side of a 3.2 mm kerf stood at 10: with a blade 0.4 mm thinner the same
    scale shows 0.2 mm less for 10."""
    scale = fit("b", "rip-fence", "fence", seen([(10, 10.5)] * 3, 3.2), "mm")
    assert scale is not None
    assert scale.off(Fraction(10), Fraction("3.2")) == Fraction("0.5")
    assert scale.off(Fraction(10), Fraction("2.8")) == Fraction("0.3")
    height = fit("b", "rip-fence", "height", seen([(10, 10.5)] * 3), "mm")
    assert height is not None
    assert height.off(Fraction(10), Fraction("2.8")) == Fraction("0.5")


def test_a_scale_that_grows_too_fast_is_found_out_only_where_it_was_read_far_apart() -> None:
    near = [(20 + n / 10, 20 + n / 10 + 0.1) for n in range(12)]
    far = [(20.0 + 20 * n, 20.0 + 20 * n + 0.1 + 0.004 * (20 * n)) for n in range(8)]
    close, wide = (fit("b", "rip-fence", "fence", seen(each), "mm") for each in (near, far))
    assert close is not None
    assert wide is not None
    assert close.slope == 0
    assert float(wide.slope) == pytest.approx(0.004, abs=1e-4)
    assert float(wide.off(Fraction(200), Fraction(0))) == pytest.approx(0.1 + 0.004 * 180, abs=0.02)


def test_a_setting_with_a_history_goes_by_its_own() -> None:
    """The scale's screw is uneven: at 50 mm it shows 0.12 too much, elsewhere nothing."""
    numbers = [(50, 50.12), (20, 20), (50, 50.13), (80, 80), (50, 50.11), (30, 30), (35, 35)]
    scale = fit("b", "rip-fence", "fence", seen(numbers), "mm")
    assert scale is not None
    assert scale.off(Fraction(50), Fraction(0)) == Fraction("0.12")
    assert scale.off(Fraction("50.4"), Fraction(0)) == Fraction("0.12")
    assert scale.off(Fraction(25), Fraction(0)) == 0


@given(
    st.lists(st.floats(-0.05, 0.05), min_size=3, max_size=20),
    st.lists(st.floats(-0.05, 0.05), min_size=2, max_size=12),
    st.floats(0.8, 3) | st.floats(-3, -0.8),
)
def test_a_knock_is_found_by_the_second_reading_and_one_slip_is_no_knock(
    before: list[float], after: list[float], by: float
) -> None:
    moved = [*before, *(by + each for each in after)]
    start, was = knocked(moved, 0.058)
    assert start == len(before)
    assert was == pytest.approx(median(before[-RECENT:]))
    assert knocked(moved[: len(before) + 2], 0.058)[0] == len(before)
    slip = [*before, by, *after]
    assert knocked(slip, 0.058) == (0, None)


def test_chance_alone_is_hardly_ever_a_knock() -> None:
    draws = Random(3)
    errors = [draws.gauss(0, 0.058) for _ in range(10_000)]
    lots = [errors[n : n + LATEST] for n in range(0, len(errors), LATEST)]
    assert sum(knocked(lot, 0.058)[1] is not None for lot in lots) <= 1
    assert KNOCK == 4


@given(st.lists(st.tuples(st.integers(0, 3000), st.integers(-60, 60)), min_size=1, max_size=90))
def test_the_offset_is_the_plain_medians(numbers: list[tuple[int, int]]) -> None:
    """A model that anybody can work out on paper: of the readings since the last knock, the last
    twelve, and of these the median; at a setting that was read three times, its own."""
    lot = [
        Observation(str(n), place / 100, (place + off) / 100)
        for n, (place, off) in enumerate(numbers)
    ]
    scale = fit("b", "rip-fence", "height", lot, "mm")
    assert scale is not None
    kept = lot[-LATEST:]
    start, _ = knocked([each.error for each in kept], (0.05**2 + 0.03**2) ** 0.5)
    kept = kept[start:]
    if not slope_of([e.stood for e in kept], [e.error for e in kept], 25):
        plain = median(each.error for each in kept[-RECENT:])
        assert abs(float(scale.offset) - plain) <= 0.001
    for place, offset, count in scale.own:
        assert count >= 3
        about = [e.error for e in kept if abs(e.stood - float(place)) <= 2]
        assert min(about) <= float(offset + STEP)
        assert float(offset - STEP) <= max(about)
    assert scale.count == min(RECENT, len(kept))
    assert scale.off(Fraction(10), Fraction(0)) % STEP == 0


@given(st.integers(0, 2**32), st.floats(-1, 1), st.integers(4, 40))
def test_what_is_known_of_a_scale_closes_in_on_what_is_so(seed: int, off: float, n: int) -> None:
    draws = Random(seed)
    places = [draws.uniform(10, 60) for _ in range(n)]
    lot = [Observation(str(k), p, p + off + draws.gauss(0, 0.05)) for k, p in enumerate(places)]
    scale = fit("b", "rip-fence", "fence", lot, "mm")
    assert scale is not None
    assert abs(float(scale.off(Fraction(35), Fraction(0))) - off) < 5 * scale.sigma
