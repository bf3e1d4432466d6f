"""What a predicate reports, and the figures that it is given."""

from __future__ import annotations

from collections.abc import Callable
from fractions import Fraction

from msgspec import Struct

from sequencer.safety.moments import Moment
from sequencer.safety.rules import Level, Limits


class Finding(Struct, frozen=True):
    """A rule that a pass meets. `measured` and `limit` are lengths in the plan's unit; `case`
    chooses among the rule's texts."""

    rule: str
    level: Level
    measured: Fraction | None = None
    limit: Fraction | None = None
    case: str = ""


Predicate = Callable[[Moment, Limits], Finding | None]


def on_fence(moment: Moment) -> bool:
    return moment.body == "fence"


def on_sled(moment: Moment) -> bool:
    return moment.body == "sled"


def in_jig(moment: Moment) -> bool:
    return moment.body == "jig"


def by_hand(moment: Moment) -> bool:
    """Whether nothing but a hand can hold the piece on the sled."""
    return on_sled(moment) and not moment.shop.sled.clamp
