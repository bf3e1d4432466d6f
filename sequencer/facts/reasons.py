"""Why one operation comes before another, and why a setup stands where it does."""

from __future__ import annotations

from sequencer.facts.model import COUNT, FACT, TERM, Domain, many

kind_of = Domain("reason")

# Of two operations.
MILLED = kind_of("milled-together")
LONG = kind_of("long-strip-first")
PLANED = kind_of("edge-planed-first")
CHAIN = kind_of("crosscut-squares-next")
LENGTH = kind_of("length-before-joints")
TEST_READY = kind_of("test-piece-first")
GROOVED = kind_of("slot-set-from-groove")
SLOT_FIRST = kind_of("slots-first")
SHOULDER_FIRST = kind_of("shoulders-first")
TONGUE_LAST = kind_of("tongue-fitted-to-groove")
ENDS_FIRST = kind_of("ends-before-edges")
FREED_LAST = kind_of("edge-pass-frees")
OUTER_FIRST = kind_of("outer-pass-first")
FACE_FIRST = kind_of("face-cheeks-first")
SHAPED = kind_of("shaped-after-joints")
FOLLOWS = kind_of("groove-follows-shape")
WHOLE_JOINT = kind_of("joints-before-dry-fit")
GLUED_UP = kind_of("glued-up-first")
MEASURED = kind_of("opening-measured-first")
TRIMMED = kind_of("trimmed-before-glue")
SIZED = kind_of("sized-before-finish")
FINISHED = kind_of("finished-before-glue")
BENCH = kind_of("bench-order")
BACKED = kind_of("mitre-backed")
NEAR_FIRST = kind_of("near-shoulder-first")
WALL_FIRST = kind_of("first-wall-first")
TONGUE_FITTED = kind_of("slots-before-tongues")

# Of a setup.
AFTER_SETUPS = kind_of("after-setups", n=COUNT, setups=many(COUNT), because=FACT)
AFTER_WORK = kind_of("after-work", work=TERM, because=FACT)
AFTER_MILLING = kind_of("after-milling")
STAY = kind_of("stay", n=COUNT, knobs=many(TERM))
SERVES = kind_of("serves", doors=COUNT)
