"""What is to be said of a plan: of its wood, its hands, its cutters and its saved settings."""

from __future__ import annotations

from sequencer.facts.model import COUNT, FACT, LENGTH, MINUTES, NUMBER, TERM, TEXT, Domain, many

kind_of = Domain("note")

# Of cutters and pieces.
UNEVEN_TEETH = kind_of("uneven-teeth", cutter=TEXT)
HAND_TAKEN = kind_of("hand-taken", marks=many(TEXT))

# Of the year.
UNKNOWN_WOOD = kind_of("unknown-wood", wood=TEXT, so=many(FACT))
PANEL_KEEPS_PLAY = kind_of("panel-keeps-play")
GAP_AS_STATED = kind_of("gap-as-stated")
MOVES_MOST = kind_of("moves-most", wood=TEXT, species=many(TEXT))
WETTER_TODAY = kind_of("wetter-today", today=NUMBER, wettest=NUMBER)
OUTSIDE_LINEAR = kind_of("outside-linear")

# Of saved settings.
SET_BY = kind_of("set-by", number=COUNT, sets=many(FACT))
HEIGHT = kind_of("height", sets=FACT)
READS = kind_of("reads", reads=LENGTH)
BY_GAUGE = kind_of("by-gauge", gauge=FACT, reads=LENGTH)
CORRECTED_UP = kind_of("corrected-up", sets=FACT, was=LENGTH, now=LENGTH, by=LENGTH)
CORRECTED_DOWN = kind_of("corrected-down", sets=FACT, was=LENGTH, now=LENGTH, by=LENGTH)
UNCORRECTED = kind_of("uncorrected", sets=FACT, was=LENGTH, now=LENGTH)
BY_SCALE = kind_of("by-scale", knob=TERM, n=COUNT, spread=LENGTH)
KNOCKED = kind_of("knocked", knob=TERM, carrier=TERM, by=LENGTH, since=TEXT)
ONE_CHECK_CUT = kind_of("one-check-cut")
ONE_LOOK = kind_of("one-look")
KNOWING_SAVES = kind_of("knowing-saves", n=COUNT, minutes=MINUTES)
BLOCK = kind_of("block", name=TEXT)
SPACER = kind_of("spacer", name=TEXT)
STORY_STICK = kind_of("story-stick", name=TEXT)
SETTINGS = kind_of("settings", n=COUNT, numbers=many(COUNT))
AND_MORE = kind_of("and-more", numbers=many(COUNT), more=COUNT)
DOUBTED = kind_of("doubted", settings=FACT, cutter=TEXT)
OTHER_CUTTER = kind_of("other-cutter", settings=FACT, cutter=TEXT)
USELESS = kind_of("useless", settings=FACT, most=LENGTH)
