"""Numbers of settings between two values of a free dimension: where they meet, and how many there
are at a value."""

from __future__ import annotations

from fractions import Fraction

from sequencer.job.shop import default_shop
from sequencer.setups.merges import Line, Piece, Way, between
from sequencer.shelf import Saved, Shelf
from tests.stages import to_work

FENCE: Way = ("fence", "rip-fence", "blade", Fraction(1, 8))
MINUTES = default_shop("in").minutes


def line(first: int, last: int) -> Line:
    return Line(FENCE, Fraction(first), Fraction(last))


PIECE = Piece(Fraction(10), Fraction(14), (line(1, 5), line(4, 4), line(7, 5)), ())
"""From 10 to 14: one number grows with the dimension, one stays, one shrinks half as fast. By hand:
the first meets the second at 13, the third at 14; the second and the third never meet."""


def test_where_they_meet() -> None:
    assert sorted(PIECE.crossings()) == [13, 14]


def test_what_follows_a_dimension_is_read_off_two_of_its_values() -> None:
    """By hand, a groove from 1/4 to 3/8 in deep in a leaf 14 13/16 in wide: with 10 13/16 in
    between the stiles and 1/16 in of play the panel is from 11 3/16 to 11 7/16 in wide."""
    low, high = Fraction(1, 4), Fraction(3, 8)
    job = """
unit = "in"
species = "cherry"
[stock]
thickness = "3/4"
[groove]
depth = "{depth}"
[[door]]
opening = {{ width = "15", height = "20" }}
"""
    first, last = ((value, to_work(job.format(depth=value)))
                   for value in (Fraction(9, 32), Fraction(11, 32)))  # fmt: skip
    found = between(low, high, first, last, default_shop("in"))
    exact = {(one.way[0], one.first, one.last) for one in found.exact}
    assert exact >= {
        ("height", low, high),
        ("height", Fraction(117, 64), Fraction(109, 64)),  # slots, 2 in and 5/64 proud less it
        ("fence", Fraction(179, 16), Fraction(183, 16)),  # the panel, as much wider at both sides
        ("fence", Fraction(2), Fraction(2)),
    }
    ranges = {(one.way[:2], one.first, one.last) for one in found.ends}
    over = ("height", "rip-fence")  # 1/8 to 1/4 in over the stock
    assert ranges >= {(over, Fraction(7, 8), Fraction(7, 8)), (over, Fraction(1), Fraction(1))}


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
