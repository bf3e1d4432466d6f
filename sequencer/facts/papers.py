"""Why the sheets could not be printed."""

from __future__ import annotations

from sequencer.facts.model import COUNT, TEXT, Domain

kind_of = Domain("paper")

NO_PDF = kind_of("no-pdf")
NO_FONTS = kind_of("no-fonts")
NOT_AS_DRAWN = kind_of("not-as-drawn", heard=TEXT)
PASSES_UNTOLD = kind_of("passes-untold", step=COUNT)
