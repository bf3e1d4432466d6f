"""Why one operation comes before another."""

from __future__ import annotations

from sequencer.facts.model import Domain

kind_of = Domain("reason")

MILLED = kind_of("milled-together")
SLOTS_FIRST = kind_of("slots-first")
