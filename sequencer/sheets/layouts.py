"""Drawings to lay out from: each stick with its pieces, each leaf with its marks."""

from __future__ import annotations

from fractions import Fraction

from sequencer.plan import Door, Part, Place, Plan, Span, Stick
from sequencer.sheets import svg
from sequencer.sheets.figures import Scale
from sequencer.sheets.pieces import Pieces

WIDTH = Fraction(524)
_TYPE = 13
_BOARD = 50  # points; wider ones would fill the page


def stick_scale(plan: Plan) -> Fraction:
    """Points a unit, one for all sticks, so that they compare."""
    return WIDTH / max(stick.size.length for stick in plan.sticks)


def stick_drawing(stick: Stick, pieces: Pieces, points: Fraction, scale: Scale) -> str:
    """The stick to scale, end A to the left, seen from its marked face, inside edge up; pieces
    light with their marks and lengths, the rest hatched. A wide board at half the scale."""
    if stick.size.width * points > _BOARD:
        points /= 2
    wide = stick.size.width * points
    inside = wide >= _TYPE + 1
    top = Fraction(3) if inside else Fraction(_TYPE + 5)
    base = top + wide / 2 + 5 if inside else Fraction(_TYPE)
    length = stick.size.length * points
    shapes = [svg.rect(1, top, length - 2, wide, fill="#fff"), *hatch(1, top, length - 2, wide)]
    for place in stick.pieces:
        x = place.start * points
        size = pieces.size(place.mark).length
        along = size * points
        words = f"{place.mark} {scale.text(size)}"
        if svg.text_width(words, _TYPE, bold=True) > along - 4:
            words = place.mark
        shapes += [
            svg.rect(x, top, along, wide, fill=svg.WOOD),
            svg.text(x + along / 2, base, words, _TYPE, anchor="middle", bold=True),
        ]
    shapes.append(svg.line(1, top, length - 1, top, width=3))
    marks = ", ".join(place.mark for place in stick.pieces)
    return svg.drawing(length, top + wide + 3, shapes, f"Stick {stick.mark}: {marks}")


def hatch(x: svg.Number, y: Fraction, width: Fraction, height: Fraction) -> list[str]:
    """What falls off: slanting lines over a rectangle."""
    lines = []
    at = Fraction(6)
    while at < width:
        lines.append(
            svg.line(x + at, y + height, x + min(at + height / 2, width), y, width=Fraction(1, 2))
        )
        at += 6
    return lines


def leaf_scale(plan: Plan, room_wide: Fraction, room_high: Fraction) -> Fraction:
    """Points a unit, one for all leaves."""
    return min(min(room_wide / door.size[0], room_high / door.size[1]) for door in plan.doors)


def leaf_drawing(door: Door, parts: dict[str, Part], scale: Fraction) -> str:
    """The leaf from the front with its parts' marks, hinges as bars beside it, and the triangle
    that is drawn across the whole leaf. Ends that stand proud are not shown."""
    pad = Fraction(16)
    wide, high = (extent * scale for extent in door.size)
    shapes: list[str] = []
    marks: list[str] = []
    # Stiles last: they run through.
    for place in sorted(door.places, key=lambda p: parts[p.mark].role == "stile"):
        part = parts[place.mark]
        across, up = _within(part, place, door)
        left, right = (pad + v * scale for v in across)
        low, top = (pad + high - v * scale for v in up)
        fill = svg.WOOD if part.role == "stile" else "#fff"
        if part.role != "panel":
            shapes.append(svg.rect(left, top, right - left, low - top, fill=fill))
        middle, base = (left + right) / 2, (top + low) / 2 + 5
        half = svg.text_width(place.mark, _TYPE, bold=True) / 2
        marks.append(svg.rect(middle - half, base - 12, 2 * half, 15, fill="#fff", stroke=0))
        marks.append(svg.text(middle, base, place.mark, _TYPE, anchor="middle", bold=True))
    hinge_x = pad - 8 if door.hinge == "left" else pad + wide + 3
    hinges = [pad + high * part_of - 9 for part_of in (Fraction(1, 6), Fraction(5, 6))]
    shapes += [svg.rect(hinge_x, y, 5, 18, fill=svg.INK, stroke=0) for y in hinges]
    triangle = [
        (pad + wide / 2, pad + 4),
        (pad + wide / 12, pad + high - 4),
        (pad + wide * Fraction(11, 12), pad + high - 4),
    ]
    shapes.append(svg.path(triangle, closed=True, dash="6 4", stroke=Fraction(3, 4)))
    says = f"Leaf {door.mark}, hinges {door.hinge}: {', '.join(p.mark for p in door.places)}"
    return svg.drawing(wide + 2 * pad, high + 2 * pad, [*shapes, *marks], says)


def _within(part: Part, place: Place, door: Door) -> tuple[Span, Span]:
    """Where the part lies across and up the leaf, what stands past its edges cut off."""
    found: dict[str, Span] = {}
    extents = (part.size.length, part.size.width, part.size.thickness)
    for extent, axis in zip(extents, place.axes, strict=True):
        sign, name = axis[0], axis[1]
        if name in "xy":
            limit = door.size["xy".index(name)]
            start = place.origin["xyz".index(name)]
            end = start + extent if sign == "+" else start - extent
            low, high = sorted((start, end))
            found[name] = (max(low, Fraction(0)), min(high, limit))
    return found["x"], found["y"]
