"""The wood: what boards yield, and what is missing."""

from __future__ import annotations

from sequencer.facts.model import COUNT, TEXT, Domain, many

kind_of = Domain("stock")

BOARD_TWICE = kind_of("board-twice", board=TEXT)

SHORT = kind_of("short", strips=many(TEXT))
SHORT_AS_TRIED = kind_of("short-as-tried", strips=many(TEXT))
BUY_FIRST = kind_of("buy-first")
PROVEN = kind_of("proven", n=COUNT)
AT_MOST = kind_of("at-most", n=COUNT, more=COUNT)
FEWEST = kind_of("fewest", n=COUNT)
GLUED_APART = kind_of("glued-apart", strips=many(TEXT))
MATCHED_APART = kind_of("matched-apart", strips=many(TEXT))
NOT_RESAWN = kind_of("not-resawn", first=TEXT, second=TEXT)

BLANKS_DIFFER = kind_of("blanks-differ")
LENGTHS_OVERLAP = kind_of("lengths-overlap", board=TEXT)
BLANK_OUTSIDE = kind_of("blank-outside", board=TEXT, blank=TEXT)
WRONG_BOARD = kind_of("wrong-board", board=TEXT, blank=TEXT)
BLANKS_OVERLAP = kind_of("blanks-overlap", board=TEXT, one=TEXT, other=TEXT)
