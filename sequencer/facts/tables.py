"""What is wrong with a table of pieces."""

from __future__ import annotations

from sequencer.facts.model import COUNT, LENGTH, TEXT, Domain, many

kind_of = Domain("table")

# The table as a whole.
NO_COLUMN = kind_of("no-column", names=many(TEXT))
FIRST_ROW = kind_of("first-row", names=many(TEXT))
COLUMN_TWICE = kind_of("column-twice", name=TEXT)
NO_TABLE = kind_of("no-table", found=TEXT)
SAVE_AS_CSV = kind_of("save-as-csv")
NO_PIECES = kind_of("no-pieces")
ROW_EACH = kind_of("row-each")
TOO_MANY = kind_of("too-many", most=COUNT)
SPLIT_TABLE = kind_of("split-table")

# A row's own cells.
NO_UNIT = kind_of("no-unit")
UNIT_IN_EVERY_ROW = kind_of("unit-in-every-row")
OTHER_UNIT = kind_of("other-unit")
NO_MARK = kind_of("no-mark")
MARK_LIKE = kind_of("mark-like")
MARK_TAKEN = kind_of("mark-taken", mark=TEXT, line=COUNT)
OWN_MARK = kind_of("own-mark")
NO_END = kind_of("no-end", column=TEXT)
WRITE_END = kind_of("write-end")
NO_SIDE = kind_of("no-side")
WRITE_SIDE = kind_of("write-side")
NOT_PRINTABLE = kind_of("not-printable", column=TEXT)
ONE_LINE = kind_of("one-line", most=COUNT)

# What its figures say together.
LACKS = kind_of("lacks", column=TEXT)
AS_SAWN = kind_of("as-sawn")
NO_DEPTH = kind_of("no-depth", joint=TEXT, end=TEXT)
HOW_DEEP = kind_of("how-deep")
DEPTH_ALONE = kind_of("depth-alone", end=TEXT)
JOINT_OR_NONE = kind_of("joint-or-none", column=TEXT)
NO_SLOT_WIDTH = kind_of("no-slot-width")
A_THIRD = kind_of("a-third")
NOTHING_BETWEEN = kind_of("nothing-between")
CHECK_DEPTHS = kind_of("check-depths")
SLOT_TOO_WIDE = kind_of("slot-too-wide", width=LENGTH)
GROOVE_TOO_WIDE = kind_of("groove-too-wide", width=LENGTH)
AT_MOST_HERE = kind_of("at-most-here", most=LENGTH)
NO_GROOVE_WIDTH = kind_of("no-groove-width")
NO_GROOVE_DEPTH = kind_of("no-groove-depth")
GIVE_BOTH = kind_of("give-both")
GROOVE_TOO_DEEP = kind_of("groove-too-deep")
MAKE_IT_LESS = kind_of("make-it-less")
TENON_TOO_WIDE = kind_of("tenon-too-wide")
TENON_AT_MOST = kind_of("tenon-at-most", most=LENGTH)
NO_SLOT_TO_TRY = kind_of("no-slot-to-try")
ADD_A_SLOT = kind_of("add-a-slot")
