"""Rules on the piece: its guidance, its waste, the hands that hold it, strips (groups A, B, F).

Each predicate looks for one rule in one pass and returns what it found, or `None`.
"""

from __future__ import annotations

from fractions import Fraction
from math import isqrt

from sequencer.safety.findings import Finding, Predicate, by_hand, on_fence, on_sled
from sequencer.safety.handling import hold
from sequencer.safety.moments import Moment
from sequencer.safety.rules import Limits
from sequencer.saw.values import AWAY


def trapped_at_fence(m: Moment, _: Limits) -> Finding | None:
    """A04. The wider side is the one that is pushed; a wide part taken from the open side leaves
    its offcut to itself."""
    guide = m.setup.guide
    if (
        on_fence(m)
        and m.through
        and m.cut.keeps == "far"
        and guide is not None
        and guide < m.beyond
    ):
        return Finding("A04", "refuse", guide, m.beyond)
    return None


def stop_at_offcut(m: Moment, _: Limits) -> Finding | None:
    """A06."""
    if on_sled(m) and m.through and m.cut.keeps == "far" and m.setup.guide is not None:
        return Finding("A06", "refuse")
    return None


def left_standing(m: Moment, _: Limits) -> Finding | None:
    """A11. A knob that the plan never set is known to nobody here; the proof asks for it."""
    if m.setup.guide is None and m.stands.get("stop", AWAY) != AWAY:
        return Finding("A11", "refuse")
    rides = m.body == "jig" and m.shop.jig.rides == "fence"
    if not on_fence(m) and not rides and m.stands.get("fence", AWAY) != AWAY:
        return Finding("A11", "refuse", case="fence")
    return None


def across_grain_on_fence(m: Moment, limits: Limits) -> Finding | None:
    """A07."""
    least = limits["fence_contact_across_grain"]
    if on_fence(m) and (m.cut.against or "").startswith("end") and m.feed_length < least:
        return Finding("A07", "refuse", m.feed_length, least)
    return None


def wider_than_its_bearing(m: Moment, _: Limits) -> Finding | None:
    """A08."""
    if on_fence(m) and m.feed_length < m.across:
        return Finding("A08", "warn", m.feed_length, m.across)
    return None


def short_rip(m: Moment, limits: Limits) -> Finding | None:
    """B01."""
    least = limits["shortest_rip"]
    if m.does == "rip" and m.length < least:
        return Finding("B01", "refuse", m.length, least)
    return None


def shorter_than_open_blade(m: Moment, limits: Limits) -> Finding | None:
    """B02. The chord at the table, 2·√(h(D − h)), is compared squared: exact."""
    if not (on_fence(m) and m.through):
        return None
    height, gap = min(m.setup.height, m.cutter.diameter), limits["knife_gap"]
    square = 4 * height * (m.cutter.diameter - height)
    rest = m.feed_length - gap
    if rest >= 0 and rest * rest >= square:
        return None
    return Finding("B02", "refuse", m.feed_length, _root(square) + gap)


def _root(value: Fraction) -> Fraction:
    """The square root, to a thousandth above."""
    return Fraction(isqrt(value.numerator * 10**6 // value.denominator) + 1, 1000)


def short_crosscut(m: Moment, limits: Limits) -> Finding | None:
    """B03. Of what is crosscut the piece between stop and blade is the one that is held."""
    least = limits["shortest_crosscut"]
    held = hold(m, limits).reach if m.does == "crosscut" else m.length
    if by_hand(m) and m.does in ("crosscut", "square") and held < least:
        return Finding("B03", "warn", held, least)
    return None


def hand_to_blade(m: Moment, limits: Limits) -> Finding | None:
    """B04. The hand lies at the far end of the side that is held; its breadth is taken off."""
    reach = hold(m, limits).reach - limits["hand_breadth"]
    least = max(limits["hand_to_blade"], limits["hand_to_blade_warned"])
    if not by_hand(m) or reach >= least:
        return None
    return Finding("B04", "warn", max(reach, Fraction(0)), least)


def rip_end(m: Moment, limits: Limits) -> Finding | None:
    """B07. A narrower rip is pushed by stick or block all the way (B05, B06); of a rebate without
    guard C09 says the same."""
    gap = m.setup.guide
    if m.does == "rip" and (gap is None or gap >= limits["push_stick_gap"]):
        return Finding("B07", "caution", None, limits["last_of_cut"])
    if m.does == "rebate" and m.setup.guard == "fitted":
        return Finding("B07", "caution", None, limits["last_of_cut"], "rebate")
    return None


def push_stick(m: Moment, limits: Limits) -> Finding | None:
    """B05. Of a groove without guard C09 says the gap and the push block."""
    gap, least = m.setup.guide, limits["push_stick_gap"]
    if not on_fence(m) or gap is None or not limits["push_block_gap"] <= gap < least:
        return None
    if m.through:
        return Finding("B05", "caution", gap, least)
    return Finding("B05", "caution", gap, least, "groove") if m.setup.guard == "fitted" else None


def push_block(m: Moment, limits: Limits) -> Finding | None:
    """B06. As B05."""
    gap, least = m.setup.guide, limits["push_block_gap"]
    if not on_fence(m) or gap is None or gap >= least:
        return None
    if m.through:
        return Finding("B06", "warn", gap, least)
    return Finding("B06", "caution", gap, least, "groove") if m.setup.guard == "fitted" else None


def short_on_fence(m: Moment, limits: Limits) -> Finding | None:
    """B08. A rip that short is refused already."""
    least = limits["shortest_on_fence"]
    if on_fence(m) and m.does != "rip" and m.feed_length < least:
        return Finding("B08", "warn", m.feed_length, least, "bevel" if m.does == "bevel" else "")
    return None


def small_on_sled(m: Moment, limits: Limits) -> Finding | None:
    """B09."""
    length, width = limits["small_length"], limits["small_width"]
    if not by_hand(m):
        return None
    if m.length < length:
        return Finding("B09", "warn", m.length, length)
    if m.width < width:
        return Finding("B09", "warn", m.width, width)
    return None


def strip_at_fence(m: Moment, limits: Limits) -> Finding | None:
    """F01."""
    guide, refused, warned = m.setup.guide, limits["strip_at_fence"], limits["strip"]
    if m.does != "rip" or guide is None or m.cut.keeps == "far":
        return None
    if guide < refused:
        return Finding("F01", "refuse", guide, refused)
    return Finding("F01", "warn", guide, warned) if guide < warned else None


def strip_parent(m: Moment, limits: Limits) -> Finding | None:
    """F02."""
    guide, least = m.setup.guide, limits["strip_parent"]
    strip = m.does == "rip" and m.cut.keeps == "far" and m.beyond < limits["strip"]
    if not strip or guide is None:
        return None
    if guide < least:
        return Finding("F02", "refuse", guide, least)
    return Finding("F02", "warn", m.beyond, limits["strip"], "stop")


CHECKS: dict[str, Predicate] = {
    "A04": trapped_at_fence,
    "A06": stop_at_offcut,
    "A11": left_standing,
    "A07": across_grain_on_fence,
    "A08": wider_than_its_bearing,
    "B01": short_rip,
    "B02": shorter_than_open_blade,
    "B03": short_crosscut,
    "B04": hand_to_blade,
    "B05": push_stick,
    "B06": push_block,
    "B07": rip_end,
    "B08": short_on_fence,
    "B09": small_on_sled,
    "F01": strip_at_fence,
    "F02": strip_parent,
}
