"""The wood behind a plan: how much to buy, and where each stick comes from on the boards there are.

How a board is cut down: trimmed at both ends, straightened along one edge, crosscut to rough
lengths while it is still one piece, and each length ripped into the blanks of sticks. Short pieces
lose less to their bow and crook when they are made flat, and no board is ripped that is longer
than it need be.
"""

from __future__ import annotations

from collections.abc import Sequence

from sequencer.errors import Refusal
from sequencer.facts import stocks
from sequencer.job.rack import Rack, together
from sequencer.plan import Plan
from sequencer.records import replace
from sequencer.stock.demand import demand
from sequencer.stock.layout import lay_out
from sequencer.stock.resaw import not_resawn, resawn
from sequencer.stock.rough import rough_list

__all__ = ["take_stock"]


def take_stock(plan: Plan, racks: Sequence[Rack]) -> Plan:
    """The plan with its rough list and, where the jobs say which boards there are, their layout.

    `racks` are those of the jobs, in the plan's unit. Raises `Refusal` where two jobs of a batch
    have boards of one mark.
    """
    rack = together(tuple(racks))
    marks = [board.mark for board in rack.boards]
    twice = next((mark for mark in marks if marks.count(mark) > 1), None)
    if twice is not None:
        raise Refusal(stocks.BOARD_TWICE(board=twice))
    wanted = demand(plan, rack)
    plan = replace(plan, rough=rough_list(plan, rack))
    if not rack.boards:
        return plan
    laid = lay_out(wanted, rack, plan.unit)
    says = (*laid.says, *not_resawn(plan, resawn(plan, rack)))
    return replace(plan, boards=laid.boards, missing=laid.missing, layout=says)
