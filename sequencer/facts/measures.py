"""What is measured, as a parameter of other facts."""

from __future__ import annotations

from sequencer.facts.model import TEXT, Domain

kind_of = Domain("measure")

MEASURED = kind_of("measured", form=TEXT)
"""By the text of a `saw.measures.Measure`."""
