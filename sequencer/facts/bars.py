"""What is wrong with mid rails and mullions, and what would do."""

from __future__ import annotations

from sequencer.facts.model import COUNT, LENGTH, TERM, TEXT, Domain

kind_of = Domain("bar")

TOO_MANY = kind_of("too-many", most=COUNT)
LEAVE_SOME_OUT = kind_of("leave-some-out")
NO_KIND = kind_of("no-kind")
MID_RAIL_IN_ROW = kind_of("mid-rail-in-row")
MID_RAILS_MAKE_ROWS = kind_of("mid-rails-make-rows")
IN_SLAB = kind_of("in-slab")
BARS_OR_SLAB = kind_of("bars-or-slab")
NO_SUCH_ROW = kind_of("no-such-row", row=COUNT, rows=COUNT)
ROWS = kind_of("rows", rows=COUNT)
PARTLY_PLACED = kind_of("partly-placed", bar=TEXT)
PLACE_ALL_OR_NONE = kind_of("place-all-or-none")
TOO_NARROW = kind_of("too-narrow", bar=TEXT, width=LENGTH, keeps=LENGTH)
WIDE_ENOUGH = kind_of("wide-enough", least=LENGTH, depth=LENGTH)
OVERLAP = kind_of("overlap", by=LENGTH)
SMALL_LIGHT = kind_of("small-light", left=LENGTH, way=TERM)
LARGER_LIGHT = kind_of("larger-light", least=LENGTH)
BRIDLES_MEET = kind_of("bridles-meet")
STUB_OR_CLEAR = kind_of("stub-or-clear")
