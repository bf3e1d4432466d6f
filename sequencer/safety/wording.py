"""Puts the figures and the shop's own words into a rule's text."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from fractions import Fraction
from functools import lru_cache

from sequencer.lengths import Unit, show
from sequencer.plan import Caution
from sequencer.safety.findings import Finding, by_hand, on_sled
from sequencer.safety.moments import Moment
from sequencer.safety.rules import Rule, Text, limits, load


def places(finding: Finding, seen: Sequence[Moment], unit: Unit) -> dict[str, str]:
    """What stands in a text's `{places}` for the passes of a setup, the worst first."""
    moment = seen[0]
    words, saw, setup = load().words, moment.shop.saw, moment.setup
    measured, limit = finding.measured, finding.limit
    graduation = moment.shop.graduation
    said = {
        "measured": "" if measured is None else length(measured, unit, graduation),
        "limit": "" if limit is None else length(limit, unit, graduation),
    }
    if measured is not None and limit is not None and measured != limit:
        decimals = {show(value, unit, graduation).decimal for value in (measured, limit)}
        if len(decimals) == 1:
            # Rounded they look alike: "6 in is less than 6 in" would tell nothing.
            said = {"measured": f"{measured} {unit}", "limit": f"{limit} {unit}"}
    return {
        **said,
        "gap": length(setup.guide or Fraction(0), unit, graduation),
        "depth": length(setup.depth, unit, graduation),
        "hold_down": saw.hold_down,
        "guarding": words[setup.guard],
        "covering": words["covered"].format(cover=saw.cover) if saw.cover else words["bare"],
        "holding": words[_holding(seen, unit)].format(side=_side(seen, unit)),
        "side": _side(seen[:1], unit),
    }


def _side(seen: Sequence[Moment], unit: Unit) -> str:
    """Which side of the kerf is held, and how long it is on the shortest of the pieces."""
    sides = {moment.grip for moment in seen if on_sled(moment)}
    side = load().words[sides.pop() if len(sides) == 1 else "longer"]
    least = min(moment.held_side for moment in seen)
    return side.format(least=length(least, unit, seen[0].shop.graduation))


def _holding(seen: Sequence[Moment], unit: Unit) -> str:
    """How the pieces are held on the sled: by hand only where the hand stays well away."""
    if by_hand(seen[0]):
        return "hold"
    if not on_sled(seen[0]):
        return "clamp"
    figures = limits(unit, seen[0].shop.limits)
    least = figures["hand_breadth"] + figures["hand_to_blade_warned"]
    return "clamp" if any(moment.held_side < least for moment in seen) else "clamp_or_hold"


@lru_cache(maxsize=1024)
def length(value: Fraction, unit: Unit, graduation: Fraction) -> str:
    """As the shop's rule shows it; where it cannot, the decimal.

    >>> length(Fraction(3, 8), "in", Fraction(1, 64)), length(Fraction(1, 3), "mm", Fraction(1, 2))
    ('3/8 in', '0.33 mm')
    """
    shown = show(value, unit, graduation)
    return f"{shown.text if shown.exact else shown.decimal} {unit}"


def filled(text: str, put: Mapping[str, str]) -> str:
    """The text with its places filled; the shop's words are never read as places themselves."""
    return text.format_map(put)


def caution(rule: Rule, text: Text, put: Mapping[str, str]) -> Caution:
    """The message in four parts, as a setup carries it."""
    return Caution(
        rule.id,
        text.word,
        filled(text.hazard, put),
        filled(text.consequence, put),
        filled(text.avoidance, put),
        rule.source,
        filled(rule.brief, put),
    )
