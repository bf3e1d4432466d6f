"""How the leaves stand on the first page: beside what is looked at before the saw is switched on,
or across the page above it, as large as they go."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction

from sequencer.sheets.leaf import PAD

BESIDE, ACROSS, HIGH = 250, 550, 290
"""Points that they may take: wide beside the list and across the page, and high."""

STILL_LARGE = Fraction(3, 5)
"""Of the size that they would have across the page; ours."""

_GAP = 4
_SMALLER = tuple(Fraction(tenths, 20) for tenths in range(20, 10, -1))

Size = tuple[Fraction, Fraction]


def covered(leaves: Sequence[Size], largest: Fraction) -> tuple[Fraction, bool]:
    """Points a unit, at most the `largest` and at least half of it, and whether the leaves stand
    beside the list: where they go there by no less than `STILL_LARGE` of it, for across the page
    they leave both sides empty. Leaves that would not go at half of it take more than `HIGH`.

    >>> covered([(Fraction(14), Fraction(30))] * 2, Fraction(6))
    (Fraction(6, 1), True)
    """
    for room, least in ((BESIDE, STILL_LARGE), (ACROSS, _SMALLER[-1])):
        for part in _SMALLER:
            if part >= least and _high(leaves, largest * part, room) <= HIGH:
                return largest * part, room == BESIDE
    return largest * _SMALLER[-1], False


def _high(leaves: Sequence[Size], scale: Fraction, room: int) -> Fraction:
    """How high they stand in lines `room` points wide."""
    high = used = line = Fraction(0)
    for wide, tall in leaves:
        takes = wide * scale + 2 * PAD + _GAP
        if used and used + takes > room:
            high, used, line = high + line, Fraction(0), Fraction(0)
        used, line = used + takes, max(line, tall * scale + 2 * PAD + 15)
        if takes > room:
            return Fraction(10 * HIGH)
    return high + line
