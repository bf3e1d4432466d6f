"""The wood: what boards yield, and what is missing. Whole sentences where they stand on the sheet
by themselves."""

from __future__ import annotations

from sequencer.facts import stocks
from sequencer.wording.catalogue import Table, _, counted_

TEXTS: Table = {
    stocks.BOARD_TWICE: _(
        "two jobs of the batch have a board marked {board}: give each board a mark of its own, and "
        "name each board in one job only"
    ),
    stocks.SHORT: _("Not enough wood: there is no board for {strips}."),
    stocks.SHORT_AS_TRIED: _(
        "Not enough wood in the layouts that were tried: no board is left for {strips}."
    ),
    stocks.BUY_FIRST: _(
        "Buy what is missing, add it to the job file and plan again before anything is cut: with "
        "more boards the layout changes."
    ),
    stocks.PROVEN: counted_(
        "1 board: cut this way, no smaller board will do (proven).",
        "{n} boards: cut this way, no fewer boards and no smaller volume will do (proven).",
    ),
    stocks.AT_MOST: counted_(
        "1 board.", "{n} boards, at most {more} more than the fewest possible."
    ),
    stocks.FEWEST: counted_(
        "1 board; whether a smaller one would do is not proven.",
        "{n} boards; no fewer will do. Whether smaller ones would do is not proven.",
    ),
    stocks.GLUED_APART: _("The parts glued up for {strips} come from more than one board."),
    stocks.MATCHED_APART: _("The matching strips {strips} come from more than one board."),
    stocks.NOT_RESAWN: _(
        "Strips {first} and {second} are not resawn from one piece: no board is thick and wide "
        "enough. They match only as well as one board does."
    ),
    stocks.BLANKS_DIFFER: _("the board layout loses a blank, or has one twice"),
    stocks.LENGTHS_OVERLAP: _("board {board}: rough lengths overlap or leave the board"),
    stocks.BLANK_OUTSIDE: _("board {board}: {blank} does not lie on it"),
    stocks.WRONG_BOARD: _("board {board} is not the stock for {blank}"),
    stocks.BLANKS_OVERLAP: _("board {board}: {one} and {other} overlap"),
}
