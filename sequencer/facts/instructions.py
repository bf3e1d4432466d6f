"""How a piece lies for a cut, what is turned between passes, and what a test cut asks first."""

from __future__ import annotations

from sequencer.facts.model import COUNT, FACT, TERM, TEXT, Domain

kind_of = Domain("instruction")

LIES = kind_of("lies", down=TERM, bearing=FACT)
"""`down` is the side that lies on the table or deck, or stands on it."""
LIES_SLANTED = kind_of("lies-slanted", down=TERM, bearing=FACT)
OFF_STRIP = kind_of("off-strip", down=TERM)
TRIMMED = kind_of("trimmed", down=TERM)
BEARS = kind_of("bears", side=TERM, carrier=TEXT)
"""Which side bears on what sets the guide on that carrier."""
BEARS_ON_BLOCK = kind_of("bears-on-block", side=TERM)
BACK_TO_FIRST = kind_of("back-to-first")
SWEPT = kind_of("swept")
FAR_PART = kind_of("far-part")
FIT_STRIP = kind_of("fit-strip")
"""Between the first rebates of tongues and the second: a strip under what is gone by then."""
TURN_ROUND = kind_of("turn-round", bearing=FACT)
TURN_OVER = kind_of("turn-over", down=TERM)
OTHER_END = kind_of("other-end")
OTHER_FENCE = kind_of("other-fence")
SAME_AS_STEP = kind_of("same-as-step", step=COUNT)
ONE_END_AS_STEP = kind_of("one-end-as-step", step=COUNT)
SAW_OFF_TRIED = kind_of("saw-off-tried")
FRESH_EDGE = kind_of("fresh-edge")
AT_STOP = kind_of("at-stop", end=TERM)
"""Which end of a piece is at the stop as it comes off its strip, whose squared end is there."""
