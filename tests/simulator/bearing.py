"""What the piece bears and stands on, before the pass and once the blade has been through."""

from __future__ import annotations

from fractions import Fraction

from tests.simulator.passing import Pass
from tests.simulator.rows import (
    CLUB,
    COMMON,
    GEOMETRY,
    MANUAL_JIG,
    ON_TALL_FENCES,
    ON_TILTING,
    OURS,
    TEXT,
    row,
)
from tests.simulator.wood import X, Y, Z


def little_on_fence(p: Pass) -> bool:
    """Of its length less than 12 in bears on the fence, earlier cuts reckoned, and it is not whole
    either. A panel's end that stands at the fence has a row of its own."""
    wanted = min(p.figure("300", "12"), Fraction(p.extent(p.along)))
    return p.on_fence and not p.on_end and p.bearing() < wanted


def little_in_jig(p: Pass) -> bool:
    """Less than 2 in of its length bears on the jig's face."""
    return p.in_jig and p.bearing() < p.figure("50", "2")


def little_at_stop(p: Pass) -> bool:
    """Of its end less than a quarter touches the stop: it turns as it is pushed against it."""
    whole = p.extent(p.along)
    return p.on_sled and not p.squared and not p.blade.slanted and 4 * p.bearing() < whole


def narrow_in_jig(p: Pass) -> bool:
    """Across the jig's face it is narrower than 3/4 in, or than 1 1/2 in and nobody was told of a
    backing block. Where its edge bears, its face lies along that block: 1/2 in does."""
    if not p.in_jig:
        return False
    flat = p.blade.against in ("face", "back")
    wide, least = (p.extent(Y), ("20", "3/4")) if flat else (p.extent(Z), ("12", "1/2"))
    untold = wide < p.figure("38", "3/2") and not p.confirmed("j04")
    return wide < p.figure(*least) or untold


def short_base(p: Pass) -> bool:
    """Upright at the fence on less than 6 in along it, or on less once the blade is through; on
    less than 4 in where it is told to be clamped to a board that rides the fence."""
    if not (p.on_fence and p.upright):
        return False
    carried = p.confirmed("b08-bevel")
    least = p.figure("100", "4") if carried else p.figure("150", "6")
    return p.base()[0] < least or p.base(p.kept)[0] < least


def base_lost(p: Pass) -> bool:
    """The blade takes all that it stands on."""
    return p.upright and not p.in_jig and not p.stands(p.kept)


def narrow_base(p: Pass) -> bool:
    """Upright at the fence on an edge no broader than the insert's opening, before the pass or once
    the blade is through, and nobody was told of a zero-clearance insert or a filling under it."""
    if not (p.on_fence and p.upright):
        return False
    base = min(p.base()[1], p.base(p.kept)[1])
    told = p.confirmed("e07") or p.confirmed("j09")
    return base <= p.figure("6", "1/4") and not told


def end_on_fence(p: Pass) -> bool:
    """On end outside a jig, unless a broad panel's end is bevelled with its face on the fence."""
    flat = p.on_fence and p.blade.tilt != 0 and p.blade.against in ("face", "back")
    return p.on_end and not p.in_jig and not flat


def end_cut_through(p: Pass) -> bool:
    """A piece on end is parted."""
    return p.on_end and p.through


def long_on_end(p: Pass) -> bool:
    """On end and longer than 36 in, and nobody was told of a second clamp."""
    told = p.confirmed("e02") or p.confirmed("e02-fence")
    return p.on_end and p.extent(X) > p.figure("900", "36") and not told


def far_too_long_on_end(p: Pass) -> bool:
    """On end and longer than two metres: it nears the ceiling, and no clamp steadies it."""
    return p.on_end and p.extent(X) > p.figure("2000", "80")


def little_to_clamp(p: Pass) -> bool:
    """On end, and less than 4 in is left above the cut for the clamp."""
    return p.on_end and p.extent(X) - p.blade.depth < p.figure("100", "4")


def low_fence(p: Pass) -> bool:
    """Half of what stands at the fence is higher than an ordinary one, and nobody was told of a
    tall face."""
    half = min(Fraction(p.height, 2), p.figure("200", "8"))
    stated = p.shop.get("fence_height")
    tall = half > (p.figure("65", "5/2") if stated is None else p.scale.of(stated))
    return p.on_fence and p.upright and tall and not p.confirmed("e05")


def high_beside_hand(p: Pass) -> bool:
    """Upright, more than 2 1/2 in of blade beside it, and nobody was told."""
    high = p.upright and p.blade.depth > p.figure("65", "5/2")
    return high and not p.confirmed("e08")


def wider_than_jig(p: Pass) -> bool:
    """More than the jig's clamp takes."""
    return p.in_jig and p.across > p.scale.of(p.shop["jig_opening"])


def larger_than_sled(p: Pass) -> bool:
    """Longer or wider than the sled takes."""
    if not p.on_sled:
        return False
    deep = p.extent(Z if p.on_edge else Y)
    longest, widest = p.scale.of(p.shop["sled_longest"]), p.scale.of(p.shop["sled_widest"])
    return p.extent(X) > longest or deep > widest


def leans_in_carrier(p: Pass) -> bool:
    """The blade leans at sled or jig, and nobody was told to look where it comes out."""
    return p.blade.tilt != 0 and not p.on_fence and not p.confirmed("j06")


ROWS = (
    row(little_on_fence, CLUB, COMMON, OURS),
    row(little_in_jig, MANUAL_JIG, OURS),
    row(little_at_stop, COMMON, OURS),
    row(narrow_in_jig, COMMON, OURS),
    row(short_base, ON_TALL_FENCES, COMMON, OURS),
    row(base_lost, GEOMETRY),
    row(narrow_base, CLUB, ON_TILTING),
    row(end_on_fence, MANUAL_JIG, COMMON),
    row(end_cut_through, MANUAL_JIG, TEXT),
    row(long_on_end, COMMON, OURS),
    row(far_too_long_on_end, COMMON, OURS),
    row(little_to_clamp, MANUAL_JIG, OURS),
    row(low_fence, ON_TALL_FENCES, OURS),
    row(high_beside_hand, COMMON, OURS),
    row(wider_than_jig, MANUAL_JIG, GEOMETRY),
    row(larger_than_sled, GEOMETRY),
    row(leans_in_carrier, COMMON),
)
