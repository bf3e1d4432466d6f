"""Where waste goes, what a test cut can show, and how much a pass takes."""

from __future__ import annotations

from tests.simulator.passing import Pass
from tests.simulator.rows import (
    CLUB,
    COMMON,
    GEOMETRY,
    HSE,
    MANUAL_CROSSCUT,
    MANUAL_DADO,
    ON_SHOULDERS,
    ON_THIN_STRIPS,
    ON_TRAPPED_MITRES,
    OURS,
    TEXT,
    WARNINGS,
    row,
)


def waste_trapped(p: Pass) -> bool:
    """Something comes loose between blade and fence, stop or jig, and nobody holds it. Of a rip
    from the open side the wider piece runs along the fence and is pushed through."""
    if p.squared:
        return False  # the stop is gone: another row asks for that
    pushed = p.on_fence and p.kept_beyond and p.blade.guide >= p.beyond
    loose = [each for each in p.freed if each.where == "guide"]
    return bool(loose[1:] if pushed else loose)


def waste_on_blade(p: Pass) -> bool:
    """Something comes loose across the running blade."""
    return any(each.where == "over" for each in p.freed)


def far_kept_on_sled(p: Pass) -> bool:
    """A piece is parted on sled or jig, and what is kept is the one that no stop or jig holds."""
    return not p.on_fence and not p.squared and p.through and p.kept_beyond


def mitre_in_one_pass(p: Pass) -> bool:
    """A mitre in one pass frees its corner between blade and stop; nibbled it leaves none."""
    return p.blade.slanted and not p.blade.sweep


def passes_beside(p: Pass) -> bool:
    """The blade runs beside the piece, or tries what was cut before. A pass of the work itself
    through a channel that is clear already is no danger: it is there for a kerf that is thinner."""
    return not p.removed and (p.scrap or p.blade.nearest >= p.across)


def nothing_to_measure(p: Pass) -> bool:
    """A test cut that neither wall is left of, or only a splinter: its piece was used up before."""
    return p.scrap and p.backed < p.figure("1", "1/32")


def nothing_kept(p: Pass) -> bool:
    """No wood is left on the side that is to be kept."""
    return not p.kept


def too_deep(p: Pass) -> bool:
    """A groove or rebate along the fence, or anything with a dado set, deeper than 3/8 in in one
    pass, and nobody was told to take it in lighter ones. No text names a most for all of them."""
    grooved = (p.on_fence and not p.through and not p.blade.tilt) or p.dado
    deep = p.blade.depth > p.figure("10", "3/8")
    return grooved and deep and not p.confirmed("d05")


def strip_at_fence(p: Pass) -> bool:
    """A strip is kept between blade and fence: never under 1/2 in, under 1 1/2 in only as told."""
    if not p.rip or p.kept_beyond:
        return False
    thin = p.blade.guide < p.figure("12", "1/2")
    told = p.blade.guide >= p.figure("38", "3/2") or p.confirmed("f01")
    return thin or not told


def little_left_to_hold(p: Pass) -> bool:
    """A strip comes off the open side, and less than 3 in is left beside the fence."""
    strip = p.rip and p.kept_beyond and p.beyond < p.figure("38", "3/2")
    return strip and p.blade.guide < p.figure("75", "3")


ROWS = (
    row(waste_trapped, WARNINGS, TEXT, MANUAL_CROSSCUT, ON_SHOULDERS),
    row(waste_on_blade, COMMON, GEOMETRY),
    row(far_kept_on_sled, MANUAL_CROSSCUT),
    row(mitre_in_one_pass, ON_TRAPPED_MITRES, COMMON),
    row(passes_beside, GEOMETRY),
    row(nothing_to_measure, GEOMETRY, OURS),
    row(nothing_kept, GEOMETRY),
    row(too_deep, MANUAL_DADO, COMMON),
    row(strip_at_fence, HSE, ON_THIN_STRIPS, OURS),
    row(little_left_to_hold, TEXT, CLUB, COMMON),
)
