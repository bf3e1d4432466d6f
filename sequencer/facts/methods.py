"""Which ways of cutting were taken, and which were compared."""

from __future__ import annotations

from sequencer.facts.model import TEXT, Domain

kind_of = Domain("method")

ANSWERED = kind_of("answered", question=TEXT, answer=TEXT)
"""By the ids of `sequencer.methods`."""
INSTEAD = kind_of("instead", question=TEXT, answer=TEXT, here=TEXT)
"""Another answer than `here`, which the plan took."""
