"""What each cut says of hands and waste, against where they are in truth."""

from __future__ import annotations

from tests.simulator.hands import at_stop
from tests.simulator.passing import Pass
from tests.simulator.rows import (
    CLUB,
    GEOMETRY,
    HSE,
    MANUAL_CROSSCUT,
    MANUAL_JIG,
    ON_SHOULDERS,
    TEXT,
    WARNINGS,
    row,
)
from tests.simulator.scale import Json

NOTHING: Json = {}


def hold(p: Pass) -> Json:
    found: Json = p.cut.get("hold") or NOTHING
    return found


def waste(p: Pass) -> Json:
    found: Json = p.cut.get("waste") or NOTHING
    return found


def hands_and_waste_unsaid(p: Pass) -> bool:
    """The cut does not say what holds the piece, or what falls."""
    return not (hold(p) and waste(p))


def hold_on_wrong_side(p: Pass) -> bool:
    """On the sled, another side of the kerf than the one that must be held."""
    if not p.on_sled or p.blade.slanted:
        return False
    return at_stop(p) is (hold(p).get("side") != "guide")


def reach_longer_than_it_is(p: Pass) -> bool:
    """What is held is said to go on further from the blade than it does."""
    reach = p.scale.of(hold(p).get("reach", "0"))
    if p.on_sled:
        return not p.blade.slanted and reach > p.held_side
    return p.upright and reach > max(0, p.height - p.blade.depth)


def hand_said_too_near(p: Pass) -> bool:
    """A hand alone holds the piece on the sled, nearer to the blade than 3 in, or 6 in untold."""
    if not p.on_sled or hold(p).get("by") != "hand":
        return False
    least = ("75", "3") if p.confirmed("b04") else ("150", "6")
    return p.held_side - p.figure("90", "7/2") < p.figure(*least)


def hand_beside_fence(p: Pass) -> bool:
    """A rip less than 6 in wide pushed by hand, or less than 2 in wide without a push block."""
    by, gap = hold(p).get("by"), p.blade.guide
    bare = by == "hand" and gap < p.figure("150", "6")
    return p.rip and not p.kept_beyond and (bare or (by != "push-block" and _narrow(p)))


def _narrow(p: Pass) -> bool:
    return p.blade.guide < p.figure("50", "2")


def unclamped_on_end(p: Pass) -> bool:
    """What stands in the jig is held by another thing than its clamp."""
    return p.in_jig and hold(p).get("by") != "jig-clamp"


def loose_waste_unsaid(p: Pass) -> bool:
    """Something comes loose, and nothing but chips is told of."""
    return bool(p.freed) and waste(p).get("what") in (None, "chips")


def waste_said_elsewhere(p: Pass) -> bool:
    """What comes loose falls on the other side of the blade than is told."""
    told = waste(p).get("side")
    where = {"guide" if each.where == "guide" else "open" for each in p.freed}
    return bool(where) and told is not None and told not in where


def drawn_past_loose_waste(p: Pass) -> bool:
    """On sled or jig something lies loose, and it is drawn back before the blade stands still."""
    return bool(p.freed) and not p.on_fence and waste(p).get("ended") != "still"


ROWS = (
    row(hands_and_waste_unsaid, WARNINGS),
    row(hold_on_wrong_side, MANUAL_CROSSCUT, ON_SHOULDERS),
    row(reach_longer_than_it_is, GEOMETRY),
    row(hand_said_too_near, WARNINGS, CLUB, TEXT),
    row(hand_beside_fence, WARNINGS, HSE),
    row(unclamped_on_end, MANUAL_JIG),
    row(loose_waste_unsaid, ON_SHOULDERS, GEOMETRY),
    row(waste_said_elsewhere, GEOMETRY),
    row(drawn_past_loose_waste, MANUAL_CROSSCUT, ON_SHOULDERS),
)
