"""Panels that match: two sticks, one thicker piece."""

from __future__ import annotations

from fractions import Fraction

import pytest

from sequencer.errors import InputError
from sequencer.facts import stocks
from sequencer.job.load import load_job
from sequencer.job.rack import Board, Rack
from sequencer.job.shop import default_shop
from sequencer.pipeline import plan as make_plan
from sequencer.plan import Plan
from sequencer.records import replace
from sequencer.stock.resaw import as_planned, resawn
from sequencer.trade.lumber import resawn_thickness
from tests.stock.racked import on

F = Fraction
TEXT = """
unit = "in"
species = "cherry"
[stock]
thickness = "3/4"
[panel]
match = "book"
thickness = "1/4"
[gaps]
meeting = "1/8"
[[door]]
leaves = {leaves}
[door.opening]
width = "{width}"
height = "24"
"""


@pytest.fixture(scope="module")
def pair() -> Plan:
    job = load_job(TEXT.format(leaves=2, width=24), "job.toml")
    return make_plan([job], default_shop("in"))


def rack(*boards: tuple[str, F]) -> Rack:
    made = [
        Board(mark, "cherry", F(72), F(12), thick, False, F(1), F(1, 4)) for mark, thick in boards
    ]
    return Rack(tuple(made), 20, F(1, 8), F(1, 8))


def test_each_panel_has_a_stick_and_the_first_is_told_of_the_other(pair: Plan) -> None:
    stick_of = {piece.mark: stick for stick in pair.sticks for piece in stick.pieces}
    first, second = stick_of["A5"], stick_of["B5"]
    assert first.twin == second.mark
    assert second.twin is None
    assert (first.blank, len(first.pieces), len(second.pieces)) == (second.blank, 1, 1)


def test_one_piece_is_as_thick_as_two_the_kerf_and_what_is_planed(pair: Plan) -> None:
    # Two of 1/4, a band saw's kerf of 1/16, and 1/16 planed off each sawn face: 11/16.
    assert resawn_thickness(F(1, 4), "in") == F(11, 16)
    assert resawn_thickness(F(6), "mm") == 12 + F(3, 2) + 3
    (each,) = resawn(pair)
    assert each.blank.size.thickness == F(11, 16)
    assert each.blank.size.length == each.first.blank.length


def test_the_rough_list_counts_one_blank(pair: Plan) -> None:
    (each,) = resawn(pair)
    line = next(line for line in pair.rough if line.thickness == F(11, 16))
    assert line.sticks == (each.blank.mark,)
    assert line.surface == each.blank.size.length * each.blank.size.width
    # 4/4 surfaces to 13/16 (NHLA), which 11/16 is made from.
    assert line.buy == "4/4"
    assert all(each.first.mark not in other.sticks for other in pair.rough)


def test_the_layout_lays_out_the_one_piece(pair: Plan) -> None:
    # 3/4 frames and the 11/16 panels with 1/8 for milling both come from 15/16 boards.
    laid = on(pair, rack(("one", F(15, 16)), ("two", F(15, 16))))
    assert laid.missing == ()
    marks = [blank.mark for board in laid.boards for blank in board.blanks]
    (each,) = resawn(pair)
    assert marks.count(each.blank.mark) == 1
    assert each.first.mark not in marks
    assert each.second.mark not in marks
    assert as_planned(laid) == (each,)


def test_without_a_board_thick_enough_they_are_two_and_it_is_said(pair: Plan) -> None:
    thin = [("one", F(15, 16)), ("two", F(15, 16)), ("thin", F(1, 2))]
    owned = rack(*thin)
    narrow = [replace(b, width=F(6)) if b.thickness > F(1, 2) else b for b in owned.boards]
    laid = on(pair, replace(owned, boards=tuple(narrow)))
    (each,) = resawn(pair)
    marks = {blank.mark.split("/")[0] for board in laid.boards for blank in board.blanks}
    assert {each.first.mark, each.second.mark} <= marks
    assert each.blank.mark not in marks
    assert any(fact.kind is stocks.NOT_RESAWN for fact in laid.layout)
    assert as_planned(laid) == ()


def test_a_single_door_has_nothing_to_match() -> None:
    text = TEXT.format(leaves=1, width=12).replace('[gaps]\nmeeting = "1/8"\n', "")
    assert not load_job(text, "job.toml").doors[0].panel.match
    own = text.replace('[panel]\nmatch = "book"\nthickness = "1/4"\n', "")
    own += '[door.panel]\nmatch = "book"\n'
    with pytest.raises(InputError, match=r"file\.no-panels-to-match"):
        load_job(own, "job.toml")
    assert not load_job(own.replace('"book"', '"no"'), "job.toml").doors[0].panel.match
