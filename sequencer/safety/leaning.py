"""Rules on tilted blades, standing panels, rebates, mitres and narrow bars (group J).

Each predicate looks for one rule in one pass and returns what it found, or `None`.
"""

from __future__ import annotations

from fractions import Fraction

from sequencer.safety.findings import Finding, Predicate, in_jig, on_fence
from sequencer.safety.moments import OPPOSITE, Moment
from sequencer.safety.rules import Limits


def base_at_fence(m: Moment, limits: Limits) -> Finding | None:
    """J01."""
    least = limits["base_carried" if m.does == "bevel" else "base_at_fence"]
    if on_fence(m) and (m.on_edge or m.on_end) and m.feed_length < least:
        return Finding("J01", "refuse", m.feed_length, least, "end" if m.on_end else "")
    return None


def rebate_trapped(m: Moment, _: Limits) -> Finding | None:
    """J02. The second cut of a rebate frees its strip: on edge, beside the fence where the first
    cut came up from the surface that bears on it; flat, where the first came in from that edge."""
    against = m.cut.against or ""
    if m.does != "rebate" or against not in OPPOSITE:
        return None
    if m.on_edge:
        # A first cut that does not come up as far as this one leaves its strip hanging on.
        deep = m.flat_cuts.get((against, m.cut.down))
        reached = deep is None or (m.setup.guide or 0) < deep
        freed = reached and (against, f"rebate {m.cut.down}") in m.done
    else:
        first = (against, f"rebate {OPPOSITE[m.cut.down]}")
        freed = m.near_edge == against and first in m.done
    return Finding("J02", "refuse", m.setup.guide) if freed else None


def mitre_trapped(m: Moment, _: Limits) -> Finding | None:
    """J03. One pass alone would leave the corner whole, between blade and stop."""
    return Finding("J03", "refuse") if m.does == "mitre" and not m.cut.sweep else None


def narrow_on_end(m: Moment, limits: Limits) -> Finding | None:
    """J04. Across the jig's face, be it that the piece's width or its thickness lies along it."""
    case = "" if m.cut.against in ("face", "back") else "edge"
    refused = limits["edge_on_end" if case else "narrow_on_end"]
    warned = limits["narrow_on_end_warned"]
    if not m.on_end or not in_jig(m) or m.across_the_end >= max(refused, warned):
        return None
    if m.across_the_end < refused:
        return Finding("J04", "refuse", m.across_the_end, refused, case)
    return Finding("J04", "warn", m.across_the_end, warned, case)


def tilted(m: Moment, _: Limits) -> Finding | None:
    """J05."""
    return Finding("J05", "caution") if m.setup.tilt and _turned(m) else None


def square_again(m: Moment, _: Limits) -> Finding | None:
    """J08. The first setup of all finds the blade as it stands, mostly square."""
    back = not m.setup.tilt and any(
        change.knob == "tilt" and change.before not in (None, change.after)
        for change in m.setup.changes
    )
    return Finding("J08", "caution") if back else None


def _turned(m: Moment) -> bool:
    return any(change.knob == "tilt" for change in m.setup.changes)


def tilted_off_fence(m: Moment, _: Limits) -> Finding | None:
    """J06."""
    return Finding("J06", "warn") if m.setup.tilt and not on_fence(m) else None


def mitre_unclamped(m: Moment, _: Limits) -> Finding | None:
    """J07."""
    if m.does == "mitre" and not m.shop.sled.clamp:
        return Finding("J07", "warn")
    return None


def on_its_tongue(m: Moment, limits: Limits) -> Finding | None:
    """J09. The guide is where the tongue's far side will be, as far from the fence as the first
    rebate was from the open side."""
    opposite = OPPOSITE.get(m.cut.against or "", "")
    if m.does != "rebate" or not m.on_edge or (m.cut.down, f"rebate {opposite}") not in m.done:
        return None
    tongue, least = 2 * (m.setup.guide or Fraction(0)) - m.thickness, limits["stands_on_tongue"]
    return Finding("J09", "warn", max(tongue, Fraction(0)), least) if tongue < least else None


def creeps_under(m: Moment, limits: Limits) -> Finding | None:
    """J10."""
    least, thin = limits["thin_at_fence"], limits["thin"]
    if m.does != "rip" or m.thickness > max(least, thin):
        return None
    if m.thickness <= least:
        return Finding("J10", "warn", m.thickness, least)
    return Finding("J10", "caution", m.thickness, thin, "gap")


CHECKS: dict[str, Predicate] = {
    "J01": base_at_fence,
    "J02": rebate_trapped,
    "J03": mitre_trapped,
    "J04": narrow_on_end,
    "J05": tilted,
    "J06": tilted_off_fence,
    "J07": mitre_unclamped,
    "J08": square_again,
    "J09": on_its_tongue,
    "J10": creeps_under,
}
