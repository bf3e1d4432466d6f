"""How good a plan's order is, of what was compared, and what was not looked at."""

from __future__ import annotations

from sequencer.facts.model import COUNT, MINUTES, Domain

kind_of = Domain("claim")

PROVEN = kind_of("proven")
PROVEN_OF_WAYS = kind_of("proven-of-ways", ways=COUNT)
AT_MOST = kind_of("at-most", above=MINUTES)
AT_MOST_OF_WAYS = kind_of("at-most-of-ways", above=MINUTES, ways=COUNT)

EACH_BY_ITS_OWN = kind_of("each-by-its-own", could_save=MINUTES)
OTHER_VALUES = kind_of("other-values", could_save=MINUTES)
FITS_BETTER = kind_of("fits-better", could_save=MINUTES, fitting=MINUTES)
AIDS = kind_of("aids", could_save=MINUTES)

REFUSED = kind_of("refused")
MORE = kind_of("more", more=MINUTES)
AT_LEAST_MORE = kind_of("at-least-more", more=MINUTES)
NO_QUICKER = kind_of("no-quicker")
QUICKER = kind_of("quicker", less=MINUTES)
NOT_ORDERED = kind_of("not-ordered", less=MINUTES)
MORE_AS_ORDERED = kind_of("more-as-ordered", more=MINUTES, less=MINUTES)
NO_QUICKER_AS_ORDERED = kind_of("no-quicker-as-ordered", less=MINUTES)
