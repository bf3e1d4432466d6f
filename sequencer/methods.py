"""The ways open to cut the same thing, chosen for all mating pieces together.

Each combination is a planning problem of its own; the cheapest is taken, and the plan says which
were compared.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Literal

from sequencer.job.schema import Cutter

Slotting = Literal["turned", "from the face side", "dado set"]
"""`turned`: one setting, the piece turned round between the two passes, so the cut is centred.
`from the face side`: the face side always against the guide, a setting for each pass.
`dado set`: one pass as wide as the set (slots only)."""

SlotDepth = Literal["one for all", "one a rail"]
TenonWidth = Literal["jig", "sled"]
"""How a tenon is cut to width where the groove's pass does not trim it: an edge cheek on the
tenoning jig, or nibbled away on the sled."""

Grooving = Literal["stick", "piece"]
"""Whether the groove is run on the long stick, or on each piece after it is crosscut."""

QUESTIONS = ("slot", "groove", "slot_depth", "tenon_width", "groove_on")


@dataclass(frozen=True, slots=True)
class Choices:
    """One answer to each question; `dado` is the set that slots are cut with, where they are."""

    slot: Slotting = "turned"
    groove: Slotting = "turned"
    slot_depth: SlotDepth = "one a rail"
    tenon_width: TenonWidth = "jig"
    groove_on: Grooving = "stick"
    dado: Cutter | None = None

    def names(self, question: str) -> tuple[str, ...]:
        """What the answer to a question is called: where it is a dado set, also with the name of
        the set, the last."""
        said = str(getattr(self, question))
        if question != "slot" or self.dado is None:
            return (said,)
        return said, f"{said} {self.dado.name}"


def answers(combinations: Sequence[Choices]) -> tuple[Mapping[str, str], ...]:
    """What each combination answers to the questions that are answered in more than one way; a dado
    set by its name, where there are several."""
    several = len({c.dado.name for c in combinations if c.dado is not None}) > 1
    which = -1 if several else 0
    told = {name: [choices.names(name)[which] for choices in combinations] for name in QUESTIONS}
    open_ = [name for name in QUESTIONS if len(set(told[name])) > 1]
    return tuple({name: told[name][n] for name in open_} for n in range(len(combinations)))
