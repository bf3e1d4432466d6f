"""What a finished leaf must hold or is to fit by, and what is left of it where readings, passes and
thickness are off as far as they may be."""

from __future__ import annotations

from fractions import Fraction
from typing import Literal

from msgspec import Struct

What = Literal[
    "tenon-in-slot",
    "halves-flush",
    "panel-in-groove",
    "tongue-in-groove",
    "faces-in-line",
    "backs-in-line",
    "rail-proud",
    "stile-proud",
    "tenon-off-bottom",
    "panel-free-across",
    "panel-held-across",
    "panel-free-along",
    "panel-held-along",
    "boards-free",
    "boards-held",
    "pane-free",
    "pane-held",
    "gap-open",
    "height-in-opening",
    "lap-covers",
    "square",
]
"""The closed list of what is required."""

Takes = Literal["window", "reading", "pass", "thickness", "setting"]
"""What takes a part of the range: the window of a check; how far its reading may be wrong; what a
pass does not repeat; what thickness is off within its own check; a setting that is not checked."""


class Share(Struct, frozen=True):
    """`amount` of the whole range between the worst cases is taken by this. `checkpoint` is the
    check's place in the plan's list, from 0, where it is a check's window or reading."""

    takes: Takes
    amount: Fraction
    checkpoint: int | None = None


class Requirement(Struct, frozen=True):
    """`what` must lie between `least` and `most`, on every joint, piece or leaf of `of`, `count` of
    them; `None` where a side is open. `worst_least` and `worst_most` are as far as it can come out
    with every reading inside its window. A must is to hold even then. Of a fit, `first_try` is the
    share that comes out between `least` and `most` at the first try."""

    what: What
    of: tuple[str, ...]
    least: Fraction | None
    most: Fraction | None
    kind: Literal["must", "fit"]
    worst_least: Fraction
    worst_most: Fraction
    first_try: Fraction | None
    share: tuple[Share, ...]
    source: str
    count: int = 1

    @property
    def amiss(self) -> Fraction:
        """How many of a fit come out otherwise at the first try, on the average; none of a must."""
        return Fraction(0) if self.first_try is None else self.count * (1 - self.first_try)

    @property
    def holds(self) -> bool:
        """Whether it does in the worst case too."""
        below = self.least is not None and self.worst_least < self.least
        above = self.most is not None and self.worst_most > self.most
        return not below and not above
