"""What is wrong with hands or waste in a pass, as the virtual saw sees it; and what is told of them
at a setup."""

from __future__ import annotations

from sequencer.facts.model import FACT, LENGTH, TERM, Domain

kind_of = Domain("handling")

# What must not happen.
UNTOLD = kind_of("untold")
FALLS = kind_of("falls", found=FACT, told=FACT)
CAPTIVE = kind_of("captive", found=TERM, told=TERM)
HELD = kind_of("held", found=TERM, told=TERM)
REACHES = kind_of("reaches", found=LENGTH, told=LENGTH)
NO_GRIP = kind_of("no-grip", by=TERM)
TOO_NEAR = kind_of("too-near", by=TERM, found=LENGTH, least=LENGTH)
PRESSED = kind_of("pressed", found=TERM, told=TERM)
ENDED = kind_of("ended", found=TERM, told=TERM)
KNIFE_ON_HEAD = kind_of("knife-on-head")

# What comes loose.
FREED = kind_of("freed", what=TERM, side=TERM, lands=TERM)
CHIPS = kind_of("chips")

# What is told at a setup.
LEAVE = kind_of("leave", what=TERM, way=TERM)
"""`way`: the side of the blade that it falls to, for the person before the saw."""
