"""What would do instead of what is refused: tried, and planned."""

from __future__ import annotations

from sequencer.facts.model import FACT, TEXT, Domain, many

kind_of = Domain("offer")

TRIED = kind_of("tried", each=FACT)
WOULD_DO = kind_of("would-do", each=FACT)
BOTH = kind_of("both", each=many(FACT))
TAKE_OUT = kind_of("take-out", key=TEXT, table=TEXT)
NOTHING_DID = kind_of("nothing-did")
MENDED = kind_of("mended", file=TEXT, does=FACT)
MEND_WRITES = kind_of("mend-writes")
CANNOT_MEND = kind_of("cannot-mend")
