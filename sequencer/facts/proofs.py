"""What the proof finds wrong with a plan's cuts and pieces, and what it has shown when it finds
nothing. Lengths are the plan's own."""

from __future__ import annotations

from sequencer.facts.model import COUNT, FACT, LENGTH, TERM, TEXT, Domain, many

kind_of = Domain("proof")

# Where: step, piece.
AT_STEP = kind_of("at-step", step=COUNT, kind=TERM, setup=COUNT, piece=TEXT, what=FACT)
AT_BENCH = kind_of("at-bench", step=COUNT, kind=TERM, piece=TEXT, what=FACT)
AT_PIECE = kind_of("at-piece", piece=TEXT, what=FACT)
STEP = kind_of("step", step=COUNT, kind=TERM)
PLACE = kind_of("place", x=LENGTH, x1=LENGTH, y=LENGTH, y1=LENGTH, z=LENGTH, z1=LENGTH)
SIZE = kind_of("size", length=LENGTH, width=LENGTH, thickness=LENGTH)

# What was sawn is not what was designed.
LOSES_WOOD = kind_of("loses-wood", where=FACT)
KEEPS_WOOD = kind_of("keeps-wood", where=FACT)
KEEPS_WOOD_BESIDE = kind_of("keeps-wood-beside", where=FACT, steps=many(FACT))
FIN_STANDS = kind_of("fin-stands", hair=LENGTH, where=FACT)
NOT_SHAPED = kind_of("not-shaped", where=FACT)
NEVER_CUT = kind_of("never-cut", strip=TEXT)
ON_NO_STRIP = kind_of("on-no-strip")
NOTHING_DESIGNED = kind_of("nothing-designed")
NO_SHAPE = kind_of("no-shape", feature=TEXT)
TEST_PIECE_IS = kind_of("test-piece-is", found=FACT, wanted=FACT)

# Hands.
MIRRORED = kind_of("mirrored", wanted=TERM, found=TERM)
UNLIKE_ENDS = kind_of("unlike-ends")

# A step that cannot be followed.
NOTHING_THERE = kind_of("nothing-there", mark=TEXT)
NO_SETUP = kind_of("no-setup")
ALL_CUT = kind_of("all-cut")
NOT_NAMED = kind_of("not-named", strip=TEXT)
COMES_OFF_ELSEWHERE = kind_of("comes-off-elsewhere", strip=TEXT, found=LENGTH, laid_out=LENGTH)
INSIDE_EDGE_CUT_OFF = kind_of("inside-edge-cut-off")
NOTHING_TO_MEASURE = kind_of("nothing-to-measure")
NOT_THERE_YET = kind_of("not-there-yet")
BENCH_MISSES = kind_of("bench-misses")
BENCH_SHAPE = kind_of("bench-shape")

# What was shown.
PASSES = kind_of("passes", n=COUNT)
PARTS = kind_of("parts", n=COUNT)
DOORS = kind_of("doors", n=COUNT)
SAWN = kind_of("sawn", passes=FACT, parts=FACT)
TOGETHER = kind_of("together", doors=FACT, shows=many(FACT))
NO_GAP_AT_JOINTS = kind_of("no-gap-at-joints")
NO_GAP_OUTSIDE = kind_of("no-gap-outside")
PANELS_FREE = kind_of("panels-free")
BOARDS_FREE = kind_of("boards-free")
PANES_HELD = kind_of("panes-held")
SIZES_AS_STATED = kind_of("sizes-as-stated")
TRUSTED = kind_of("trusted", pieces=many(TEXT))
DRAWN_ELSEWHERE = kind_of("drawn-elsewhere")
