"""The boards that a wide stick is glued up from, as they are laid out."""

from __future__ import annotations

from sequencer.lengths import Unit
from sequencer.plan import Blank, Size, Stick
from sequencer.trade.lumber import JOINTING


def strips(stick: Stick, unit: Unit) -> tuple[Blank, ...]:
    """The blanks of a stick: itself, or as many boards of equal width as it is glued up from, each
    with what jointing takes off its edges."""
    count = stick.boards or 1
    if count == 1:
        return (Blank(stick.mark, stick.mark, stick.material, stick.blank),)
    size = stick.blank
    strip = Size(size.length, size.width / count + JOINTING.of(unit), size.thickness)
    return tuple(
        Blank(f"{stick.mark}/{n}", stick.mark, stick.material, strip) for n in range(1, count + 1)
    )
