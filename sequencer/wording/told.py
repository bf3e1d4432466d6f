"""The form of a hazard's texts, and those that several share."""

from __future__ import annotations

from msgspec import Struct

from sequencer.wording.catalogue import _


class Told(Struct, frozen=True):
    """Texts with places for the fact's parameters. `brief` says hazard and what to do in one line;
    what is only ever refused, or said once for all setups, has none. `asks` is what must be at hand
    for it, but for aids, which are told by their rules, and for what the shop's hold-down is."""

    hazard: str
    consequence: str
    avoidance: str
    brief: str = ""
    asks: tuple[str, ...] = ()


PUSH_STICK, PUSH_BLOCK = _("push stick"), _("push block")
JAMS = _("It jams and is thrown back.")
THERE = _("A hand there is cut.")
ROCKS = _("It rocks into the blade, the hand with it.")
