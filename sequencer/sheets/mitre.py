"""The picture of a setup on the mitre sled, seen from above: the blade upright in the picture, the
piece along its fence, the stop at its end.
"""

from __future__ import annotations

from collections.abc import Callable
from fractions import Fraction
from typing import Literal

from msgspec import Struct

from sequencer.instructions.figures import Scale
from sequencer.instructions.words import SURFACES
from sequencer.job.schema import Side
from sequencer.plan import Cut, Hand, Marked, Setup, Size
from sequencer.sheets import svg
from sequencer.sheets.held import all_round, sign
from sequencer.sheets.placing import ROW, TYPE, WIDTH
from sequencer.wording import pictures

Point = tuple[Fraction, Fraction]

HEIGHT = Fraction(176 + ROW)
_HALF_ROOT = Fraction(985, 1393)  # 1/√2 to a millionth: a drawing
_FENCE = 10  # points, across
_ROOM = Fraction(104)  # points, the piece's rise
_SHOWN = Fraction(7, 4)  # of its width, along its kept edge


class MitreView(Struct, frozen=True):
    """What one picture shows: the piece of `size` at its first pass; `hand` is the fence's side of
    the blade."""

    setup: Setup
    size: Size
    cut: Cut
    hand: Side
    deck: Fraction
    mark: str
    name: str = ""
    marked: Marked = "face"
    clear: Fraction = Fraction(0)
    """How near to the blade no hand may come."""


def hand_of(cut: Cut, inside: Hand) -> Side:
    """On which side of the blade a piece of that hand lies, its outside edge along the fence behind
    it: which face is down and which end is at the blade decide it only together with the hand."""
    face_down = cut.down == "face"
    at_b = cut.against == "end-B"
    return "left" if ((inside == "right") == face_down) != at_b else "right"


def mitre_drawing(view: MitreView, scale: Scale) -> str:
    """The picture, `WIDTH` points wide."""
    width = view.size.width
    points = _ROOM * (1 / _HALF_ROOT) / ((1 + _SHOWN) * width)
    side = -1 if view.hand == "left" else 1
    foot = (WIDTH / 2 - side * 12, HEIGHT - ROW - 44)

    def at(along: Fraction, inward: Fraction) -> Point:
        """From where the kept line meets the outside edge: along it, and across the piece."""
        step = points * _HALF_ROOT
        return (
            foot[0] + side * step * (along - inward),
            foot[1] - step * (along + inward),
        )

    guide = view.setup.guide or Fraction(0)
    end, far = -guide, min(_SHOWN * width, view.size.length - guide)
    fence = Fraction(_FENCE) / points
    zero = Fraction(0)
    body = [at(zero, zero), at(far, zero), at(far, width), at(width, width)]
    waste = [at(zero, zero), at(end, zero), at(end, width), at(width, width)]
    reach = min(end, zero) - fence
    behind = [at(reach, zero), at(far + fence, zero), at(far + fence, -fence), at(reach, -fence)]
    stop = [at(end, zero), at(end - fence, zero), at(end - fence, 2 * fence), at(end, 2 * fence)]
    kerf = view.setup.kerf * points
    blade = foot[0] if view.hand == "left" else foot[0] - kerf
    shapes = [
        svg.path(behind, fill=svg.METAL, stroke=2, closed=True),
        svg.path(body, fill=svg.WOOD, closed=True),
        svg.path(waste, fill="#fff", closed=True, dash="3 2"),
        svg.path(stop, fill=svg.METAL, stroke=2, closed=True),
        svg.rect(blade, 14, kerf, foot[1] + 10, fill=svg.INK, stroke=0),
        svg.path([at(far, zero), at(far, width)], stroke=3, dash="2 3"),
    ]
    if view.cut.hold is not None:
        x, y = at(far * Fraction(7, 8), width / 2)
        shapes.append(svg.rect(x - 8, y - 8, Fraction(16), Fraction(16), fill="#fff"))
        shapes += sign(x - 6, y - 6, view.cut.hold.by)
        near = view.clear * points + kerf / 2
        shapes += all_round(blade + kerf / 2, near, HEIGHT - ROW - 15, scale.room)
    return svg.drawing(WIDTH, HEIGHT, [*shapes, *_words(view, scale, foot, at)], _says(view, scale))


def _words(
    view: MitreView, scale: Scale, foot: Point, at: Callable[[Fraction, Fraction], Point]
) -> list[str]:
    """Names beside what they name; the numbers below."""
    left = view.hand == "left"
    width = view.size.width
    middle = at(width * Fraction(9, 8), width / 2)
    edge: Literal["start", "end"] = "start" if left else "end"
    other: Literal["start", "end"] = "end" if left else "start"
    out = Fraction(1) if left else WIDTH - 1
    back = WIDTH - 1 if left else Fraction(1)
    sign = 1 if left else -1
    mark, name = view.mark, view.name
    room = scale.room
    guide = scale.dial(view.setup.reading or Fraction(0), "mitre stop").text
    sides = SURFACES[view.marked]
    end = room.term(sides[view.cut.against or "end-A"])
    down = room.text(pictures.DOWN, side=room.term(sides[view.cut.down]))
    deep = room.text(pictures.DEEP, depth=scale.text(view.setup.depth))
    kerf = room.text(pictures.KERF, width=scale.text(view.setup.kerf))
    line = room.text(pictures.STOP_TO_LINE, length=guide)
    named = room.text(pictures.NAMED, mark=mark, name=name) if name else mark
    lines = [
        svg.text(middle[0], middle[1] + 5, mark, TYPE, anchor="middle", bold=True),
        svg.text(out, 10, room.text(pictures.FROM_ABOVE), TYPE, anchor=edge),
        svg.text(back, 10, kerf, TYPE, anchor=other),
        svg.text(back, 32, down, TYPE, anchor=other),
        svg.text(back, 44, deep, TYPE, anchor=other),
        svg.text(back, 62, room.text(pictures.WASTE), TYPE, anchor=other),
        svg.text(back, 74, room.text(pictures.NIBBLED), TYPE, anchor=other),
        svg.text(back, foot[1] - 12, room.text(pictures.END_AT_STOP, end=end), TYPE, anchor=other),
        svg.text(out, foot[1] + 4, room.text(pictures.OUTSIDE_EDGE), TYPE, anchor=edge),
        svg.text(out, foot[1] + 15, room.text(pictures.ON_SLANT), TYPE, anchor=edge),
        svg.text(1, HEIGHT - 4, line, TYPE, bold=True),
        svg.text(WIDTH - 1, HEIGHT - 4, named, TYPE, anchor="end"),
    ]
    x = back - sign * 14
    lines.append(svg.arrow(x, foot[1] + 20, x, foot[1] - 10))
    lines.append(
        svg.text(x - sign * 10, foot[1] + 12, room.text(pictures.PUSH), TYPE, anchor=other)
    )
    return lines


def _says(view: MitreView, scale: Scale) -> str:
    room = scale.room
    return room.text(
        pictures.ON_MITRE_SLED,
        number=view.setup.number,
        hand=room.term(view.hand),
        end=room.term(SURFACES[view.marked][view.cut.against or "end-A"]),
        distance=scale.told(view.setup.reading or Fraction(0)),
        height=scale.told(view.setup.height_shown),
    )
