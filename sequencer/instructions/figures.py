"""Lengths as they are typeset: stacked fractions, a decimal where rounding shows.

A rounded number never stands alone. Lengths come in the plan's unit.
"""

from __future__ import annotations

from collections.abc import Mapping
from fractions import Fraction

from msgspec import Struct, field

from sequencer.facts import Length
from sequencer.lengths import Unit, mixed, show
from sequencer.plan import Plan
from sequencer.saw.fittings import timed_as
from sequencer.wording import Room

PLACES: dict[Unit, int] = {"in": 3, "mm": 2}
_FINEST = 9
"""Decimals: more than anything is read in."""


class Figure(Struct, frozen=True):
    """A length in type: `whole` and a fraction `top`/`bottom`, either of them empty; `decimal`
    where the whole and the fraction are rounded. Always of the size, never the sign."""

    whole: str
    top: str
    bottom: str
    decimal: str
    unit: str

    @property
    def text(self) -> str:
        """In one line, without its unit: `22 1/2`, `9/32 (0.284)`; millimetres as a decimal
        alone, `444.6`."""
        if self.decimal and self.unit == "mm":
            return self.decimal.rstrip("0").rstrip(".")
        return f"{self.plain} ({self.decimal})" if self.decimal else self.plain

    @property
    def plain(self) -> str:
        """The same without the decimal."""
        fraction = f"{self.top}/{self.bottom}" if self.top else ""
        return " ".join(part for part in (self.whole, fraction) if part)


class Scale(Struct, frozen=True):
    """How the shop reads a length: its unit and graduation, and what the scale of each knob is
    divided in where that is another; and the `room` that tells it.

    >>> INCH = Scale("in", Fraction(1, 64), Room("US", Fraction(1, 64)))
    >>> MM = Scale("mm", Fraction(1, 2), Room("UK", Fraction(1, 2)))
    >>> INCH.figure(Fraction(2309, 1000)).text
    '2 5/16 (2.309)'
    >>> MM.figure(Fraction(5001, 500)).text
    '10'
    >>> MM.length(Fraction(1143, 2))
    '571.5 mm'
    >>> INCH.decimal(Fraction(1, 4))
    '0.250'
    """

    unit: Unit
    graduation: Fraction
    room: Room
    knobs: Mapping[str, Fraction] = field(default_factory=dict)

    @staticmethod
    def of(plan: Plan, room: Room) -> Scale:
        """The plan's own."""
        return Scale(plan.unit, plan.shop.graduation, room, plan.shop.scales or {})

    def divided(self, knob: str) -> Fraction:
        """What the scale of a knob is divided in."""
        return self.knobs.get(timed_as(knob), self.graduation)

    def dial(self, value: Fraction, knob: str) -> Figure:
        """What a knob is set to, by the marks of its own scale."""
        return self._figure(value, self.divided(knob))

    def figure(self, value: Fraction) -> Figure:
        """The size of `value`."""
        return self._figure(value, self.graduation)

    def _figure(self, value: Fraction, step: Fraction) -> Figure:
        shown = show(abs(value), self.unit, step)
        decimal = "" if shown.exact else shown.decimal
        if self.unit == "mm" or "/" not in shown.text:
            return Figure(shown.text, "", "", decimal, self.unit)
        *whole, fraction = shown.text.split(" ")
        top, bottom = fraction.split("/")
        return Figure("".join(whole), top, bottom, decimal, self.unit)

    def text(self, value: Fraction) -> str:
        """With the decimal where rounded, without the unit."""
        return self.figure(value).text

    def length(self, value: Fraction) -> str:
        """With the unit, for a line of text."""
        return self.room.length(self.told(value))

    def told(self, value: Fraction) -> Length:
        """The size of `value`, to be told in a text."""
        return Length(abs(value), self.unit)

    def decimal(self, value: Fraction) -> str:
        """As a caliper shows it."""
        return show(value, self.unit, self.graduation).decimal

    def read(self, value: Fraction, step: Fraction | None) -> str:
        """As a tool shows it that is read in such steps: a rule's marks as a fraction of inches, a
        caliper's as a decimal. Without steps as a caliper shows it.

        >>> room = Room("US", Fraction(1, 64))
        >>> scale = Scale("in", Fraction(1, 64), room)
        >>> scale.read(Fraction(287, 32), Fraction(1, 32))
        '8 31/32'
        >>> scale.read(Fraction(1, 4), Fraction(1, 1000))
        '0.250'
        >>> scale.read(Fraction(1091, 2000), Fraction(1, 1000))
        '0.5455'
        """
        if step is None:
            return fixed(round(value * 10 ** PLACES[self.unit]), PLACES[self.unit])
        if self.unit == "in" and not step.denominator & (step.denominator - 1):
            return mixed(value)
        if value % step and not value * 2 % step:  # what moves with half of a reading
            step /= 2
        places = next(n for n in range(_FINEST) if not step * 10**n % 1)
        return fixed(round(value * 10**places), places)

    def aimed(self, value: Fraction, step: Fraction | None) -> Figure:
        """The same in type."""
        text = self.read(value, step)
        if "/" not in text:
            return Figure(text, "", "", "", self.unit)
        *whole, fraction = text.split(" ")
        top, bottom = fraction.split("/")
        return Figure("".join(whole), top, bottom, "", self.unit)


def fixed(scaled: int, places: int) -> str:
    """So many of the last place, as a decimal; below 0 with the sign of a minus."""
    whole, rest = divmod(abs(scaled), 10**places)
    return f"{'−' if scaled < 0 else ''}{whole}.{rest:0{places}d}"
