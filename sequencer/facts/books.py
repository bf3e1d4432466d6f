"""What the proof finds wrong in a plan's bookkeeping. Names of knobs, their values and operations
are those of the plan's JSON form."""

from __future__ import annotations

from sequencer.facts.model import COUNT, FACT, LENGTH, MINUTES, TERM, TEXT, Domain, many

kind_of = Domain("book")

AT_STEP = kind_of("at-step", step=COUNT, kind=TERM, pieces=many(TEXT), what=FACT)
AT_STEP_ALONE = kind_of("at-step-alone", step=COUNT, kind=TERM, what=FACT)

# Numbers and marks.
PIECE_TWICE = kind_of("piece-twice", mark=TEXT)
STRIP_TWICE = kind_of("strip-twice", mark=TEXT)
LAID_OUT_TWICE = kind_of("laid-out-twice", mark=TEXT)
DOOR_TWICE = kind_of("door-twice", mark=TEXT)
OPERATION_TWICE = kind_of("operation-twice", mark=TEXT)
SETUP_OUT_OF_PLACE = kind_of("setup-out-of-place", found=COUNT, wanted=COUNT)
STEP_OUT_OF_PLACE = kind_of("step-out-of-place", found=COUNT, wanted=COUNT)

# Checks.
NO_SUCH_SCRAP = kind_of("no-such-scrap", step=COUNT, scrap=TEXT)
TARGET_NOT_GOOD = kind_of(
    "target-not-good", step=COUNT, measure=TEXT, target=LENGTH, low=LENGTH, high=LENGTH
)
NEVER_TRIED = kind_of("never-tried", operation=TEXT, knob=TEXT, value=TEXT)

# Steps against the order.
NO_SUCH_SETUP = kind_of("no-such-setup", setup=COUNT)
CUTS_WITHOUT_SETUP = kind_of("cuts-without-setup")
SETUP_AFTER = kind_of("setup-after", setup=COUNT, after=COUNT)
SCRAP_UNCUT = kind_of("scrap-uncut")
DONE_BEFORE = kind_of("done-before", operation=TEXT, step=COUNT)
NO_SUCH_OPERATION = kind_of("no-such-operation", operation=TEXT)
OTHER_ORDER = kind_of("other-order", operation=TEXT, solved=TEXT)
NOT_IN_BOTH = kind_of("not-in-both", operation=TEXT)
EDGE_OF_NOTHING = kind_of("edge-of-nothing", first=TEXT, later=TEXT)
COMES_BEFORE = kind_of("comes-before", later=TEXT, first=TEXT)
NO_SUCH_WAY = kind_of("no-such-way", operation=TEXT, way=COUNT)

# Strips.
UNLIKE_STRIP = kind_of("unlike-strip", strip=TEXT, piece=TEXT)
SHORT_STRIP = kind_of("short-strip", strip=TEXT, piece=TEXT)

# The guard, and what stands where waste falls.
GUARD_UNSAID = kind_of("guard-unsaid", guard=TEXT)
WRONG_GUARD = kind_of("wrong-guard", mark=TEXT, guard=TEXT)
FENCE_LEFT = kind_of("fence-left")
OFFCUT_TRAPPED = kind_of("offcut-trapped", knob=TEXT)

# What is set.
BENCH_IS_SET_FOR = kind_of("bench-is-set-for", operation=TEXT)
NEEDS = kind_of("needs", operation=TEXT, knob=TEXT, values=many(TEXT), found=TEXT)
NEEDS_UNSET = kind_of("needs-unset", operation=TEXT, knob=TEXT, values=many(TEXT))
NOT_NEXT = kind_of("not-next", setup=COUNT)
CHANGES_NOTHING = kind_of("changes-nothing", setup=COUNT)
CHANGES_WITHIN = kind_of("changes-within", knob=TEXT, setup=COUNT)
FORGOTTEN = kind_of("forgotten", knob=TEXT)
OTHER_CHANGES = kind_of("other-changes", setup=COUNT)
HAS_VALUE = kind_of("has-value", setup=COUNT, knob=TEXT, found=TEXT, wanted=TEXT)
SHOWS_OTHER = kind_of("shows-other", knob=TEXT, found=TEXT, guide=TEXT)
NOT_SET = kind_of("not-set", setup=COUNT, knob=TEXT)
WRONG_DEPTH = kind_of("wrong-depth", height=LENGTH, deck=LENGTH, depth=LENGTH)
WRONG_MOVE = kind_of("wrong-move", knob=TEXT, found=TEXT, wanted=TEXT)
NO_SUCH_KNOB = kind_of("no-such-knob", knob=TEXT)

# Minutes and counts.
WRONG_COST = kind_of("wrong-cost", setup=COUNT, minutes=MINUTES)
WRONG_MINUTES = kind_of("wrong-minutes", found=MINUTES, told=MINUTES)
WRONG_SETUPS = kind_of("wrong-setups", found=COUNT, told=COUNT)
BELOW_BOUND = kind_of("below-bound", minutes=MINUTES, bound=MINUTES)
NOT_PROVEN = kind_of("not-proven", bound=MINUTES)

# Aids.
NO_AID = kind_of("no-aid", aid=TERM)
LOW_FENCE = kind_of("low-fence", high=LENGTH, need=LENGTH)
AID_FOR_NOTHING = kind_of("aid-for-nothing", aid=TERM)
AID_NEITHER = kind_of("aid-neither", aid=TERM)
AID_MINUTES = kind_of("aid-minutes", minutes=MINUTES)
