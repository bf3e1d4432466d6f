"""How a spoiled piece, strip or test piece is made again."""

from __future__ import annotations

from sequencer.facts.model import COUNT, FACT, LENGTH, SAID, TERM, TEXT, Domain, many

kind_of = Domain("mending")

MADE_AGAIN = kind_of("made-again", mark=TEXT)
MAKE_AGAIN = kind_of("make-again", mark=TEXT)
SPOILED_AT = kind_of("spoiled-at", mark=TEXT, at=FACT)
STRIP = kind_of(
    "strip", material=TEXT, thickness=LENGTH, width=LENGTH, length=LENGTH, marks=many(TEXT)
)
PIECE = kind_of("piece", material=TEXT, thickness=LENGTH, length=LENGTH)
AS_IN = kind_of("as-in", verb=SAID, places=many(FACT))
NO_SETTING_UP = kind_of("no-setting-up")
SETTING_UP = kind_of("setting-up", n=COUNT)
TRIED_AND_MOVED = kind_of("tried-and-moved", setting=TERM)
SET_BACK = kind_of("set-back", blade=SAID, settings=many(FACT))
STOOD_AT = kind_of("stood-at", setting=SAID, at=LENGTH)
"""`setting` is what it is called."""
