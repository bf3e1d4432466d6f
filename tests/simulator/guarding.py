"""Guard and knife, fence and stop, the cutter: what must stand, or must not, at a pass."""

from __future__ import annotations

from fractions import Fraction

from tests.simulator.passing import AWAY, RIDING, Pass
from tests.simulator.rows import (
    CAL,
    CAL_GUARD,
    CLUB,
    EN,
    GEOMETRY,
    HSE,
    MANUAL,
    MANUAL_CROSSCUT,
    MANUAL_DADO,
    ON_TILTING,
    OSHA,
    OURS,
    TEXT,
    WAC_GUARD,
    WAC_OFF,
    WARNINGS,
    WIS16,
    row,
)


def rip_without_guard(p: Pass) -> bool:
    """A through cut along the fence, and no printed step has the guard on."""
    return p.on_fence and p.through and p.guard != "fitted"


def rip_without_knife(p: Pass) -> bool:
    """The same with the riving knife off as well, or never put on."""
    return p.on_fence and p.through and p.guard not in ("fitted", "knife")


def guard_not_as_told(p: Pass) -> bool:
    """The setup says that guard or knife are on, and no printed step has put them there."""
    return p.guard != p.setup["guard"] and p.setup["guard"] in ("fitted", "knife")


def crosscut_on_fence(p: Pass) -> bool:
    """An end runs along the rip fence, and less than a club's 12 in of it bears."""
    along = p.blade.against.startswith("end") and p.bearing() < p.figure("305", "12")
    return p.on_fence and along


def fence_beside_crosscut(p: Pass) -> bool:
    """A cut on sled or jig with the rip fence still near the blade, unless the jig rides it."""
    riding = p.in_jig and p.shop["jig_rides"] == "fence"
    return not p.on_fence and not riding and p.standing.get("fence", AWAY) != AWAY


def stop_where_offcut_falls(p: Pass) -> bool:
    """An end is squared, and the stop of this sled still stands where the offcut falls."""
    return p.squared and p.standing.get(RIDING[p.setup["carrier"]], AWAY) != AWAY


def guide_not_as_told(p: Pass) -> bool:
    """Fence, stop or jig stand elsewhere than the setup says, by the changes that it prints."""
    if p.squared:
        return False
    riding = p.in_jig and p.shop["jig_rides"] == "fence"
    knob = "fence" if riding else RIDING[p.setup["carrier"]]
    wanted = Fraction(p.setup["guide"])
    if riding:
        wanted += Fraction(p.shop["jig_thickness"])
    stands = p.standing.get(knob, AWAY)
    return stands == AWAY or Fraction(stands) != wanted


def saw_not_as_told(p: Pass) -> bool:
    """Cutter, carrier, guard, height or tilt are others than the setup says, by the changes that
    were printed until then."""
    stands = p.standing
    named = all(stands.get(knob) == p.setup[knob] for knob in ("cutter", "carrier", "guard"))
    height = Fraction(stands.get("height", "0")) == Fraction(p.setup["height"])
    return not (named and height and _tilt(stands.get("tilt")) == p.blade.tilt)


def _tilt(text: str | None) -> Fraction | None:
    """So much in one of height: `-1 in 8`, or a number."""
    if text is None:
        return None
    rise, _, run = text.partition(" in ")
    return Fraction(rise) / Fraction(run or 1)


def blade_in_guide(p: Pass) -> bool:
    """The blade would run into fence, stop or jig."""
    if p.squared or p.blade.sweep:
        return False
    return p.blade.guide - max(Fraction(0), p.blade.tilt) * p.blade.depth <= 0


def leans_to_fence(p: Pass) -> bool:
    """The blade leans toward the fence: what falls is caught under it."""
    return p.on_fence and p.blade.tilt > 0


def dado_through(p: Pass) -> bool:
    """A dado set parts the piece."""
    return p.dado and p.through


def dado_tilted(p: Pass) -> bool:
    """A dado set leans."""
    return p.dado and p.blade.tilt != 0


def dado_too_large(p: Pass) -> bool:
    """Wider than one pass may be, or larger than an 8 in set."""
    wide = p.blade.kerf > p.figure("20", "13/16")
    return p.dado and (wide or p.scale.of(p.cutter["diameter"]) > p.figure("203", "8"))


def dado_never_allowed(p: Pass) -> bool:
    """A dado set, and nothing was told of the saw that takes one."""
    return p.dado and "D04" not in p.rules


def knife_at_dado(p: Pass) -> bool:
    """The riving knife is to be on behind a dado set, which none fits."""
    return p.dado and p.setup["guard"] != "cover"


def small_cutter(p: Pass) -> bool:
    """Under three fifths of the largest that the saw takes, and nobody confirmed it. The largest
    of the plan's shop stands for that."""
    largest = max(Fraction(each["diameter"]) for each in p.shop["cutters"].values())
    small = Fraction(p.cutter["diameter"]) < Fraction(3, 5) * largest
    return small and not p.confirmed("c11")


def nothing_holds_down(p: Pass) -> bool:
    """A cut along the fence without guard, and nothing in its place."""
    return p.on_fence and p.guard != "fitted" and not p.shop["hold_down"].strip()


def higher_than_it_goes(p: Pass) -> bool:
    """The blade would have to stand higher than this saw raises this cutter."""
    largest = max(Fraction(each["diameter"]) for each in p.shop["cutters"].values())
    less = (largest - Fraction(p.cutter["diameter"])) / 2
    return Fraction(p.setup["height"]) > Fraction(p.shop["max_height"]) - less


def not_through(p: Pass) -> bool:
    """A cut that should part the piece, and the blade does not come through it."""
    return p.cut["keeps"] is not None and p.above <= 0


def too_high(p: Pass) -> bool:
    """In a cut through a flat piece the blade stands out of it by more than 1/4 in, untold."""
    most = p.figure("6", "1/4")
    return p.through and not p.upright and p.above > most and not p.confirmed("c01")


ROWS = (
    row(rip_without_guard, CAL_GUARD, WAC_GUARD, WAC_OFF, OSHA),
    row(rip_without_knife, HSE, WARNINGS, CAL_GUARD, WAC_OFF, OSHA),
    row(guard_not_as_told, WARNINGS, WAC_OFF, OSHA),
    row(crosscut_on_fence, WARNINGS, CLUB, TEXT),
    row(fence_beside_crosscut, WARNINGS, MANUAL_CROSSCUT, TEXT),
    row(stop_where_offcut_falls, MANUAL_CROSSCUT, WARNINGS),
    row(guide_not_as_told, GEOMETRY),
    row(saw_not_as_told, GEOMETRY),
    row(blade_in_guide, GEOMETRY),
    row(leans_to_fence, ON_TILTING),
    row(dado_through, MANUAL_DADO),
    row(dado_tilted, MANUAL_DADO),
    row(dado_too_large, EN, MANUAL_DADO),
    row(dado_never_allowed, WIS16, EN),
    row(knife_at_dado, MANUAL_DADO),
    row(small_cutter, HSE, WIS16),
    row(nothing_holds_down, WARNINGS, CAL, OSHA),
    row(higher_than_it_goes, GEOMETRY, OURS),
    row(not_through, HSE),
    row(too_high, MANUAL, CLUB),
)
