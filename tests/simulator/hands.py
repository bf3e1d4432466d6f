"""What is held, by which side, how far from the blade; pieces that are too small to be held."""

from __future__ import annotations

from tests.simulator.passing import Pass
from tests.simulator.rows import (
    CLUB,
    COMMON,
    GEOMETRY,
    HSE,
    MANUAL_CROSSCUT,
    NSW,
    ON_SHOULDERS,
    ON_SMALL_PARTS,
    OURS,
    TEXT,
    WARNINGS,
    row,
)
from tests.simulator.scale import Json
from tests.simulator.wood import X, Y

BY_HAND = ("caution.hold-only", "caution.clamp-or-hold")
CLAMPED = ("caution.clamp", "caution.clamp-or-hold")


def held_by_hand(p: Pass) -> bool:
    """Whether the setup lets a hand hold the piece on the sled, or says nothing of holding it. The
    mitre sled has a line of its own where it has no clamp."""
    if not p.on_sled:
        return False
    if p.blade.slanted:
        return "J07" in p.rules
    told = [each["id"] for each in p.holding if each["id"] in {*BY_HAND, *CLAMPED}]
    return not told or any(each in BY_HAND for each in told)


def only_by_hand(p: Pass) -> bool:
    """Whether no clamp is told of."""
    return held_by_hand(p) and not any(each["id"] in CLAMPED for each in p.holding)


def hand_too_near(p: Pass) -> bool:
    """The hand at the far end of the held side, a hand's breadth wide (from memory), comes nearer
    to the blade than a textbook's 3 in, or than the 6 in of manuals without being told."""
    if not held_by_hand(p) or p.blade.slanted:
        return False
    reach = p.held_side - p.figure("90", "7/2")
    told = only_by_hand(p) and p.confirmed("b04")
    return reach < p.figure(*(("75", "3") if told else ("150", "6")))


def short_crosscut_held(p: Pass) -> bool:
    """The piece that is parted from its stick, captive between stop and blade, is held by hand and
    shorter than 6 in."""
    least = p.figure("150", "6")
    return held_by_hand(p) and p.through and p.held_side < least


def wrong_side_held(p: Pass) -> bool:
    """The setup names a side to hold that is not the one that must be held."""
    for side in _sides(p):
        name = side["id"]
        if name == "caution.side-stop" and at_stop(p) is False:
            return True
        if name == "caution.side-beyond" and at_stop(p) is True:
            return True
        if name == "caution.side-stick" and not p.squared:
            return True
        # The longer side must be the one that is kept.
        if name == "caution.side-longer" and p.through and not p.squared:
            kept = p.beyond if p.kept_beyond else p.blade.guide
            if 2 * kept < p.across - p.blade.kerf:
                return True
    return False


def longer_than_it_is(p: Pass) -> bool:
    """The setup says that more is left to hold than there is."""
    told = [side["with"]["least"] for side in _sides(p)]
    return any(least is not None and p.scale.of(least) > p.held_side for least in told)


def shortness_unsaid(p: Pass) -> bool:
    """What is left to hold keeps no hand 6 in away, and the setup does not say how long it is."""
    short = p.held_side - p.figure("90", "7/2") < p.figure("150", "6")
    return short and any(side["with"]["least"] is None for side in _sides(p))


def at_stop(p: Pass) -> bool | None:
    """Whether the side to be held is the one at the stop; `None` where both are as long."""
    if p.squared:
        return False
    if p.through:
        return not p.kept_beyond
    return None if p.blade.guide == p.beyond else p.blade.guide > p.beyond


def _sides(p: Pass) -> list[Json]:
    if not p.on_sled or p.blade.slanted:
        return []
    inner = [each["with"].get("side") for each in p.holding]
    found = [*p.holding, *(each for each in inner if isinstance(each, dict))]
    return [each for each in found if each["id"].startswith("caution.side-")]


def small_without_clamp(p: Pass) -> bool:
    """Short or narrow work on the sled that nothing clamps, and nobody confirmed it."""
    small = p.extent(X) < p.figure("200", "8") or p.extent(Y) < p.figure("40", "3/2")
    mitred = p.blade.slanted and p.confirmed("j07")
    return only_by_hand(p) and small and not (p.confirmed("b09", "B03", "B04") or mitred)


def short_rip(p: Pass) -> bool:
    """Shorter than 12 in and ripped along the fence: a push stick's last 300 mm are all of it."""
    return p.rip and p.extent(p.along) < p.figure("300", "12")


def shorter_than_blade(p: Pass) -> bool:
    """Parted along the fence and shorter than the open blade and the gap to the knife."""
    if not (p.on_fence and p.through):
        return False
    return p.extent(p.along) < p.exposed + p.figure("8", "5/16")


def short_on_fence(p: Pass) -> bool:
    """Shorter than 12 in along the fence, and nobody was told of carrier or push block."""
    short = p.on_fence and not p.rip and p.extent(p.along) < p.figure("300", "12")
    return short and not (p.confirmed("b08") or p.confirmed("b08-bevel"))


ROWS = (
    row(hand_too_near, WARNINGS, CLUB, TEXT, GEOMETRY),
    row(short_crosscut_held, MANUAL_CROSSCUT),
    row(wrong_side_held, MANUAL_CROSSCUT, ON_SHOULDERS, COMMON),
    row(longer_than_it_is, GEOMETRY),
    row(shortness_unsaid, WARNINGS, GEOMETRY),
    row(small_without_clamp, NSW, ON_SMALL_PARTS, OURS),
    row(short_rip, HSE, ON_SMALL_PARTS, OURS),
    row(shorter_than_blade, WARNINGS, ON_SHOULDERS, GEOMETRY),
    row(short_on_fence, ON_SMALL_PARTS, OURS),
)
