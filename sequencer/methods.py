"""The ways open to cut the same thing, chosen for all mating pieces together.

Each combination is a planning problem of its own; the cheapest is taken, and the plan says which
were compared.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from fractions import Fraction
from typing import Literal

from msgspec import Struct

from sequencer.job.schema import Cutter, Shop

Slotting = Literal["turned", "one-face", "dado"]
"""`turned`: one setting, the piece turned round between the two passes, so the cut is centred.
`one-face`: the face side always against the guide, a setting for each pass.
`dado`: one pass as wide as the set (slots only)."""

SlotDepth = Literal["common", "each"]
"""One for all rails, or each rail's own."""

TenonWidth = Literal["jig", "sled"]
"""How a tenon is cut to width where the groove's pass does not trim it: an edge cheek on the
tenoning jig, or nibbled away on the sled."""

Grooving = Literal["stick", "piece"]
"""Whether the groove is run on the long stick, or on each piece after it is crosscut."""

QUESTIONS = ("slot", "groove", "slot_depth", "tenon_width", "groove_on")


class Marks(Struct, frozen=True):
    """Where jig and rip fence can be set without reading between marks: what the scale of each is
    divided in, and what a jig on the fence adds to the distance from the blade."""

    jig: Fraction
    fence: Fraction
    adds: Fraction = Fraction(0)

    @staticmethod
    def of(shop: Shop) -> Marks:
        """Those of a shop's saw."""
        fence = shop.scale("fence")
        if shop.jig.rides == "fence":
            return Marks(fence, fence, shop.jig.thickness)
        return Marks(shop.scale("jig"), fence)

    def missed(self, guide: Fraction) -> int:
        """How many of the two are between marks where a cut is that far from either."""
        return ((guide + self.adds) % self.jig != 0) + (guide % self.fence != 0)

    def guides(self, low: Fraction, high: Fraction) -> Iterator[Fraction]:
        """The distances from `low` to `high` at which the jig, or the fence, stands at a mark."""
        for step, adds in ((self.jig, self.adds), (self.fence, Fraction(0))):
            first = -(-(low + adds) // step) * step - adds
            while first <= high:
                yield first
                first += step


class Choices(Struct, frozen=True):
    """One answer to each question; `dado` is the set that slots are cut with, where they are.
    `marks` are those of the saw, which free widths are drawn to; `None` where no saw is known."""

    slot: Slotting = "turned"
    groove: Slotting = "turned"
    slot_depth: SlotDepth = "each"
    tenon_width: TenonWidth = "jig"
    groove_on: Grooving = "stick"
    dado: Cutter | None = None
    marks: Marks | None = None

    def names(self, question: str) -> tuple[str, ...]:
        """The ids of the answer to a question: where it is a dado set, also with the name of the
        set behind it, the last."""
        said = str(getattr(self, question))
        if question != "slot" or self.dado is None:
            return (said,)
        return said, f"{said}:{self.dado.name}"


def answers(combinations: Sequence[Choices]) -> tuple[Mapping[str, str], ...]:
    """What each combination answers to the questions that are answered in more than one way; a dado
    set by its name, where there are several."""
    several = len({c.dado.name for c in combinations if c.dado is not None}) > 1
    which = -1 if several else 0
    told = {name: [choices.names(name)[which] for choices in combinations] for name in QUESTIONS}
    open_ = [name for name in QUESTIONS if len(set(told[name])) > 1]
    return tuple({name: told[name][n] for name in open_} for n in range(len(combinations)))
