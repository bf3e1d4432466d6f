"""Which test piece a test cut is made on."""

from __future__ import annotations

from fractions import Fraction

from sequencer.cuts.model import Setting
from sequencer.plan import Cut
from sequencer.setups.scrap import TestPieces as Pieces

F = Fraction
SHOULDER = Setting("crosscut-sled", "blade", F(1, 8), F(2), (F(1, 4), F(1, 4)), False)
CHEEK = Setting("tenoning-jig", "blade", F(1, 8), F(1, 2), (F(2), F(2)), False)
TENON = frozenset({("shoulder", SHOULDER), ("cheek", CHEEK)})
OTHER = frozenset({("slot", CHEEK)})
SHOULDERS = (Cut("S", "face", "end-A", None), Cut("S", "back", "end-A", None))
CHEEKS = (Cut("S", "end-A", "face", None), Cut("S", "end-A", "back", None))


def test_a_tenon_is_tried_on_one_piece_shoulders_first() -> None:
    pieces = Pieces({"S": ("S2",)})
    assert pieces.take("S", TENON, SHOULDER, SHOULDERS) == "S"
    assert pieces.take("S", TENON, CHEEK, CHEEKS) == "S"
    # Again, the shoulder would find no wood; and free the cheeks' waste at the stop.
    assert pieces.take("S", TENON, SHOULDER, SHOULDERS) == "S2"
    assert not pieces.short


def test_another_joint_part_has_a_piece_of_its_own() -> None:
    pieces = Pieces({"S": ("S2",)})
    assert pieces.take("S", TENON, SHOULDER, SHOULDERS) == "S"
    assert pieces.take("S", OTHER, CHEEK, CHEEKS) == "S2"
    assert pieces.take("S", TENON, CHEEK, CHEEKS) == "S"


def test_what_is_wanting_is_counted() -> None:
    pieces = Pieces({})
    for _ in range(3):
        assert pieces.take("S", OTHER, CHEEK, CHEEKS) == "S"
    assert pieces.short == {"S": 2}


def test_a_shoulder_after_its_cheek_takes_fresh_wood() -> None:
    pieces = Pieces({"S": ("S2",)})
    assert pieces.take("S", TENON, CHEEK, CHEEKS) == "S"
    assert pieces.take("S", TENON, SHOULDER, SHOULDERS) == "S2"


def test_a_stop_is_tried_on_edge_where_the_faces_are_whole() -> None:
    """Both faces were cut at that stop: on edge no wall of its own is seen. Its depth is."""
    on_edge = (Cut("S", "inside-edge", "end-A", None),)
    for guide, piece in ((True, "S2"), (False, "S")):
        pieces = Pieces({"S": ("S2",)})
        assert pieces.take("S", TENON, SHOULDER, SHOULDERS) == "S"
        assert pieces.take("S", TENON, SHOULDER, on_edge, guide=guide) == piece
