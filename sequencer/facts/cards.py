"""What stands on the cards of the page: titles, what is done and how, what is measured."""

from __future__ import annotations

from sequencer.facts.model import COUNT, FACT, LENGTH, SAID, TERM, TEXT, Domain, many

kind_of = Domain("card")

# Which card: by the printed number of its step or its setup.
STEP = kind_of("step", label=TEXT)
SETUP = kind_of("setup", label=TEXT)
STEPS = kind_of("steps", n=COUNT, labels=many(TEXT))
SETUPS = kind_of("setups", n=COUNT, labels=many(TEXT))
THE_START = kind_of("the-start")
THE_END = kind_of("the-end")
HEADING = kind_of("heading", at=FACT, title=SAID)
"""`at` is a step or a setup."""

NOW = kind_of("now", before=FACT, after=FACT)
"""The printed step or setup, and the number that it goes by now."""

# What is ticked or measured on it.
PIECE = kind_of("piece", mark=TEXT)
STOCK = kind_of("stock", number=TEXT)
STOCK_AT = kind_of("stock-at", number=TEXT, at=TERM)
MEASURE_OF = kind_of("measure-of", measure=FACT, mark=TEXT)
STRIP_FOR = kind_of("strip-for", marks=many(TEXT))
TEST_PIECE = kind_of("test-piece")
KERF_OF = kind_of("kerf-of", blade=SAID)
PANEL_OF = kind_of("panel-of", thickness=LENGTH)
BY_FEEL = kind_of("by-feel")
SPOILED = kind_of("spoiled", mark=TEXT, at=FACT)

# What always holds, and the guard.
ALWAYS = kind_of("always")
GUARD_OFF = kind_of("guard-off")
GUARD_ON = kind_of("guard-on")
UNPLUG = kind_of("unplug")

# Setting the saw.
SET_THE_SAW = kind_of("set-the-saw")
BLADE_AND_KERF = kind_of("blade-and-kerf", blade=SAID, kerf=LENGTH)
HEIGHT = kind_of("height")
JIG_RIDES = kind_of("jig-rides", setting=LENGTH, jig=LENGTH)
LEANS = kind_of("leans", how=SAID)

# Before power on and before leaving.
BEFORE_POWER = kind_of("before-power")
BEFORE_LEAVING = kind_of("before-leaving")
COUNTED = kind_of("counted", n=COUNT, marks=many(TEXT))
TESTED = kind_of("tested")

# Cuts.
AT_END = kind_of("at-end", verb=SAID, end=TEXT)
AS_ITS_MATE_IS = kind_of("as-its-mate-is")
SET_HOW = kind_of("set-how", how=TERM)
BOTH = kind_of("both", first=FACT, second=FACT)
READ = kind_of("read", by=TERM)
IN_ONE_LINE = kind_of("in-one-line", parts=many(SAID))
OTHER_END = kind_of("other-end")
FROM_STRIP = kind_of("from-strip", strip=TEXT, how=SAID)
PASSES = kind_of("passes", n=COUNT)
TEST_CUT = kind_of("test-cut", marks=many(TEXT))
CHECK_CUT = kind_of("check-cut", marks=many(TEXT))
MEASURE_ITS_KERF = kind_of("measure-its-kerf", blade=TEXT)

# The bench.
LAID_OUT = kind_of("laid-out", what=SAID)
MILLED = kind_of("milled", thickness=LENGTH, marks=many(TEXT))
