"""The plan as `plan.json` (schema `sequencer-plan/2`) and back: the one contract with others.

Numbers are exact rationals in lowest terms, as strings (`"23/4"`, `"19"`); `to_json` and
`from_json` undo each other. The shapes follow the types of `sequencer.plan`; what is written
otherwise than its field stands in the tables of `shapes.py`.
"""

from __future__ import annotations

from sequencer.contract.reading import from_json
from sequencer.contract.shapes import SCHEMA
from sequencer.contract.writing import to_json

__all__ = ["SCHEMA", "from_json", "to_json"]
