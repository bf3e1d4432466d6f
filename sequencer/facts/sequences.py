"""Why no cuts, or no order of them, can be made as asked, and what would do."""

from __future__ import annotations

from sequencer.facts.model import FACT, LENGTH, TERM, TEXT, Domain, many

kind_of = Domain("sequence")

HOUSINGS_MEET = kind_of("housings-meet", mark=TEXT, bars=many(TEXT))
TENON_TOO_SHORT = kind_of("tenon-too-short", mark=TEXT, length=LENGTH, kerf=LENGTH)
TOO_LONG_FOR_SLED = kind_of("too-long-for-sled", mark=TEXT, length=LENGTH, longest=LENGTH)
TEST_TOO_LONG = kind_of("test-too-long", length=LENGTH, longest=LENGTH)
NO_LOW_GUARD = kind_of("no-low-guard")
NOT_AS_IT_WAS = kind_of("not-as-it-was", answers=many(FACT))
CUT_ELSEWHERE = kind_of("cut-elsewhere", operation=TEXT, knob=TERM, was=LENGTH, wanted=LENGTH)

# Contradictions of the program itself.
WAIT_FOR_EACH_OTHER = kind_of("wait-for-each-other", chain=many(FACT))
COMES_FIRST = kind_of("comes-first", first=TEXT, later=TEXT, because=FACT)
NO_TEST_PIECE = kind_of("no-test-piece", mark=TEXT)
LEFT_OVER = kind_of("left-over")
WAITS_FOR_LATER = kind_of("waits-for-later")
NO_PLACE = kind_of("no-place", operation=TEXT)
HAS_BECOME = kind_of("has-become", operation=TEXT, knob=TERM, was=TEXT, now=TEXT)
