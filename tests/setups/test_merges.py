"""Numbers of settings between two values of a free dimension: where they meet, and how many there
are at a value."""

from __future__ import annotations

from fractions import Fraction

from sequencer.job.shop import default_shop
from sequencer.setups.merges import Line, Piece, Way
from sequencer.shelf import Saved, Shelf

FENCE: Way = ("fence", "rip-fence", "blade", Fraction(1, 8))
MINUTES = default_shop("in").minutes


def line(first: int, last: int) -> Line:
    return Line(FENCE, Fraction(first), Fraction(last))


PIECE = Piece(Fraction(10), Fraction(14), (line(1, 5), line(4, 4), line(7, 5)), ())
"""From 10 to 14: one number grows with the dimension, one stays, one shrinks half as fast. By hand:
the first meets the second at 13, the third at 14; the second and the third never meet."""


def test_where_they_meet() -> None:
    assert sorted(PIECE.crossings()) == [13, 14]


def test_of_many_saved_settings_the_six_nearest_to_the_middle_of_the_way_are_looked_at() -> None:
    """The first number goes from 1 to 5, its middle is 3: by hand, those at 3 and up to 1/2 and 1
    away either side, and the nearer end of two as far away."""
    places = [Fraction(n, 2) for n in range(2, 11)]
    saved = [Saved(n, "blade", Fraction(1, 8), "rip-fence", "fence", v) for n, v in
             enumerate(places, 1)]  # fmt: skip
    alone = Piece(Fraction(10), Fraction(14), (line(1, 5), line(4, 4)), ())
    met = sorted(alone.saved(Shelf.of(saved, "in")))
    assert met == [9 + Fraction(n, 2) for n in (3, 4, 5, 6, 7, 8)]
    assert list(alone.saved(Shelf())) == []


def test_settings_that_meet_are_one() -> None:
    each = MINUTES.of("fence")
    settings = {value: PIECE.settings_at(Fraction(value), MINUTES) / each for value in (10, 13, 14)}
    assert settings == {10: 3, 13: 2, 14: 2}
