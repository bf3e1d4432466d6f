"""Which joints do not go with what else a door is, and what would do."""

from __future__ import annotations

from sequencer.facts.model import LENGTH, TERM, Domain

kind_of = Domain("joint")

STUB_WITHOUT_GROOVE = kind_of("stub-without-groove")
BARS_WITHOUT_GROOVE = kind_of("bars-without-groove")
BRIDLE_ON_HALF_LAP = kind_of("bridle-on-half-lap")
FREE_IN_MITRE = kind_of("free-in-mitre")
STATE_WIDTH_OR_BRIDLE = kind_of("state-width-or-bridle")
UNEQUAL_IN_MITRE = kind_of("unequal-in-mitre", piece=TERM, width=LENGTH, stile=LENGTH)
AS_WIDE_OR_BRIDLE = kind_of("as-wide-or-bridle", stile=LENGTH)
