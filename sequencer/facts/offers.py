"""What would do instead of what is refused: tried, and planned."""

from __future__ import annotations

from sequencer.facts.model import COUNT, FACT, TEXT, Domain, many

kind_of = Domain("offer")

TRIED = kind_of("tried", each=FACT)
WOULD_DO = kind_of("would-do", each=FACT)
BOTH = kind_of("both", each=many(FACT))
WRITE_OF_DOOR = kind_of("write-of-door", text=TEXT, table=TEXT, n=COUNT)
TAKE_LINE_OUT = kind_of("take-line-out", key=TEXT)
TAKE_OUT = kind_of("take-out", key=TEXT, table=TEXT)
TAKE_OUT_OF_DOOR = kind_of("take-out-of-door", key=TEXT, table=TEXT, n=COUNT)
NOTHING_DID = kind_of("nothing-did")
MENDED = kind_of("mended", file=TEXT, does=FACT)
MEND_WRITES = kind_of("mend-writes")
CANNOT_MEND = kind_of("cannot-mend")
