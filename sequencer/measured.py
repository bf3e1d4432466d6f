"""What was measured at the saw, by what it replaces."""

from __future__ import annotations

from collections.abc import Mapping
from fractions import Fraction

from msgspec import Struct, field

from sequencer.job.schema import Cutter
from sequencer.records import replace


class Measured(Struct, frozen=True):
    """A cutter's kerf by its name; a stock's thickness by the thickness the job states; a slot's
    width as cut by the width planned."""

    kerf: Mapping[str, Fraction] = field(default_factory=dict)
    thickness: Mapping[Fraction, Fraction] = field(default_factory=dict)
    slot: Mapping[Fraction, Fraction] = field(default_factory=dict)

    def of(self, cutter: Cutter) -> Cutter:
        """The cutter with its kerf as measured, where it was."""
        return replace(cutter, kerf=self.kerf.get(cutter.name, cutter.kerf))
