"""What must be told before the step: cautions by their rule, boxes to tick by their name."""

from __future__ import annotations

from tests.simulator.passing import Pass
from tests.simulator.rows import (
    CAL,
    CAL_GUARD,
    CCOHS,
    CLUB,
    COMMON,
    HSE,
    MANUAL,
    MANUAL_JIG,
    MANUAL_THIN,
    ON_TILTING,
    OSHA,
    OURS,
    TEXT,
    WAC_OFF,
    WARNINGS,
    row,
)
from tests.simulator.wood import X

Z535 = "ANSI Z535 definitions of signal words (from memory)"


def bare_blade_unsaid(p: Pass) -> bool:
    """Without guard, and neither a caution of it nor, where nothing covers the blade, a tick."""
    if p.setup["guard"] == "fitted":
        return False
    told = {"C04", "C09"} & p.rules
    covered = bool(p.shop["cover"]) or "caution.tick-cover" in p.ticks
    return not (told and covered)


def bare_blade_no_danger(p: Pass) -> bool:
    """Nothing covers the blade, and the word is less than DANGER."""
    bare = p.setup["guard"] != "fitted" and not p.shop["cover"]
    return bare and "DANGER" not in p.words


def through_without_knife_unsaid(p: Pass) -> bool:
    """Parted on the sled with the knife off, and nobody confirmed it."""
    off = p.through and not p.on_fence and p.setup["guard"] == "cover"
    return off and not p.confirmed("c03")


def narrow_rip_unsaid(p: Pass) -> bool:
    """Less than 2 in between fence and blade, and no push block or auxiliary fence is told of."""
    narrow = p.rip and p.blade.guide < p.figure("50", "2")
    return narrow and not p.confirmed("b06")


def push_stick_unsaid(p: Pass) -> bool:
    """A rip without word of push stick or block for its last 12 in, or all of it where narrow."""
    return p.rip and not {"B05", "B06", "B07"} & p.rules


def groove_near_fence_unsaid(p: Pass) -> bool:
    """A cut along the fence less than 6 in from it, without guard and without word of the hands."""
    near = p.on_fence and not p.through and p.blade.guide < p.figure("150", "6")
    return near and not {"B05", "B06", "C09"} & p.rules


def dropped_cheek_unsaid(p: Pass) -> bool:
    """A cheek comes loose beside the jig, and nobody is told to leave it until the blade is
    still."""
    return p.in_jig and bool(p.freed) and "E09" not in p.rules


def unplugging_unsaid(p: Pass) -> bool:
    """Cutter, guard or knife are changed, and nobody is told to cut the power."""
    changed = {change["knob"] for change in p.setup["changes"]} & {"cutter", "guard"}
    return bool(changed) and "C13" not in p.rules


def long_piece_unsaid(p: Pass) -> bool:
    """Longer than 36 in and not on end, and no support is told of."""
    return not p.on_end and p.extent(X) > p.figure("900", "36") and "G05" not in p.rules


def tilting_unsaid(p: Pass) -> bool:
    """The blade is tilted before this setup, and nobody is told to turn it by hand first."""
    tilted = any(change["knob"] == "tilt" for change in p.setup["changes"])
    return tilted and p.blade.tilt != 0 and "J05" not in p.rules


def mitre_unsaid(p: Pass) -> bool:
    """A mitre held by hand alone, and nobody confirmed that it does not creep."""
    return p.blade.slanted and "J07" in p.rules and not p.confirmed("j07")


def short_bearing_unsaid(p: Pass) -> bool:
    """Shorter along the fence than it is wide away from it, and nobody was told."""
    turning = p.on_fence and not p.on_end and p.extent(p.along) < p.across
    return turning and not p.confirmed("a08")


def splinter_unsaid(p: Pass) -> bool:
    """Parted along the fence into a strip no broader than the insert's opening, untold."""
    if not p.rip:
        return False
    strips = [side for side in (p.blade.guide, p.beyond) if side > 0]
    thin = min(strips, default=0) <= p.figure("6", "1/4")
    return thin and bool(strips) and not p.confirmed("e07")


def creeping_unsaid(p: Pass) -> bool:
    """Ripped from stock that can creep under the fence, and nobody was told: the manuals' 1/8 in
    and less, where the auxiliary fence must be confirmed; ours, twice that."""
    thin = p.rip and p.height <= p.figure("6", "1/4")
    very = p.height <= p.figure("3.2", "1/8")
    return thin and ("J10" not in p.rules or (very and not p.confirmed("j10")))


ROWS = (
    row(bare_blade_unsaid, CAL, CAL_GUARD, WAC_OFF, OSHA),
    row(bare_blade_no_danger, Z535),
    row(through_without_knife_unsaid, HSE, WARNINGS),
    row(narrow_rip_unsaid, WARNINGS),
    row(push_stick_unsaid, HSE, MANUAL),
    row(groove_near_fence_unsaid, WARNINGS, MANUAL),
    row(dropped_cheek_unsaid, WARNINGS, MANUAL_JIG),
    row(unplugging_unsaid, WARNINGS, CLUB),
    row(long_piece_unsaid, HSE, CCOHS, MANUAL),
    row(tilting_unsaid, ON_TILTING, COMMON),
    row(mitre_unsaid, COMMON),
    row(short_bearing_unsaid, TEXT, COMMON),
    row(splinter_unsaid, CLUB),
    row(creeping_unsaid, MANUAL_THIN, OURS),
)
