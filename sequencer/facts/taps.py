"""Taps: why one does not count, and what each was, for whoever takes it back."""

from __future__ import annotations

from sequencer.facts.model import FACT, TERM, TEXT, Domain

kind_of = Domain("tap")

# What it was.
TICKED = kind_of("ticked", piece=FACT)
CARD_TICKED = kind_of("card-ticked", card=TERM)
SKIPPED = kind_of("skipped", piece=FACT)
MEASURING_SKIPPED = kind_of("measuring-skipped")
ENTERED = kind_of("entered", measure=FACT)
MEASURED = kind_of("measured", what=TERM)
FILES_LEFT = kind_of("files-left")
SPOILT = kind_of("spoilt", mark=TEXT)

# Why it does not count: what the page sent.
NOT_UNDERSTOOD = kind_of("not-understood")
WITHOUT = kind_of("without", key=TEXT)
NO_SUCH_TAP = kind_of("no-such-tap")
TOO_LONG = kind_of("too-long")
NO_PLAN_YET = kind_of("no-plan-yet")
STEP_CHANGED = kind_of("step-changed")
FILES_OTHERWISE = kind_of("files-otherwise")
UNDO_THE_OTHER_FIRST = kind_of("undo-the-other-first")

# Ticks and skips.
MEASURED_NOT_TICKED = kind_of("measured-not-ticked")
TICKED_ALREADY = kind_of("ticked-already")
IS_SPOILED = kind_of("is-spoiled", piece=FACT)
WAITS = kind_of("waits", piece=FACT, first=TEXT, reason=FACT)
STEP_OPEN = kind_of("step-open")
COMES_FIRST = kind_of("comes-first", mark=TEXT, reason=FACT)
FIRST_PIECE_FIRST = kind_of("first-piece-first")
RELIED_ON = kind_of("relied-on")
ONLY_NOW = kind_of("only-now")
NEEDED = kind_of("needed", piece=FACT, mark=TEXT, reason=FACT)

# Readings.
TICKED_NOT_MEASURED = kind_of("ticked-not-measured")
CUT_FIRST = kind_of("cut-first")
CUTS_SINCE = kind_of("cuts-since")
NO_FEEL = kind_of("no-feel", measure=FACT)
NO_NUMBER = kind_of("no-number")
NO_LENGTH = kind_of("no-length", message=FACT, hint=FACT)
NOTHING_TO_MEASURE = kind_of("nothing-to-measure")

# Spoiled pieces.
AGAIN_ALREADY = kind_of("again-already", mark=TEXT)
NOT_CUT_YET = kind_of("not-cut-yet", mark=TEXT, strip=TEXT)
NO_PART = kind_of("no-part", mark=TEXT)
GLUED_UP = kind_of("glued-up", door=TEXT, mark=TEXT)
NOT_NEEDED = kind_of("not-needed", mark=TEXT)
