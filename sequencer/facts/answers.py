"""What is said to a tap that counts: of readings, of what they change, of what is made again."""

from __future__ import annotations

from sequencer.facts.model import COUNT, FACT, LENGTH, NUMBER, TERM, TEXT, Domain, many

kind_of = Domain("answer")

A_TERM = kind_of("a-term", term=TERM)

# A reading against its target.
GOOD = kind_of("good", measured=LENGTH, target=LENGTH)
TOO_MUCH = kind_of("too-much", measured=LENGTH, target=LENGTH, by=LENGTH)
TOO_LITTLE = kind_of("too-little", measured=LENGTH, target=LENGTH, by=LENGTH)
ADJUST = kind_of("adjust", measured=LENGTH, target=LENGTH, move=FACT)
OTHER_UNIT = kind_of("other-unit", measured=LENGTH, target=LENGTH, unit=TERM, sign=TEXT)
TOO_FAR = kind_of("too-far", measured=LENGTH, target=LENGTH, by=LENGTH)
NOTHING_CHANGED = kind_of("nothing-changed")
TOO_SHORT = kind_of("too-short", mark=TEXT, measured=LENGTH, by=LENGTH)
"""The first piece of several, which no correction makes longer again."""
TOO_DEEP = kind_of("too-deep", mark=TEXT, measured=LENGTH, by=LENGTH)
CUT_DEEPER = kind_of("cut-deeper", mark=TEXT)
"""The first piece again, where it was looked at in place of a test cut."""

# Told by feel.
FITS = kind_of("fits")
TIGHT = kind_of("tight", move=FACT)
LOOSE = kind_of("loose", move=FACT)

# What to move, and the same by what is at hand.
MOVE = kind_of("move", setting=TERM, by=LENGTH, way=TERM)
THICKER = kind_of("thicker", by=LENGTH, thin=FACT)
THINNER = kind_of("thinner", by=LENGTH)
"""Of a block between jig and piece."""
TWICE = kind_of("twice")
GRADUATIONS = kind_of("graduations", n=COUNT, step=LENGTH)
ABOUT_GRADUATIONS = kind_of("about-graduations", n=NUMBER, step=LENGTH)
"""`n` in quarters."""
A_TOUCH = kind_of("a-touch", step=LENGTH)
LESS = kind_of("less", step=LENGTH, thin=FACT)
NO_FEELER = kind_of("no-feeler", size=LENGTH)
FEELER = kind_of("feeler", size=LENGTH)
PAPER = kind_of("paper", n=COUNT, size=LENGTH)

# Tries on scrap.
TRY = kind_of("try", n=COUNT)
CUT_AGAIN = kind_of("cut-again")
END_SPENT = kind_of("end-spent", off=LENGTH, n=COUNT)
BOTH_SPENT = kind_of("both-spent", off=LENGTH, n=COUNT)
"""Where something is measured between both ends."""
LAST_SPENT = kind_of("last-spent")
EDGE_SPENT = kind_of("edge-spent")
"""What is tried along a strip."""

# Stock at its thinnest and thickest.
STOCK_NOTED = kind_of("stock-noted", at=TERM, value=LENGTH)
STOCK_EVEN = kind_of("stock-even", at=TERM, value=LENGTH)
STOCK_UNEVEN = kind_of("stock-uneven", spread=LENGTH, most=LENGTH)

# A kerf or a panel, measured by itself.
NOTED = kind_of("noted", measured=LENGTH, before=LENGTH)
NOTED_ALIKE = kind_of("noted-alike", measured=LENGTH, before=LENGTH)
LEFT_AS_CUT = kind_of("left-as-cut", measured=LENGTH)
NEVER_SO_FAR = kind_of("never-so-far", measured=LENGTH, before=LENGTH, what=TERM, unit=TERM)

# What a measured value does to the rest.
REST_FOLLOWS = kind_of("rest-follows", what=many(TERM))
CHANGES_NOTHING = kind_of("changes-nothing")
NO_LONGER_HOLD = kind_of("no-longer-hold", places=many(FACT))
CANNOT_FOLLOW = kind_of("cannot-follow", what=many(TERM), why=FACT)
REST_CANNOT = kind_of("rest-cannot", says=many(FACT))
CONTRADICTS = kind_of("contradicts")
CONTRADICTS_AT = kind_of("contradicts-at", cut=FACT, mark=TEXT)
LEFT_AS_IT_WAS = kind_of("left-as-it-was")

# Spoiled pieces.
AGAIN_NOW = kind_of("again-now", mark=TEXT)
AGAIN_BEFORE = kind_of("again-before", mark=TEXT, before=FACT)
AGAIN_LATER = kind_of("again-later", mark=TEXT)

# Files that were changed.
FILES_CHANGED = kind_of("files-changed", holds=FACT, gone=FACT)
TICKS_HOLD = kind_of("ticks-hold", n=COUNT)
TICKS_GONE = kind_of("ticks-gone", n=COUNT)
CUTS_GONE = kind_of("cuts-gone", marks=many(TEXT))
STRIPS_AGAIN = kind_of("strips-again", n=COUNT, marks=many(TEXT))
MEASURE_AGAIN = kind_of("measure-again", what=many(TERM))
LOST = kind_of("lost", pieces=many(FACT))
NOT_AGAIN = kind_of("not-again", mark=TEXT, why=many(FACT))

# Settings kept for later jobs.
KEPT = kind_of("kept", number=COUNT)
NOT_KEPT = kind_of("not-kept", why=many(FACT))

UNDONE = kind_of("undone", tap=FACT)
