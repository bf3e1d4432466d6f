"""What the proof finds wrong with what a plan says of its requirements."""

from __future__ import annotations

from sequencer.facts.model import COUNT, LENGTH, NUMBER, TERM, TEXT, Domain, many

kind_of = Domain("tolerance")

MISSING = kind_of("missing", what=TERM, pieces=many(TEXT))
NOTHING_ASKED = kind_of("nothing-asked", what=TERM, pieces=many(TEXT))
OTHER_LIMITS = kind_of("other-limits", what=TERM, pieces=many(TEXT))
OTHER_WORST = kind_of(
    "other-worst",
    what=TERM,
    pieces=many(TEXT),
    least=LENGTH,
    most=LENGTH,
    told_least=LENGTH,
    told_most=LENGTH,
)
OTHER_COUNT = kind_of("other-count", what=TERM, pieces=many(TEXT), found=COUNT, told=COUNT)
OTHER_SHARE = kind_of("other-share", what=TERM, pieces=many(TEXT))
OTHER_FIRST_TRY = kind_of(
    "other-first-try", what=TERM, pieces=many(TEXT), found=NUMBER, told=NUMBER
)
