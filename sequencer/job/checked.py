"""A door's numbers as every rule needs them."""

from __future__ import annotations

from fractions import Fraction

from sequencer.errors import Fault
from sequencer.facts import Fact, Length
from sequencer.job.defaults import lengths
from sequencer.job.schema import Door
from sequencer.lengths import Unit, mixed, show
from sequencer.trade.fits import PANEL_FIT


class Checked:
    """A door and its unit, with what every rule makes of them."""

    def __init__(self, door: Door, unit: Unit) -> None:
        self.door = door
        self.unit = unit
        self.width, self.height = door.leaf_size
        self.sight_width = self.width - door.hinge_stile - door.free_stile
        rise = Fraction(0) if door.shape is None else door.shape.rise
        self.sight_height = self.height - door.top_rail - rise - door.bottom_rail
        self.free = door.free_side

    @property
    def groove_width(self) -> Fraction | None:
        """Stated, or given by the panel; a pane has no groove."""
        if self.door.glazed:
            return None
        panel = self.door.held
        if self.door.groove.width is not None or panel is None:
            return self.door.groove.width
        return panel + PANEL_FIT.of(self.unit)

    def limit(self, key: str) -> Fraction:
        return lengths(self.unit)[f"limits.{key}"]

    def length(self, value: Fraction) -> Length:
        """As a fact tells it."""
        return Length(value, self.unit)

    def fault(self, key: str, message: Fact, hint: Fact) -> Fault:
        """At the value of `key`, or at the door where the value is a default."""
        places = self.door.places
        place = places.get(key) or places["door"]
        return Fault(place.file, place.line, place.column, message, hint, place.text, key)


def say(length: Fraction, unit: Unit) -> str:
    """A length for a message: `22 1/2 in`, `0.234 in`, `571.5 mm`.

    >>> say(Fraction(45, 2), "in"), say(Fraction(1, 256), "in"), say(Fraction(6), "mm")
    ('22 1/2 in', '0.004 in', '6 mm')
    """
    if unit == "in" and length % Fraction(1, 64) == 0:
        return f"{mixed(length)} in"
    decimal = show(length, unit, Fraction(1)).decimal
    return f"{decimal if unit == 'in' else decimal.rstrip('0').rstrip('.')} {unit}"
