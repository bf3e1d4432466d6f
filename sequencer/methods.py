"""The ways open to cut the same thing, chosen for all mating pieces together.

Each combination is a planning problem of its own; the cheapest is taken, and the plan says which
were compared.
"""

from __future__ import annotations

from dataclasses import dataclass, fields
from typing import Literal

Slotting = Literal["turned", "from the face side"]
"""`turned`: one setting, the piece turned round between the two passes, so the cut is centred.
`from the face side`: the face side always against the guide, a setting for each pass."""

SlotDepth = Literal["one for all", "one a rail"]
TenonWidth = Literal["jig", "sled"]
"""How a tenon is cut to width where the groove's pass does not trim it: an edge cheek on the
tenoning jig, or nibbled away on the sled."""


@dataclass(frozen=True, slots=True)
class Choices:
    """One answer to each question."""

    slot: Slotting = "turned"
    groove: Slotting = "turned"
    slot_depth: SlotDepth = "one a rail"
    tenon_width: TenonWidth = "jig"


QUESTIONS = tuple(field.name for field in fields(Choices))
