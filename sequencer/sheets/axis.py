"""A drawn axis with its break lines: true to scale where it is drawn, cut out where it is long."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction

from msgspec import Struct

from sequencer.plan import Span

GAP = 8
"""Points that a break takes."""

END = 11
"""Points that stay of a broken piece's ends."""


class Axis(Struct, frozen=True):
    """`runs` are drawn at `scale` points a unit, one after another with a gap between."""

    runs: tuple[Span, ...]
    scale: Fraction

    def at(self, value: Fraction) -> Fraction:
        """Points from the axis' beginning; what is cut out lies in the middle of its gap, what is
        beyond the ends goes on at scale."""
        done = Fraction(0)
        for number, (low, high) in enumerate(self.runs):
            last = number == len(self.runs) - 1
            if value <= high or last:
                if value < low and number:
                    return done - Fraction(GAP, 2)
                return done + (value - low) * self.scale
            done += (high - low) * self.scale + GAP
        return done

    @property
    def length(self) -> Fraction:
        return self.at(self.runs[-1][1])

    @property
    def breaks(self) -> tuple[Fraction, ...]:
        """Where each gap begins."""
        return tuple(self.at(high) for _, high in self.runs[:-1])


def axis(
    extent: Fraction, room: Fraction, scale: Fraction, needed: Sequence[Span], end: int = END
) -> Axis:
    """The axis 0…`extent` in at most `room` points: whole where it fits, else only the `needed`
    spans and `end` points of both ends, lengthened as far as the room allows.

    >>> axis(Fraction(20), Fraction(100), Fraction(10), [(Fraction(0), Fraction(1))]).breaks
    (Fraction(81, 1),)
    """
    if extent * scale <= room:
        return Axis(((Fraction(0), extent),), scale)
    margin = Fraction(end) / scale
    runs = _merged([*needed, (Fraction(0), margin), (extent - margin, extent)], extent, scale)
    spare = room - sum(
        ((high - low) * scale for low, high in runs), Fraction(GAP * (len(runs) - 1))
    )
    if spare > 0 and len(runs) > 1:
        low, high = runs[0]
        runs[0] = (low, min(high + spare / scale, runs[1][0] - Fraction(GAP) / scale))
    return Axis(tuple(runs), scale)


def _merged(spans: Sequence[Span], extent: Fraction, scale: Fraction) -> list[Span]:
    """In order, within the extent, joined where a gap would save nothing."""
    runs: list[Span] = []
    for low, high in sorted((max(low, Fraction(0)), min(high, extent)) for low, high in spans):
        if runs and low - runs[-1][1] <= Fraction(2 * GAP) / scale:
            runs[-1] = (runs[-1][0], max(high, runs[-1][1]))
        else:
            runs.append((low, high))
    return runs
