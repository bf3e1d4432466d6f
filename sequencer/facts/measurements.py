"""What was measured at the saw, and why the rest cannot follow it."""

from __future__ import annotations

from sequencer.facts.model import LENGTH, TERM, TEXT, Domain

kind_of = Domain("measurement")

PANEL_TOO_THICK = kind_of("panel-too-thick", panel=LENGTH, groove=LENGTH, most=LENGTH)
PANEL_TOO_SMALL = kind_of("panel-too-small", door=TEXT, what=TERM, opening=LENGTH)
