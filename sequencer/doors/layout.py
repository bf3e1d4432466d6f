"""What the bench is told of a shaped top rail: its curve, what to take off, what to lay out."""

from __future__ import annotations

from fractions import Fraction
from typing import Literal

from msgspec import Struct

from sequencer.doors.curve import Curve
from sequencer.plan import Removal


class Mark(Struct, frozen=True):
    """A mark: `at` from the `end` named, from `either`, or in the `middle`; and how far from the
    straight edge or end the line is there."""

    at: Fraction
    end: Literal["left", "right", "either", "middle"]
    height: Fraction


class Shaped(Struct, frozen=True):
    """The work of a shape. Of the rail: its `edge`, then the `groove` along it, `groove_depth`
    deep; `rail_marks` from the shoulders, up from the lower edge as sawn. Of the panel below it:
    its `top`; `panel_marks` from its long edges, down from the upper end as sawn."""

    curve: Curve
    rail: str
    edge: tuple[Removal, ...]
    groove: tuple[Removal, ...]
    groove_depth: Fraction
    rail_marks: tuple[Mark, ...]
    panel: str
    top: tuple[Removal, ...]
    panel_marks: tuple[Mark, ...]
