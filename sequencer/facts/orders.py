"""What is wrong with an ordering problem, or with an order that was found for it. Names are the
problem's own."""

from __future__ import annotations

from sequencer.facts.model import COUNT, FACT, MINUTES, NUMBER, TEXT, Domain, many

kind_of = Domain("order")

# The problem.
NAMED_AGAIN = kind_of("named-again", what=FACT, n=COUNT)
KNOB = kind_of("knob", name=TEXT)
KNOB_AT = kind_of("knob-at", name=TEXT, value=TEXT)
OPERATION = kind_of("operation", name=TEXT)
WAY = kind_of("way", operation=TEXT, way=COUNT)
COSTS_LESS_THAN_NOTHING = kind_of("costs-less-than-nothing", what=FACT, minutes=NUMBER)
TIE_BELOW_NOTHING = kind_of("tie-below-nothing", knob=TEXT)
NO_WAY = kind_of("no-way", operation=TEXT)
NEEDS_UNKNOWN = kind_of("needs-unknown", what=FACT, knob=TEXT)
ACCEPTS_NOTHING = kind_of("accepts-nothing", what=FACT, knob=TEXT)
STARTS_UNKNOWN = kind_of("starts-unknown", knob=TEXT)
EDGE_OF_NOTHING = kind_of("edge-of-nothing", first=COUNT, later=COUNT)
DONE_IS_NOTHING = kind_of("done-is-nothing", index=COUNT)
BEFORE_ITSELF = kind_of("before-itself", chain=many(TEXT))

# An order.
AT_STEP = kind_of("at-step", step=COUNT, operation=TEXT, what=FACT)
NO_SUCH_OPERATION = kind_of("no-such-operation", step=COUNT, index=COUNT)
DONE_BEFORE = kind_of("done-before")
COMES_BEFORE = kind_of("comes-before", first=TEXT)
NO_SUCH_WAY = kind_of("no-such-way", way=COUNT)
FORGOTTEN = kind_of("forgotten", knob=TEXT)
CHANGES_UNNEEDED = kind_of("changes-unneeded", knob=TEXT)
NEEDS = kind_of("needs", knob=TEXT, values=many(TEXT), found=TEXT)
NEEDS_UNSET = kind_of("needs-unset", knob=TEXT, values=many(TEXT))
NEVER_DONE = kind_of("never-done", operation=TEXT)
MISCOUNTED = kind_of("miscounted", counted=MINUTES, bound=MINUTES, found=MINUTES)
STUCK = kind_of("stuck")
