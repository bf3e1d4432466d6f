"""What is wrong with what fills a frame, or with a door that has none, and what would do."""

from __future__ import annotations

from sequencer.facts.model import LENGTH, TERM, TEXT, Domain

kind_of = Domain("fill")

WORD_AND_TABLE = kind_of("word-and-table", word=TEXT, table=TEXT)
TWO_AT_ONCE = kind_of("two-at-once", first=TERM, second=TERM)
KEEP_ONE_OR_WRITE = kind_of("keep-one-or-write", first=TEXT, second=TEXT)
KEY_IDLE = kind_of("key-idle", key=TEXT, fill=TERM)
PANE_IN_REBATE = kind_of("pane-in-rebate")
BOARDS_HAVE_GAPS = kind_of("boards-have-gaps")
SLAB_HAS_NO_FRAME = kind_of("slab-has-no-frame")

SLAB_SWELLS_TOO_MUCH = kind_of("slab-swells-too-much", width=LENGTH)
FRAME_AND_PANEL = kind_of("frame-and-panel")

BEVEL_IN_GROOVE = kind_of("bevel-in-groove", bevel=LENGTH)
NO_FIELD = kind_of("no-field", bevel=LENGTH, across=LENGTH)
LESS_BEVEL = kind_of("less-bevel", most=LENGTH)

NARROW_BOARDS = kind_of("narrow-boards", width=LENGTH)
TONGUE_LENGTH = kind_of("tongue-length", tongue=LENGTH)

MEASURE_PANE = kind_of("measure-pane")
PANE_TOO_LARGE = kind_of("pane-too-large", under=LENGTH)
PANES_VARY = kind_of("panes-vary", least=LENGTH)
PANE_SLIPS = kind_of("pane-slips", under=LENGTH, depth=LENGTH)
DEEPER_REBATE = kind_of("deeper-rebate", depth=LENGTH)
DEEPER_REBATE_OR_LESS_UNDER = kind_of("deeper-rebate-or-less-under", depth=LENGTH, under=LENGTH)
