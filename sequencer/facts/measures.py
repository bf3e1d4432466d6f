"""What is measured, as a parameter of other facts."""

from __future__ import annotations

from sequencer.facts.model import LENGTH, TEXT, Domain

kind_of = Domain("measure")

MEASURED = kind_of("measured", form=TEXT)
"""By the text of a `saw.measures.Measure`."""
BY_EYE = kind_of("by-eye", target=LENGTH)
"""How what no tool at hand tells, and nothing is tried against, is looked at."""
