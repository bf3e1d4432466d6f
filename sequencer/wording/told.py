"""The form of a hazard's texts, and those that several share."""

from __future__ import annotations

from msgspec import Struct

from sequencer.wording.catalogue import _


class Told(Struct, frozen=True):
    """Texts with places for the fact's parameters. `brief` says hazard and what to do in one line;
    what is only ever refused, or said once for all setups, has none."""

    hazard: str
    consequence: str
    avoidance: str
    brief: str = ""


JAMS = _("It jams and is thrown back.")
THERE = _("A hand there is cut.")
ROCKS = _("It rocks into the blade, the hand with it.")
