"""Drawings to lay out from: each stick with its pieces."""

from __future__ import annotations

from fractions import Fraction

from sequencer.instructions.figures import Scale
from sequencer.plan import Plan, Stick
from sequencer.sheets import svg
from sequencer.sheets.pieces import Pieces
from sequencer.wording import pictures

WIDTH = Fraction(524)
HALF = Fraction(272)
_TYPE = 11
_END = 9
_BOARD = 50  # points; wider ones would fill the page


def stick_scale(plan: Plan) -> Fraction:
    """Points a unit, one for all sticks, so that they compare; two columns of them go on a page."""
    return HALF / max(stick.size.length for stick in plan.sticks)


def stick_drawing(stick: Stick, pieces: Pieces, points: Fraction, scale: Scale) -> str:
    """The stick to scale, seen on its marked face with the inside edge toward the person: so its
    squared end is to the left, or where the marked face looks in, to the right. Pieces light with
    their marks, lengths and end A, in brackets where either hand would do; the rest hatched. A wide
    board at half the scale, a narrow strip as wide as its words."""
    if stick.size.width * points > _BOARD:
        points /= 2
    wide = max(stick.size.width * points, Fraction(_TYPE + 3))
    inside = wide >= _TYPE + 1
    top = Fraction(3) if inside else Fraction(_TYPE + 5)
    base = top + wide / 2 + 5 if inside else Fraction(_TYPE)
    length = stick.size.length * points
    shapes = [svg.rect(1, top, length - 2, wide, fill="#fff"), *hatch(1, top, length - 2, wide)]
    for place in stick.pieces:
        size = pieces.size(place.mark).length
        along = size * points
        x = place.start * points
        at_left = place.end_a == "left"
        if stick.marked == "back":
            x, at_left = length - x - along, not at_left
        end = "(A)" if place.remarked else "A"
        # On a wide board end A stands below the words, else beside them.
        below = wide > 2 * _TYPE + _END
        room = along - (4 if below else 2 * svg.text_width(end, _END) + 8)
        foot = top + wide - 5 if below else base
        words = f"{place.mark} {scale.text(size)}"
        if svg.text_width(words, _TYPE, bold=True) > room:
            words = place.mark
        shapes += [
            svg.rect(x, top, along, wide, fill=svg.WOOD),
            svg.text(x + along / 2, base, words, _TYPE, anchor="middle", bold=True),
            svg.text(x + 3, foot, end, _END)
            if at_left
            else svg.text(x + along - 3, foot, end, _END, anchor="end"),
        ]
    shapes.append(svg.line(1, top + wide, length - 1, top + wide, width=3))
    marks = tuple(place.mark for place in stick.pieces)
    says = scale.room.text(pictures.STRIP_OF, mark=stick.mark, marks=marks)
    return svg.drawing(length, top + wide + 3, shapes, says)


_APART = 600
"""Between the lines of a hatch, in hundredths of a point."""


def hatch(x: svg.Number, y: Fraction, width: Fraction, height: Fraction) -> list[str]:
    """What falls off: slanting lines over a rectangle, as one path."""
    left, wide, lean = (svg.hundredths(value) for value in (x, width, height / 2))
    low, high = svg.number(y + height), svg.number(y)
    steps = (
        f"M{svg.plain(left + at)} {low}L{svg.plain(left + min(at + lean, wide))} {high}"
        for at in range(_APART, wide, _APART)
    )
    return [f'<path d="{"".join(steps)}" stroke="{svg.INK}" stroke-width="0.5"/>']
