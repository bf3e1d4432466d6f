"""A plan on the boards of a rack, without planning it anew for each."""

from __future__ import annotations

from fractions import Fraction

from sequencer.job.rack import Rack
from sequencer.operations.filling import StickPlan, Stock
from sequencer.operations.glued import with_boards
from sequencer.plan import Plan, Stick
from sequencer.records import replace
from sequencer.stock import take_stock


def on(plan: Plan, owned: Rack) -> Plan:
    """The plan on these boards, each wide strip of as many of them as it is then glued up from."""
    parts = {part.mark: part for part in plan.parts}
    sticks = [StickPlan(stick, _stock(stick), ()) for stick in plan.sticks]
    made = with_boards(sticks, parts, {}, owned, plan.unit)
    return take_stock(replace(plan, sticks=tuple(each.stick for each in made)), [owned])


def _stock(stick: Stick) -> Stock:
    thick = stick.size.thickness
    return Stock(stick.material, thick, thick, Fraction(0), "out", None)
