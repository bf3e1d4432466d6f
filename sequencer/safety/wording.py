"""Puts the figures and the shop's own words into a rule's text."""

from __future__ import annotations

from collections.abc import Mapping
from fractions import Fraction
from functools import lru_cache

from sequencer.lengths import Unit, show
from sequencer.plan import Caution
from sequencer.safety.findings import Finding, by_hand
from sequencer.safety.moments import Moment
from sequencer.safety.rules import Rule, Text, load


def places(finding: Finding, moment: Moment, unit: Unit) -> dict[str, str]:
    """What stands in a text's `{places}` for one pass."""
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
        "holding": words["hold"] if by_hand(moment) else words["clamp"],
    }


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
    )
