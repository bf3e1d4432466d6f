"""Why a plan cannot be made as asked, and what would do."""

from __future__ import annotations

from sequencer.facts.model import LENGTH, TERM, TEXT, Domain

kind_of = Domain("refusal")

KERF_TOO_WIDE = kind_of("kerf-too-wide", mark=TEXT, kerf=LENGTH, what=TERM, width=LENGTH)
