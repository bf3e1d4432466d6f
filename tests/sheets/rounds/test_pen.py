"""A picture of few paths is the one that is painted thing by thing, seen at points."""

from __future__ import annotations

import math
import re
from collections.abc import Sequence
from itertools import pairwise

from hypothesis import given
from hypothesis import strategies as st

from sequencer.sheets.rounds import strokes as joined
from sequencer.sheets.rounds.flat import Point, area
from sequencer.sheets.rounds.pen import Pen

GREYS = ("#111111", "#777777", "#dddddd")
CLOSE = 0.05
"""In mm: nearer to an edge than that nothing is asked, lines having a width."""

coordinates = st.integers(0, 5).map(lambda n: 6.0 * n)
points = st.tuples(coordinates, coordinates)
triangles = st.tuples(points, points, points).map(list).filter(lambda loop: abs(area(loop)) > 1)
strokes = st.tuples(points, points).filter(lambda ends: ends[0] != ends[1])
things = st.lists(st.tuples(triangles, st.sampled_from(GREYS)), min_size=2, max_size=12)
shares = st.floats(0.01, 0.99)
Filled = tuple[list[Point], str]


def left_round(loop: Sequence[Point]) -> list[Point]:
    return list(loop) if area(loop) > 0 else list(loop)[::-1]


def paths(shapes: Sequence[str]) -> list[tuple[str, list[list[Point]]]]:
    """What each path is filled with, and its stretches."""
    found = []
    for shape in shapes:
        if drawn := re.search(r'<path d="([^"]*)" fill="([^"]*)"', shape):
            stretches = [
                [(float(x), float(y)) for x, y in re.findall(r"(-?[\d.]+),(-?[\d.]+)", stretch)]
                for stretch in drawn[1].split("M")[1:]
            ]
            found.append((drawn[2], stretches))
    return found


def inside(point: Point, loops: Sequence[Sequence[Point]]) -> bool:
    """Whether the loops go round a point, counted by how often they cross the ray to its right
    upward and downward (SVG 1.1, 11.3: the rule “nonzero”)."""
    x, y = point
    round_it = 0
    for loop in loops:
        for (ax, ay), (bx, by) in zip(loop, [*loop[1:], loop[0]], strict=True):
            if (ay > y) != (by > y) and ax + (y - ay) / (by - ay) * (bx - ax) > x:
                round_it += 1 if by > ay else -1
    return round_it != 0


def depth(point: Point, loop: Sequence[Point]) -> float:
    """How deep a point is in an area that goes round to the left; below 0 outside."""
    x, y = point
    deep = []
    for (ax, ay), (bx, by) in zip(loop, [*loop[1:], loop[0]], strict=True):
        long = math.dist((ax, ay), (bx, by))
        deep.append(((bx - ax) * (y - ay) - (by - ay) * (x - ax)) / long)
    return min(deep)


def away(one: Point, ends: Sequence[Point]) -> float:
    """How far a point is from a line."""
    (ax, ay), (bx, by) = ends
    dx, dy = bx - ax, by - ay
    long = dx * dx + dy * dy
    share = min(max(((one[0] - ax) * dx + (one[1] - ay) * dy) / long, 0.0), 1.0) if long else 0.0
    return math.dist(one, (ax + share * dx, ay + share * dy))


@given(things, st.integers(0, 11), shares, shares)
def test_areas_hide_what_was_painted_before(
    painted: list[Filled], which: int, one: float, other: float
) -> None:
    pen, tone = Pen(1.0), "none"
    a, b, c = painted[which % len(painted)][0]  # asked for in one of them, or hardly any is met
    along = [p + one * (q - p) for p, q in zip(a, b, strict=True)]
    x, y = (p + other * (q - p) for p, q in zip(along, c, strict=True))
    point = (x, y)
    asked = True
    for corners, grey in painted:
        loop = left_round(corners)
        pen.fill(loop, grey)
        deep = depth(point, loop)
        asked = asked and abs(deep) > CLOSE
        tone = grey if deep > 0 else tone
    seen = "none"
    for grey, loops in paths(pen.paths()):
        if inside(point, loops):
            seen = grey
    assert not asked or seen == tone


@given(things, strokes, things, shares)
def test_a_line_is_seen_where_no_later_area_lies_on_it(
    before: list[Filled],
    ends: tuple[Point, Point],
    after: list[Filled],
    share: float,
) -> None:
    pen = Pen(1.0)
    (ax, ay), (bx, by) = ends
    point = (ax + share * (bx - ax), ay + share * (by - ay))
    deep = [-9.0]
    for late, group in ((False, before), (True, after)):
        if late:
            pen.line(ends, 0.01, "")
        for corners, grey in group:
            loop = left_round(corners)
            pen.fill(loop, grey)
            if late:
                deep.append(depth(point, loop))
    drawn = [
        stretch for grey, stretches in paths(pen.paths()) if grey == "none" for stretch in stretches
    ]
    near = min((away(point, stretch) for stretch in drawn), default=9.0)
    if max(deep) > CLOSE:
        assert near > 0.005, "hidden"
    elif max(deep) < -CLOSE:
        assert near < 0.02, "seen"


corners = st.tuples(st.integers(0, 3), st.integers(0, 3)).map("{0[0]},{0[1]}".format)
drawn_lines = st.lists(st.tuples(corners, corners), max_size=20)


@given(drawn_lines)
def test_strokes_are_the_lines_each_once(lines: list[tuple[str, str]]) -> None:
    found = [frozenset(ends) for stroke in joined.strokes(lines) for ends in pairwise(stroke)]
    assert len(found) == len(set(found))
    assert set(found) == {frozenset(ends) for ends in lines}


def test_areas_of_a_grey_have_one_outline_and_an_edge_of_two_is_drawn_once() -> None:
    """Three squares in a row, with the four edges that go down."""
    pen = Pen(1.0)
    for n in range(3):
        left, right = 10.0 * n, 10.0 * n + 10
        loop = [(left, 0.0), (right, 0.0), (right, 9.0), (left, 9.0)]
        pen.fill(loop, "#777777")
        pen.line((loop[1], loop[2]), 0.3, "")
        pen.line((loop[3], loop[0]), 0.3, "")
    (areas, lines) = paths(pen.paths())
    assert [len(outline) for outline in areas[1]] == [8]
    assert len(lines[1]) == 4
    for n in range(3):
        pen.line(((10.0 * n, 0.0), (10.0 * n + 10, 0.0)), 0.3, "")
    (_, lines) = paths(pen.paths())
    assert sum(len(stroke) - 1 for stroke in lines[1]) == 7
    assert len(lines[1]) <= 4
