"""What the scales of a plan's setups show, and the numbers in the values of its knobs."""

from __future__ import annotations

import re
from collections.abc import Iterable
from fractions import Fraction

from sequencer.plan import Setup, ShopFacts
from sequencer.proof.carriers import CARRIERS

TESTED = " tested"
SPACER = "spacer"
_TILT = re.compile(r"(-?\d+) in (\d+)")
_BEHIND = re.compile(r"(.+) at (\S+)")


def guide_reading(setup: Setup, shop: ShopFacts) -> tuple[str, Fraction | None]:
    """The knob that the setup's guide is dialled with, and what its scale must show."""
    carrier = CARRIERS[setup.carrier]
    if setup.guide is None:
        return carrier.knob, None
    before = setup.guide + setup.spacer
    if carrier.kind == "jig" and shop.jig_rides == "fence":
        return "fence", before + shop.jig_thickness
    return carrier.knob, before


def spacer_in(value: str, cutters: Iterable[str]) -> tuple[Fraction, Fraction] | None:
    """How thick a spacer is by its value, and what the jig stands at: `1/8 at 3/8 tested`. `None`
    where there is none.

    >>> spacer_in("1/8 at 3/8 tested", []), spacer_in("away", [])
    ((Fraction(1, 8), Fraction(3, 8)), None)
    """
    found = _BEHIND.fullmatch(value.removesuffix(TESTED))
    thick = None if found is None else value_number(found[1], cutters)
    return None if found is None or thick is None else (thick, Fraction(found[2]))


def value_number(value: str, cutters: Iterable[str]) -> Fraction | None:
    """The number in a knob's value: `7/8`, `7/8 tested`, a tilt as `1 in 8`; or after the cutter's
    name, the tilt or both, `dado/1/4`, `1 in 8/1/4`, `blade/1 in 8/1/4`.

    >>> value_number("blade 1/5 tested", ["blade", "blade 1"])
    Fraction(5, 1)
    """
    text = value.removesuffix(TESTED)
    # A name may end in a number: the longest name that fits is the cutter's.
    names = sorted((name for name in cutters if text.startswith(f"{name}/")), key=len)
    if names:
        text = text.removeprefix(f"{names[-1]}/")
    tilt, mark, rest = text.partition("/")
    if mark and _TILT.fullmatch(tilt):
        text = rest
    elif tilted := _TILT.fullmatch(text):
        rise, run = (int(number) for number in tilted.groups())
        return Fraction(rise, run) if run else None
    try:
        return Fraction(text)
    except (ValueError, ZeroDivisionError):
        return None
