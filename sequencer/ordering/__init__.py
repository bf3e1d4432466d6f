"""The order of least setting minutes: exact search, bound, independent checker, baselines."""

from __future__ import annotations

from sequencer.ordering import baselines, check
from sequencer.ordering.contract import as_json, from_json
from sequencer.ordering.problem import (
    Alternative,
    Knob,
    Operation,
    Order,
    Placed,
    Problem,
    faults,
)
from sequencer.ordering.solver import DEFAULT_STATES, bound, solve

__all__ = [
    "DEFAULT_STATES",
    "Alternative",
    "Knob",
    "Operation",
    "Order",
    "Placed",
    "Problem",
    "as_json",
    "baselines",
    "bound",
    "check",
    "faults",
    "from_json",
    "solve",
]
