"""What may be done on each carrier, a row each, as the proof knows it: its own, so that a slip in
the rest of the program does not prove itself."""

from __future__ import annotations

from collections.abc import Mapping
from fractions import Fraction
from typing import Literal

from msgspec import Struct

from sequencer.lengths import Unit, convert
from sequencer.plan import CarrierName
from sequencer.proof.hands import X, Y, Z


class Carrier(Struct, frozen=True):
    """`knob` sets the guide, whose word is `guide`. `held`: the axes of what may be down and
    against it. `kind`: what carries. A piece bears on the guide with one part in `part` of its
    side at least, no more than `bearing` in mm where that is said; one on a `slanted` fence bears
    on that as well, with half its length."""

    knob: str
    guide: str
    kind: Literal["fence", "jig", "sled"]
    held: frozenset[tuple[int, int]]
    part: int
    bearing: Fraction | None = None
    slanted: bool = False

    def least(self, unit: Unit, parts: int) -> int:
        """The bearing in whole parts of a unit, 0 where none is said."""
        least = self.bearing or Fraction(0)
        return int((least if unit == "mm" else convert(least, "mm", "in")) * parts)


CARRIERS: Mapping[CarrierName, Carrier] = {
    # EN practice wants a push stick over the last 300 mm of a fence, and shorter work than that is
    # not run along it (ours). A panel's end is bevelled with the panel standing on it, flat against
    # a tall fence.
    "rip-fence": Carrier(
        "fence", "guide.fence", "fence", frozenset({(Z, Y), (Y, Z), (X, Z)}), 1, Fraction(300)
    ),
    "crosscut-sled": Carrier("stop", "guide.stop", "sled", frozenset({(Z, X), (Y, X)}), 4),
    # The next two bearings are ours.
    "tenoning-jig": Carrier(
        "jig", "guide.jig-face", "jig", frozenset({(X, Z), (X, Y)}), 2, Fraction(50)
    ),
    "mitre-sled": Carrier(
        "mitre stop", "guide.stop", "sled", frozenset({(Z, X)}), 4, Fraction(100), slanted=True
    ),
}
