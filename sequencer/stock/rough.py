"""How much wood of each kind and thickness, and what to ask for."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction

from sequencer.job.rack import Rack
from sequencer.lengths import Unit, convert
from sequencer.plan import Plan, RoughLine, Stick
from sequencer.records import replace
from sequencer.stock.resaw import resawn
from sequencer.trade.lumber import Nominal, is_softwood, nominal_thickness, nominal_width
from sequencer.units import converted


def rough_list(plan: Plan, rack: Rack) -> tuple[RoughLine, ...]:
    """A line for each wood and thickness, in order of first use; test sticks are counted in, since
    they are milled with the rest. Two sticks that are resawn from one piece are told as that."""
    lines: dict[tuple[str, Fraction], list[Stick]] = {}
    pairs = resawn(plan, rack)
    whole = {each.first.mark: each.blank for each in pairs}
    halves = {each.second.mark for each in pairs}
    for stick in plan.sticks:
        if stick.mark in halves:
            continue
        piece = stick
        if stick.mark in whole:
            blank = whole[stick.mark]
            piece = replace(stick, mark=blank.mark, size=blank.size, blank=blank.size)
        lines.setdefault((stick.material, piece.size.thickness), []).append(piece)
    return tuple(
        _line(material, thickness, sticks, rack, plan.unit)
        for (material, thickness), sticks in lines.items()
    )


def _line(
    material: str, thickness: Fraction, sticks: Sequence[Stick], rack: Rack, unit: Unit
) -> RoughLine:
    softwood = is_softwood(material)
    widest = max(stick.blank.width for stick in sticks)
    surface = sum((stick.blank.length * stick.blank.width for stick in sticks), Fraction(0))
    square_inches = converted(surface, f"{unit} ** 2", "inch ** 2")
    nominal = nominal_thickness(convert(thickness, unit, "in"), softwood=softwood)
    sawn = thickness + rack.milling
    inches = convert(sawn, unit, "in") if nominal is None else nominal.nominal
    board_feet = converted(square_inches * max(inches, Fraction(1)), "inch ** 3", "board_foot")
    cubic_metres = converted(square_inches * inches, "inch ** 3", "meter ** 3")
    more = 1 + Fraction(rack.allowance, 100)
    return RoughLine(
        material=material,
        thickness=thickness,
        sticks=tuple(stick.mark for stick in sticks if not stick.test),
        test_sticks=tuple(stick.mark for stick in sticks if stick.test),
        longest=max(stick.blank.length for stick in sticks),
        widest=widest,
        surface=surface,
        bought_thickness=convert(inches, "in", unit),
        board_feet=board_feet,
        cubic_metres=cubic_metres,
        allowance=rack.allowance,
        board_feet_with=board_feet * more,
        cubic_metres_with=cubic_metres * more,
        buy=_buy(nominal, convert(widest, unit, "in"), softwood),
        yields=None if nominal is None else convert(nominal.surfaced, "in", unit),
    )


def _buy(nominal: Nominal | None, widest: Fraction, softwood: bool) -> str:
    """What yields it, by the trade's name; empty where the tables name nothing as thick."""
    if nominal is None:
        return ""
    if not softwood:
        return nominal.name
    width = nominal_width(widest)
    return f"{nominal.name} × {width.name}" if width else f"{nominal.name} in nominal"
