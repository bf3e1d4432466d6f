"""What comes loose in a setup, and to which side it falls as the person sees it."""

from __future__ import annotations

from collections.abc import Iterable

from sequencer.facts import handlings
from sequencer.job.schema import Side
from sequencer.plan import Cut, Plan, Setup, Waste
from sequencer.wording import Room

_OTHER: dict[Side, Side] = {"left": "right", "right": "left"}


def falls_to(waste: Waste, setup: Setup, plan: Plan) -> Side | None:
    """The side of the blade that it falls to; `None` where nothing comes loose."""
    if waste.side is None:
        return None
    guide = plan.shop.guide_side(setup.carrier, setup.tilt)
    return guide if waste.side == "guide" else _OTHER[guide]


def falling(cuts: Iterable[Cut], setup: Setup, plan: Plan, room: Room) -> str:
    """One line on what those passes free; empty where that is nothing but chips."""
    found = {
        (cut.waste.what, falls_to(cut.waste, setup, plan))
        for cut in cuts
        if cut.waste is not None and cut.waste.what != "chips"
    }
    if not found:
        return ""
    whats = {what for what, _ in found}
    what = whats.pop() if len(whats) == 1 else "any"
    way = next(iter(found))[1]
    return room.say(handlings.LEAVE(what=f"freed.{what}", way=str(way)))
