"""Aids: what a piece is held or guided by beside saw, sled and jig, made in the shop; a row each.

Sizes are round figures of each unit. "Text seen" was read; "common practice" has no published
source; "ours" is a figure that this project chose. All minutes are ours.
"""

from __future__ import annotations

from collections.abc import Mapping
from fractions import Fraction
from typing import Literal

from msgspec import Struct

from sequencer.lengths import Unit

Follows = Literal["", "need", "piece", "rebate"]
"""What of the cut gives the first board its size: its width is what the rule asks for; its
thickness is the piece's; it fills a rebate that is cut already."""


class Wood(Struct, frozen=True):
    """A board to make an aid of: length, width and thickness in each unit."""

    wood: Literal["plywood", "hardwood"]
    inch: tuple[str, str, str]
    mm: tuple[str, str, str]

    def size(self, unit: Unit) -> tuple[Fraction, Fraction, Fraction]:
        length, width, thickness = map(Fraction, self.inch if unit == "in" else self.mm)
        return length, width, thickness


class AidRow(Struct, frozen=True):
    """`answers`: the rules of safety, with their case, whose warning it answers: a setup that is
    warned so needs it. `asks` says who asks for it and where its figures come from. `made` and
    `fitted` are minutes: once, and each time that it goes on. `stated`: whether `[aids]` of a shop
    file tells of it; a sled's clamp stands with the sled, and a strip is made to its rebate.
    `before_fence`: the piece runs along it, so that it is measured from, not by the scale."""

    answers: tuple[str, ...]
    asks: str
    boards: tuple[Wood, ...]
    made: Fraction
    fitted: Fraction
    follows: Follows = ""
    stated: bool = True
    before_fence: bool = False


_PLY = ("3/4", "18")


def _ply(length: tuple[str, str], width: tuple[str, str]) -> Wood:
    return Wood("plywood", (length[0], width[0], _PLY[0]), (length[1], width[1], _PLY[1]))


AIDS: Mapping[str, AidRow] = {
    "narrow-rip-fence": AidRow(
        answers=("B06", "F01", "J10"),
        asks="manuals of table saws (text seen): under 2 in or 50 mm a push stick does not pass "
        "the guard; a low fence is clamped to the rip fence, and a block rides on it. For stock of "
        "1/8 in and less it closes the gap under the fence. Sizes theirs",
        boards=(
            Wood("plywood", ("30", "11/2", "3/8"), ("750", "140", "9")),
            Wood("hardwood", ("30", "3", "3/4"), ("750", "75", "18")),
            Wood("plywood", ("12", "11/2", "3/8"), ("300", "140", "9")),
            Wood("hardwood", ("7", "5", "3/4"), ("180", "125", "18")),
        ),
        made=Fraction(30),
        fitted=Fraction(2),
        before_fence=True,
    ),
    "tall-fence": AidRow(
        answers=("E05",),
        asks="a woodworking magazine on tall fences for panels (text seen); half the piece's "
        "height, 8 in or 200 mm at most: ours",
        boards=(
            _ply(("30", "750"), ("8", "200")),
            _ply(("30", "750"), ("4", "100")),
        ),
        made=Fraction(20),
        fitted=Fraction(3),
        follows="need",
        before_fence=True,
    ),
    "backing-block": AidRow(
        answers=("J04", "J04-edge"),
        asks="common practice; size ours",
        boards=(Wood("hardwood", ("12", "3", "3/4"), ("300", "75", "18")),),
        made=Fraction(5),
        fitted=Fraction(1),
        follows="piece",
    ),
    "strip-stop": AidRow(
        answers=("F02-stop",),
        asks="a woodworking magazine on thin strips (text seen); size ours",
        boards=(Wood("hardwood", ("8", "3", "3/4"), ("200", "75", "18")),),
        made=Fraction(10),
        fitted=Fraction(2),
    ),
    "piece-carrier": AidRow(
        answers=("A08", "B08"),
        asks="a woodworking magazine on small parts (text seen); size ours",
        boards=(_ply(("16", "400"), ("8", "200")), _ply(("16", "400"), ("3", "75"))),
        made=Fraction(20),
        fitted=Fraction(1),
    ),
    "riding-board": AidRow(
        answers=("B08-bevel", "E02-fence"),
        asks="a woodworking magazine on tall fences for panels (text seen); size ours",
        boards=(Wood("hardwood", ("24", "4", "3/4"), ("600", "100", "18")),),
        made=Fraction(5),
        fitted=Fraction(1),
    ),
    "bearing-strip": AidRow(
        answers=("J09",),
        asks="ours: the piece goes on standing on its whole thickness",
        boards=(Wood("hardwood", ("30", "1/4", "1/4"), ("750", "6", "6")),),
        made=Fraction(10),
        fitted=Fraction(3),
        follows="rebate",
        stated=False,
    ),
    "sled-clamp": AidRow(
        answers=("B03", "B04", "B09", "J07"),
        asks="manuals of US table saws (text seen): less than 6 in is crosscut clamped only; a bar "
        "that bolts draw down on the piece: common practice",
        boards=(Wood("hardwood", ("16", "2", "5/4"), ("400", "50", "30")),),
        made=Fraction(15),
        fitted=Fraction(1),
        stated=False,
    ),
}
"""In the order in which they are told."""

KEYS: Mapping[str, str] = {name.replace("-", "_"): name for name, row in AIDS.items() if row.stated}
"""Those that a shop file may say are at hand, by their keys there."""
