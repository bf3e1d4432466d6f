"""What differs between two plans: pieces, strips, setups."""

from __future__ import annotations

from sequencer.facts.model import COUNT, FACT, LENGTH, MINUTES, TERM, TEXT, Domain, many

kind_of = Domain("difference")

NONE = kind_of("none")
SINCE = kind_of("since")
OTHER_UNIT = kind_of("other-unit")
DOOR = kind_of("door", was=TEXT, now=TEXT, write=TEXT)
PIECES_NEW = kind_of("pieces-new", marks=many(TEXT))
PIECES_GONE = kind_of("pieces-gone", marks=many(TEXT))
PIECE = kind_of("piece", mark=TEXT, how=many(FACT))
STRIPS = kind_of("strips", marks=many(TEXT))
SETUPS_NEW = kind_of("setups-new", n=COUNT, numbers=many(COUNT))
SETUPS_GONE = kind_of("setups-gone", n=COUNT, numbers=many(COUNT))
SETUP = kind_of("setup", number=COUNT, was=COUNT, how=many(FACT))
KNOB = kind_of("knob", knob=TERM, now=LENGTH, planned=LENGTH)
OTHER_TOOLS = kind_of("other-tools")
ORDER = kind_of("order")
TOTALS = kind_of("totals", setups=COUNT, minutes=MINUTES, were=COUNT, took=MINUTES)
AND_MORE = kind_of("and-more", n=COUNT)
