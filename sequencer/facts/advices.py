"""What is said beside a plan: free dimensions, spacers and spares worth having, small changes that
would save setups, pieces made again."""

from __future__ import annotations

from sequencer.facts.model import COUNT, FACT, LENGTH, MINUTES, TERM, TEXT, Domain, many, maybe

kind_of = Domain("advice")

# Dimensions that the job leaves free.
CHOSEN = kind_of(
    "chosen", name=TERM, value=LENGTH, low=LENGTH, high=LENGTH, minutes=MINUTES, others=maybe(FACT)
)
OTHERS = kind_of("others", each=many(FACT))
COSTS_AT = kind_of("costs-at", minutes=MINUTES, value=LENGTH)

# Spacers.
SPACER = kind_of(
    "spacer", thickness=LENGTH, kerf=maybe(FACT), leads=FACT, saved=maybe(FACT), minutes=MINUTES
)
ONE_KERF = kind_of("one-kerf")
LEADS = kind_of("leads", n=COUNT, numbers=FACT)
SAVED_TOO = kind_of("saved-too", n=COUNT, numbers=FACT)
NUMBERS = kind_of("numbers", numbers=many(COUNT))
NUMBERS_AND_MORE = kind_of("numbers-and-more", numbers=many(COUNT), more=COUNT)

# Small changes.
CHANGES = kind_of("changes", each=many(FACT), n=COUNT, marks=many(TEXT), saves=FACT)
CHANGE_TO = kind_of("change-to", where=FACT, name=TERM, value=LENGTH, now=LENGTH)
AT_LINE = kind_of("at-line", file=TEXT, line=COUNT)
BY_DEFAULT = kind_of("by-default", file=TEXT)
SETUPS_AND_MINUTES = kind_of("setups-and-minutes", n=COUNT, minutes=MINUTES)
SETUPS = kind_of("setups", n=COUNT)
JUST_MINUTES = kind_of("just-minutes", minutes=MINUTES)
NO_CHANGE = kind_of("no-change", n=COUNT, within=LENGTH, fine=LENGTH)
PASSED_OVER = kind_of("passed-over", looked_at=COUNT, others=COUNT)

# Spares, and pieces made again.
SPARE_WORTH = kind_of("spare-worth", mark=TEXT, least=MINUTES)
SPARE_SAVES = kind_of("spare-saves", marks=many(TEXT), along=FACT, again=MINUTES)
SPARE_SAVES_NOTHING = kind_of("spare-saves-nothing", marks=many(TEXT), along=FACT)
NO_SETTING_MORE = kind_of("no-setting-more")
MORE_SETTING_UP = kind_of("more-setting-up", minutes=MINUTES)
NO_SLOT = kind_of("no-slot", slot=LENGTH, known=many(LENGTH))
SLOT_TOO_FAR = kind_of("slot-too-far", slot=LENGTH, cut=LENGTH)
NO_PIECE = kind_of("no-piece", mark=TEXT, known=many(TEXT))
OTHER_JOB = kind_of("other-job", marks=many(TEXT))
COMES_OUT_OTHERWISE = kind_of("comes-out-otherwise", mark=TEXT, how=many(FACT))
SIZE_DIFFERS = kind_of("size-differs", what=TERM, now=LENGTH, planned=LENGTH)
JOINTS_DIFFER = kind_of("joints-differ")
