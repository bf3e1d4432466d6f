"""Numbers of settings between two values of a free dimension: where they meet, and how many there
are at a value."""

from __future__ import annotations

from fractions import Fraction

from sequencer.job.shop import default_shop
from sequencer.setups.merges import Line, Piece, Way

FENCE: Way = ("fence", "rip-fence", "blade", Fraction(1, 8))
MINUTES = default_shop("in").minutes


def line(first: int, last: int) -> Line:
    return Line(FENCE, Fraction(first), Fraction(last))


PIECE = Piece(Fraction(10), Fraction(14), (line(1, 5), line(4, 4), line(7, 5)), ())
"""From 10 to 14: one number grows with the dimension, one stays, one shrinks half as fast. By hand:
the first meets the second at 13, the third at 14; the second and the third never meet."""


def test_where_they_meet() -> None:
    assert sorted(PIECE.crossings()) == [13, 14]


def test_settings_that_meet_are_one() -> None:
    each = MINUTES.of("fence")
    settings = {value: PIECE.settings_at(Fraction(value), MINUTES) / each for value in (10, 13, 14)}
    assert settings == {10: 3, 13: 2, 14: 2}
