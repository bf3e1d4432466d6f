"""What the proof finds wrong where sawn pieces are put together, and doors into their openings."""

from __future__ import annotations

from sequencer.facts.model import FACT, LENGTH, TERM, TEXT, Domain, many

kind_of = Domain("fit")

# Where: pieces, door, leaves.
OF_PIECES = kind_of("of-pieces", pieces=many(TEXT), door=TEXT, what=FACT)
OF_DOOR = kind_of("of-door", door=TEXT, what=FACT)
OF_PIECE = kind_of("of-piece", piece=TEXT, what=FACT)
OF_LEAVES = kind_of("of-leaves", left=TEXT, right=TEXT, what=FACT)
SPOT = kind_of("spot", x=LENGTH, x1=LENGTH, y=LENGTH, y1=LENGTH)

# Places.
NO_PLACE = kind_of("no-place", door=TEXT)
NO_PIECE = kind_of("no-piece", mark=TEXT)
NO_FRAME = kind_of("no-frame", axes=many(TEXT))
MIRRORED = kind_of("mirrored", side=TERM)
FRAME_LACKS = kind_of("frame-lacks")
SAME_PLACE = kind_of("same-place")
NOT_FLUSH = kind_of("not-flush")

# Joints.
MEETS_NOTHING = kind_of("meets-nothing")
NO_TENON = kind_of("no-tenon")
OTHER_CLEARANCE = kind_of("other-clearance", found=LENGTH, wanted=LENGTH)
LOOSE_TENON = kind_of("loose-tenon", by=LENGTH)
UNLIKE_CLEARANCES = kind_of("unlike-clearances")

# The outside.
OTHER_SIZE = kind_of(
    "other-size", width=LENGTH, height=LENGTH, x=LENGTH, y=LENGTH, wanted=LENGTH, by=LENGTH
)
GAP_AT_EDGE = kind_of("gap-at-edge", edge=TERM, where=FACT)
GAP_ON_FACE = kind_of("gap-on-face", face=TERM, where=FACT)
OPEN_SHOULDER = kind_of("open-shoulder", face=TERM)
BENCH_TAKES_WOOD = kind_of("bench-takes-wood", where=FACT)

# What fills the lights.
EMPTY_LIGHT = kind_of("empty-light", where=FACT)
IN_NO_LIGHT = kind_of("in-no-light")
OUT_OF_GROOVE = kind_of("out-of-groove")
OUT_OF_REBATE = kind_of("out-of-rebate")
NO_PLAY = kind_of("no-play")
NO_ROOM = kind_of("no-room")
WOOD_IN_PLAY = kind_of("wood-in-play")
NOT_FROM_BACK = kind_of("not-from-back", where=FACT)
NOT_HELD = kind_of("not-held")
NO_TONGUE = kind_of("no-tongue")
TONGUE_BESIDE = kind_of("tongue-beside")
TONGUE_STUCK = kind_of("tongue-stuck")

# In the opening.
NO_HINGE_SIDE = kind_of("no-hinge-side", hinge=TEXT)
OTHER_GAP = kind_of("other-gap", side=TERM, found=LENGTH, wanted=LENGTH)
SEEN_THROUGH = kind_of("seen-through")
