"""Rules on blade, guard, riving knife and dado set (groups C and D).

Each predicate looks for one rule in one pass and returns what it found, or `None`.
"""

from __future__ import annotations

from sequencer.safety.findings import Finding, Predicate, on_fence
from sequencer.safety.moments import Moment
from sequencer.safety.rules import Level, Limits
from sequencer.saw.kinds import KINDS


def blade_above_work(m: Moment, limits: Limits) -> Finding | None:
    """C01. `depth` is counted from the carrier's deck, so the sled's base is in it."""
    most = limits["blade_above_work"]
    above = m.setup.depth - m.standing_height
    return Finding("C01", "warn", above, most) if m.through and above > most else None


def not_through(m: Moment, _: Limits) -> Finding | None:
    """C02."""
    if m.through and m.setup.depth <= m.standing_height:
        return Finding("C02", "refuse", m.setup.depth, m.standing_height)
    return None


def no_knife(m: Moment, _: Limits) -> Finding | None:
    """C03. `knife` leaves the riving knife on."""
    if not m.through:
        return None
    if on_fence(m):
        return Finding("C03", "refuse") if m.setup.guard != "fitted" else None
    return Finding("C03", "warn", case="sled") if m.setup.guard == "cover" else None


def no_guard(m: Moment, _: Limits) -> Finding | None:
    """C04. What covers the blade on the sled is the shop file's to say."""
    if not m.through or m.setup.guard == "fitted":
        return None
    if on_fence(m):
        return Finding("C04", "refuse")
    case = "square" if m.setup.guide is None else "sled"
    return Finding("C04", "caution" if m.shop.saw.cover else "warn", case=case)


def knife_suits_blade(m: Moment, _: Limits) -> Finding | None:
    """C05. What the shop file leaves out is asked before power."""
    knife, plate = m.shop.saw.knife_thickness, m.cutter.plate
    if m.setup.guard == "cover" or knife is None or m.cutter.kind == "dado":
        return None
    if knife >= m.setup.kerf or (plate is not None and knife <= plate):
        return Finding("C05", "refuse", knife, m.setup.kerf)
    return None


def not_refitted(m: Moment, _: Limits) -> Finding | None:
    """C08."""
    if on_fence(m) and m.through and m.unguarded:
        return Finding("C08", "refuse")
    return None


def nothing_holds(m: Moment, _: Limits) -> Finding | None:
    """C09. Sled and jig are holders in themselves; on the fence the shop file names one. What
    covers the blade is the shop file's to say too."""
    if m.through or m.setup.guard == "fitted":
        return None
    if on_fence(m) and not m.shop.saw.hold_down.strip():
        return Finding("C09", "refuse")
    level: Level = "caution" if m.shop.saw.cover else "warn"
    own = KINDS[m.does].danger if on_fence(m) or m.cut.sweep else ""
    usual = "groove" if on_fence(m) else "sweep" if m.cut.sweep else m.body
    return Finding("C09", level, case=own or usual)


def small_cutter(m: Moment, limits: Limits) -> Finding | None:
    """C11."""
    largest = max(cutter.diameter for cutter in m.shop.cutters)
    least = limits["cutter_to_largest"] * largest
    return Finding("C11", "warn", m.cutter.diameter, largest) if m.cutter.diameter < least else None


def unplug(m: Moment, _: Limits) -> Finding | None:
    """C13."""
    return Finding("C13", "caution") if _changes(m, "cutter", "guard") else None


def _changes(m: Moment, *knobs: str) -> bool:
    return any(change.knob in knobs for change in m.setup.changes)


def dado_through(m: Moment, _: Limits) -> Finding | None:
    """D01."""
    return Finding("D01", "refuse") if m.cutter.kind == "dado" and m.through else None


def dado_tilted(m: Moment, _: Limits) -> Finding | None:
    """D02."""
    return Finding("D02", "refuse") if m.cutter.kind == "dado" and m.setup.tilt != 0 else None


def dado_size(m: Moment, limits: Limits) -> Finding | None:
    """D03."""
    if m.cutter.kind != "dado":
        return None
    width, diameter = limits["dado_width"], limits["dado_diameter"]
    if m.setup.kerf > width:
        return Finding("D03", "refuse", m.setup.kerf, width)
    if m.cutter.diameter > diameter:
        return Finding("D03", "refuse", m.cutter.diameter, diameter)
    return None


def dado_permitted(m: Moment, _: Limits) -> Finding | None:
    """D04."""
    if m.cutter.kind != "dado":
        return None
    return (
        Finding("D04", "caution", case="allowed") if m.shop.saw.dado else Finding("D04", "refuse")
    )


def deep_groove(m: Moment, limits: Limits) -> Finding | None:
    """D05. A dado set clears as much wood on end or on the sled as in a groove."""
    most = limits["groove_depth"]
    grooved = m.does in ("groove", "rebate") or m.cutter.kind == "dado"
    if grooved and m.setup.depth > most:
        return Finding("D05", "warn", m.setup.depth, most)
    return None


def leans_to_fence(m: Moment, _: Limits) -> Finding | None:
    """E06. A positive tilt leans toward the guide. The fence can stand on the other side."""
    return Finding("E06", "refuse") if on_fence(m) and m.setup.tilt > 0 else None


CHECKS: dict[str, Predicate] = {
    "C01": blade_above_work,
    "C02": not_through,
    "C03": no_knife,
    "C04": no_guard,
    "C05": knife_suits_blade,
    "C08": not_refitted,
    "C09": nothing_holds,
    "C11": small_cutter,
    "C13": unplug,
    "D01": dado_through,
    "D02": dado_tilted,
    "D03": dado_size,
    "D04": dado_permitted,
    "D05": deep_groove,
    "E06": leans_to_fence,
}
