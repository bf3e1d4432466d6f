"""Cuts made pass by pass by the virtual saw."""

from __future__ import annotations

from collections.abc import Iterable
from fractions import Fraction
from math import lcm

from sequencer.cuts.context import Context
from sequencer.cuts.model import Operation
from sequencer.job.shop import default_shop
from sequencer.methods import Choices
from sequencer.plan import Box, Size
from sequencer.proof.kerf import Pass
from sequencer.proof.saw import saw
from sequencer.proof.solid import Solid, difference

F = Fraction


def context(kerf: Fraction) -> Context:
    shop = default_shop("in")
    return Context("in", shop, Choices(), shop.joinery_blade, kerf)


def made(operations: Iterable[Operation], size: Size, grain: int) -> Solid:
    """What the passes leave of a block. Fails at the first that must not be made."""
    block = (0, _whole(size.length, grain), 0, _whole(size.width, grain), 0,
             _whole(size.thickness, grain))  # fmt: skip
    left: Solid = (block,)
    for operation in operations:
        setting = operation.setting
        assert setting is not None
        assert setting.guide is not None
        for cut in operation.cuts:
            result = saw(left, Pass(
                setting.carrier, _whole(setting.kerf, grain), _whole(setting.guide, grain),
                _whole(setting.depth[0], grain), cut.down, cut.against, cut.keeps, cut.sweep,
                _whole(F(2), grain), tilt=setting.tilt,
            ))  # fmt: skip
            assert result.fault is None, (operation.id, cut, result.fault)
            left = result.kept
    return left


def _whole(value: Fraction, grain: int) -> int:
    assert (value * grain).denominator == 1
    return int(value * grain)


def less(size: Size, boxes: Iterable[Box], grain: int) -> Solid:
    whole = ((F(0), size.length), (F(0), size.width), (F(0), size.thickness))
    solids = [tuple(_whole(end, grain) for span in box for end in span) for box in (whole, *boxes)]
    block, *taken = solids
    return difference((block,), taken)  # type: ignore[arg-type]  # six ends each


def same(one: Solid, other: Solid) -> bool:
    return not difference(one, other) and not difference(other, one)


def grain_of(operations: Iterable[Operation], kerf: Fraction) -> int:
    found = [F(1, 5000), kerf]
    for operation in operations:
        assert operation.setting is not None
        found += [operation.setting.guide or F(0), *operation.setting.depth]
    return lcm(*(value.denominator for value in found))
