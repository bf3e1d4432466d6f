"""How operations are named: by content, so that a plan made again with measured values knows what
is already done.

Text: `A1/slot-A/outer`, `A3/shoulder-B/face`, `B2/groove-outside/first`, `#3/rip`.
"""

from __future__ import annotations

from functools import lru_cache

from msgspec import Struct

from sequencer.records import replace

SIDES = ("face", "back")
_ENDS = ("A", "B")
_WHATS = (
    "slot", "cheek", "shoulder", "edge-cheek", "edge-shoulder", "sweep", "mitre", "housing",
    "groove", "rebate", "tongue", "bevel",
)  # fmt: skip
"""What may be at several places of a piece."""


class OperationId(Struct, frozen=True):
    """`mark` is the piece, stick, stock or leaf it is done to, and `what` is done; `at` says where
    on the piece: an end, what it is a mate of, or which edges. `side` is the face it is cut from,
    where the other has an operation of its own, and `made_by` the pass."""

    mark: str
    what: str
    at: str = ""
    side: str = ""
    made_by: str = ""

    def __str__(self) -> str:
        text = f"{self.mark}/{self.what}"
        if self.at:
            text = f"{text}-{self.at}"
        if self.side:
            text = f"{text}/{self.side}"
        return f"{text}/{self.made_by}" if self.made_by else text

    @staticmethod
    @lru_cache(maxsize=4096)
    def parse(text: str) -> OperationId:
        """The name again. Text that names nothing else is all mark.

        >>> OperationId.parse("A1/edge-cheek-B").at, OperationId.parse("A3/shoulder-A/back").side
        ('B', 'back')
        """
        mark, *parts = text.split("/")
        head = parts[0] if parts else ""
        what, at = next(
            ((known, head[len(known) + 1 :]) for known in _WHATS if head.startswith(f"{known}-")),
            (head, ""),
        )
        rest = parts[1:]
        side = rest.pop(0) if rest and rest[0] in SIDES else ""
        return OperationId(mark, what, at, side, "/".join(rest))

    @property
    def end(self) -> str:
        """`A` or `B` where it is at an end, else empty."""
        return self.at if self.at in _ENDS else ""

    @property
    def whole(self) -> OperationId:
        """What it is a pass of."""
        return replace(self, made_by="")

    @property
    def between(self) -> bool:
        """Whether it is a pass between two others, which a thicker kerf does not need."""
        return self.made_by.startswith(BETWEEN)


BETWEEN = "middle"


def between(number: int, count: int) -> str:
    """The pass between two others that is `number`, from 1, where there are so many passes."""
    return BETWEEN if count == 2 else f"{BETWEEN}-{number}"
