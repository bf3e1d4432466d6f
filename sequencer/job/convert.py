"""A job or shop in the plan's unit: every length converted exactly, nothing else touched."""

from __future__ import annotations

from fractions import Fraction
from typing import Any, TypeVar

from sequencer.job.schema import Minutes
from sequencer.lengths import Unit, convert
from sequencer.movement import Year
from sequencer.records import is_record, names, replace

T = TypeVar("T")


def in_unit(value: T, from_unit: Unit, to_unit: Unit) -> T:
    """`value` with every `Fraction` in it taken from one unit to the other, but for minutes and
    percentages."""
    if from_unit == to_unit:
        return value
    return _converted(value, from_unit, to_unit)  # type: ignore[no-any-return]  # same type back


def _converted(value: Any, from_unit: Unit, to_unit: Unit) -> Any:
    if isinstance(value, Fraction):
        return convert(value, from_unit, to_unit)
    if isinstance(value, tuple):
        return tuple(_converted(item, from_unit, to_unit) for item in value)
    if is_record(type(value)) and not isinstance(value, Minutes | Year):
        changes = {
            name: _converted(getattr(value, name), from_unit, to_unit) for name in names(value)
        }
        return replace(value, **changes)
    return value
