"""What must precede what by the rules of the trade, and where a plan's printed steps do not keep
it."""

from __future__ import annotations

from sequencer.facts.model import COUNT, FACT, TERM, TEXT, Domain

kind_of = Domain("intent")

TOO_EARLY = kind_of("too-early", first=TERM, mark=TEXT, step=COUNT, why=FACT)
NEVER_TRIED = kind_of("never-tried", cut=TERM)
NO_STEP = kind_of("no-step", kind=TERM, door=TEXT)
NEVER_GLUED = kind_of("never-glued", strip=TEXT)
OTHER_BOARDS = kind_of("other-boards", strip=TEXT, told=COUNT, laid=COUNT)

# Why.
FLAT_FIRST = kind_of("flat-first")
GLUED_UP_FIRST = kind_of("glued-up-first")
EDGE_FIRST = kind_of("edge-first")
LONG_FIRST = kind_of("long-first")
SQUARE_FIRST = kind_of("square-first")
LENGTH_FIRST = kind_of("length-first")
SCRAP_FIRST = kind_of("scrap-first")
SLOT_FIRST = kind_of("slot-first")
SHOULDER_FIRST = kind_of("shoulder-first")
MITRE_FIRST = kind_of("mitre-first")
STRAIGHT_FIRST = kind_of("straight-first")
SHAPE_FIRST = kind_of("shape-first")
ENDS_FIRST = kind_of("ends-first")
JOINTS_FIRST = kind_of("joints-first")
FIT_BEFORE_SIZE = kind_of("fit-before-size")
FIT_BEFORE_GLUE = kind_of("fit-before-glue")
FIT_BEFORE_FINISH = kind_of("fit-before-finish")
TRIM_BEFORE_GLUE = kind_of("trim-before-glue")
SIZE_BEFORE_FINISH = kind_of("size-before-finish")
FINISH_BEFORE_GLUE = kind_of("finish-before-glue")
WHILE_WET = kind_of("while-wet")
GLUED_BEFORE_FLUSH = kind_of("glued-before-flush")
GLASS_LAST = kind_of("glass-last")
HUNG_LAST = kind_of("hung-last")
