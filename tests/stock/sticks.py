"""Sticks of a few woods and thicknesses, for the tests of stock."""

from __future__ import annotations

from fractions import Fraction

from hypothesis import strategies as st

from sequencer.plan import Size, Stick


@st.composite
def sticks(draw: st.DrawFn) -> tuple[Stick, ...]:
    made = []
    for n in range(1, draw(st.integers(1, 12)) + 1):
        size = Size(
            Fraction(draw(st.integers(40, 500)), 8),
            Fraction(draw(st.integers(8, 100)), 8),
            draw(st.sampled_from((Fraction(1, 4), Fraction(3, 4), Fraction(7, 8), Fraction(3, 2)))),
        )
        material = draw(st.sampled_from(("cherry", "ash", "eastern white pine")))
        made.append(Stick(f"#{n}", material, size, size, (), draw(st.booleans())))
    return tuple(made)
