"""What is wrong with a check: with what it has measured, with when it is good, with how it is
corrected."""

from __future__ import annotations

from sequencer.facts.model import COUNT, FACT, LENGTH, NUMBER, TERM, TEXT, Domain

kind_of = Domain("check")

NO_SUCH_STEP = kind_of("no-such-step", step=COUNT, measure=FACT)
NOT_CUT = kind_of("not-cut", measure=FACT)
NOT_ON_WORK = kind_of("not-on-work", measure=FACT)
OTHER_SETUP = kind_of("other-setup", measure=FACT)
OTHER_KNOB = kind_of("other-knob", measure=FACT, knob=TEXT)
UNREADABLE = kind_of("unreadable", measure=FACT)
OTHER_TARGET = kind_of("other-target", measure=FACT, found=LENGTH, target=LENGTH)
OTHER_SHARE = kind_of("other-share", measure=FACT, knob=TEXT, found=NUMBER, told=NUMBER)
WIDE_WINDOW = kind_of(
    "wide-window", measure=FACT, low=LENGTH, high=LENGTH, least=LENGTH, most=LENGTH
)
LOPSIDED = kind_of("lopsided", measure=FACT, target=LENGTH, low=LENGTH, high=LENGTH)
SET_AMISS = kind_of("set-amiss", knob=TEXT, how=TEXT)
MADE_FOR_A_BAR = kind_of("made-for-a-bar", measure=FACT)
REFERS_AMISS = kind_of("refers-amiss", measure=FACT)
COULD_BE_READ = kind_of("could-be-read", measure=FACT, tool=TERM)
NO_SUCH_TOOL = kind_of("no-such-tool", measure=FACT, tool=TERM)
OUT_OF_REACH = kind_of("out-of-reach", measure=FACT, tool=TERM, reach=LENGTH)
BETWEEN_MARKS = kind_of("between-marks", measure=FACT, value=LENGTH, tool=TERM)
ON_ITS_LIMIT = kind_of("on-its-limit", measure=FACT, target=LENGTH)
SHUT_WINDOW = kind_of("shut-window", measure=FACT)
RELIED_ON_LATER = kind_of("relied-on-later", measure=FACT, step=COUNT)
SHORT_TEST_PIECE = kind_of("short-test-piece", found=LENGTH, least=LENGTH)
NEVER_CHECKED = kind_of("never-checked", cut=TERM, knob=TEXT)
NOT_MEASURED = kind_of("not-measured", measure=FACT)
NOTHING_LIKE_IT = kind_of("nothing-like-it", measure=FACT)
NO_FIRST_SHOULDER = kind_of("no-first-shoulder")
