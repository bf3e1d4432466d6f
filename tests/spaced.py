"""Jobs that are cut with a block between jig and piece; shops that have the very blocks that lie
between one setting of the jig and another."""

from __future__ import annotations

from fractions import Fraction

from sequencer.job.schema import Shop
from sequencer.plan import Plan
from sequencer.records import replace

JOB = """\
unit = "in"
[stock]
thickness = "3/4"
[joint]
slot = "15/64"
offset = "3/16"
[[door]]
[door.opening]
width = "16"
height = "20"
"""
"""Slots from one face, whose far wall is 7/64 in beyond the near one, a kerf of 1/8 in apart; and
tenons whose cheeks are 37/256 in unlike."""

SHOP = """\
unit = "in"
[tools]
blocks = ["7/64", "37/256"]
"""

THINNEST = {"in": Fraction(1, 64), "mm": Fraction(1, 2)}
"""A thinner block would be a slip of paper."""


def differences(plan: Plan) -> tuple[Fraction, ...]:
    """How far the settings of the jig are apart in a plan, each once, the least first."""
    stands = {s.guide for s in plan.setups if s.carrier == "tenoning-jig" and s.guide is not None}
    apart = {one - other for one in stands for other in stands}
    return tuple(sorted(each for each in apart if each >= THINNEST[plan.unit]))


def with_blocks(shop: Shop, plan: Plan) -> Shop:
    """The same shop with a block for each of a plan's differences, beside its own."""
    blocks = dict.fromkeys((*shop.tools.blocks, *differences(plan)))
    return replace(shop, tools=replace(shop.tools, blocks=tuple(blocks)))
