"""A second look at every layout, from the boards and blanks alone."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from fractions import Fraction
from itertools import combinations, pairwise

from sequencer.errors import InternalError
from sequencer.facts import stocks
from sequencer.plan import Blank, Board


def check(
    boards: Sequence[Board], missing: Sequence[Blank], wanted: Sequence[Blank], kerf: Fraction
) -> None:
    """Raises `InternalError` unless every blank wanted lies on one board or is missing, within
    what trimming leaves, each across one rough length, a kerf from its neighbours."""
    found = Counter(b.mark for board in boards for b in board.blanks)
    found.update(blank.mark for blank in missing)
    if found != Counter(blank.mark for blank in wanted):
        raise InternalError(stocks.BLANKS_DIFFER())
    for board in boards:
        _check_board(board, kerf)


def _check_board(board: Board, kerf: Fraction) -> None:
    ends = [(board.trim, board.trim - kerf), *board.crosscuts]
    for before, after in pairwise(ends):
        if after[0] - before[1] < kerf or after[1] > board.size.length - board.trim:
            raise InternalError(stocks.LENGTHS_OVERLAP(board=board.mark))
    for blank in board.blanks:
        along, across = blank.at
        in_one = any(
            low <= along and along + blank.size.length <= high for low, high in board.crosscuts
        )
        if not in_one or across < board.edge or across + blank.size.width > board.size.width:
            raise InternalError(stocks.BLANK_OUTSIDE(board=board.mark, blank=blank.mark))
        if blank.size.thickness > board.size.thickness or blank.material.casefold() != (
            board.material.casefold()
        ):
            raise InternalError(stocks.WRONG_BOARD(board=board.mark, blank=blank.mark))
    for one, other in combinations(board.blanks, 2):
        if all(
            one.at[axis] < other.at[axis] + extent[1] + kerf
            and other.at[axis] < one.at[axis] + extent[0] + kerf
            for axis, extent in (
                (0, (one.size.length, other.size.length)),
                (1, (one.size.width, other.size.width)),
            )
        ):
            raise InternalError(
                stocks.BLANKS_OVERLAP(board=board.mark, one=one.mark, other=other.mark)
            )
