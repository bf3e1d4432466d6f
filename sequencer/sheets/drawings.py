"""The picture of one setup: blade, carrier and piece to proportion, as the person at the saw
sees them. It is drawn with the guiding surface to the right of the blade, distances growing to
the left, and turned over where that stands on the left.
"""

from __future__ import annotations

from fractions import Fraction

from sequencer.instructions.figures import Scale
from sequencer.saw.fittings import CARRIERS
from sequencer.sheets import svg
from sequencer.sheets.axis import GAP
from sequencer.sheets.dimensions import across, upright
from sequencer.sheets.held import fallen, hands
from sequencer.sheets.placing import (
    FOOT,
    LEANS,
    ROW,
    TOP,
    TYPE,
    WIDTH,
    Frame,
    SawView,
    blade_top,
    block_wide,
    guide_wide,
    place,
)
from sequencer.sheets.section import Rect, Section
from sequencer.wording import Room, pictures


def setup_drawing(view: SawView, scale: Scale) -> str:
    """The picture, `WIDTH` points wide."""
    frame = place(view, scale)
    shapes = [
        *_carrier(view, frame, scale.room),
        *_piece(view, frame),
        *_blade(view, frame),
        *fallen(view, frame),
        *hands(view, frame, scale.room),
        *_marks(view, frame, scale.room),
        *across(view, frame, scale),
        *upright(view, frame, scale),
    ]
    foot = FOOT
    if view.near and not _beside_mark(view, scale.room):
        foot += LEANS
        shapes.append(svg.text(1, frame.table + foot - 6, view.near, TYPE))
    if view.leans:
        foot += LEANS
        leans = scale.room.text(pictures.LEANS, way=view.leans)
        shapes.append(svg.text(1, frame.table + foot - 6, leans, TYPE))
    if view.side == "left":
        shapes = svg.mirrored(shapes, WIDTH)
    return svg.drawing(WIDTH, frame.table + foot, shapes, _says(view, scale))


def _carrier(view: SawView, frame: Frame, room: Room) -> list[str]:
    """Table, deck, and fence, jig or stop with their names."""
    left = frame.x(view.section.across) - 6
    deck = frame.table - frame.deck_top
    shapes = []
    if view.deck:
        shapes.append(svg.rect(left, frame.deck_top, WIDTH - left - 1, deck, fill="#fff"))
        if deck > TYPE + 3 and not view.by_eye:
            name = room.text(pictures.DECK)
            shapes.append(svg.text(WIDTH - 6, frame.table - 4, name, TYPE, anchor="end"))
    shapes.append(svg.line(0, frame.table, WIDTH, frame.table, width=2))
    if view.by_eye:
        return shapes
    body = CARRIERS[view.setup.carrier].body
    foot = frame.table if body == "fence" else frame.deck_top
    tall = min(max(frame.vs.length + 6, Fraction(44)), foot - TOP + 4)
    if body == "sled":
        tall = min(tall, Fraction(44))
    names = [view.guide_name, room.text(pictures.FENCE)] if view.behind else [view.guide_name]
    x, block = frame.right, block_wide(view, frame)
    if block:
        shapes.append(svg.rect(x, foot - tall, block, tall, fill="#fff"))
    for name in names:
        wide = guide_wide(view) - block
        shapes.append(svg.rect(x + block, foot - tall, wide - 1, tall, fill=svg.METAL, stroke=2))
        words = name.split()
        for row, word in enumerate(words, 1 - len(words)):
            y = foot - 8 + row * (TYPE + 2)
            shapes.append(svg.text(x + block + wide / 2, y, word, TYPE, anchor="middle"))
        x, block = x + guide_wide(view), Fraction(0)
        foot, tall = frame.table, tall + frame.table - foot
    return shapes


def _piece(view: SawView, frame: Frame) -> list[str]:
    section = view.section
    left, top = frame.x(section.across), frame.y(section.upright)
    shapes = [
        svg.rect(left, top, frame.right - left, frame.deck_top - top, fill=svg.WOOD, stroke=0)
    ]
    goes_on = view.waste is not None and view.waste.what == "rest"
    fill = "#fff" if goes_on else svg.WASTE
    shapes += [_rect(frame, rect, fill=fill, dash="3 2") for rect in section.freed]
    for loose in section.loose:
        points = [(frame.x(u), frame.y(v)) for u, v in loose]
        shapes.append(svg.path(points, fill=fill, closed=True, dash="3 2"))
    for rect in section.gone:
        shapes.append(_rect(frame, rect, fill="#fff", stroke=0))
        shapes += _edges(frame, rect, section)
    shapes.append(svg.rect(left, top, frame.right - left, frame.deck_top - top, stroke=1))
    shapes += [_rect(frame, rect, fill="#fff", dash="4 3") for rect in view.again]
    for at in frame.us.breaks:
        shapes += _break_upright(frame.right - at - GAP, top, frame.deck_top)
    for at in frame.vs.breaks:
        shapes += _break_across(frame.deck_top - at - GAP, left, frame.right)
    return shapes


def _rect(
    frame: Frame, rect: Rect, *, fill: str = "none", stroke: svg.Number = 1, dash: str = ""
) -> str:
    (u0, u1), (v0, v1) = rect
    left, top = frame.x(u1), frame.y(v1)
    return svg.rect(
        left, top, frame.x(u0) - left, frame.y(v0) - top, fill=fill, stroke=stroke, dash=dash
    )


def _edges(frame: Frame, rect: Rect, section: Section) -> list[str]:
    """The outline that an earlier cut left, without the sides where it opens."""
    (u0, u1), (v0, v1) = rect
    sides = [
        (u0 > 0, (u0, v0, u0, v1)),
        (u1 < section.across, (u1, v0, u1, v1)),
        (v0 > 0, (u0, v0, u1, v0)),
        (v1 < section.upright, (u0, v1, u1, v1)),
    ]
    return [
        svg.line(frame.x(a), frame.y(b), frame.x(c), frame.y(d))
        for shown, (a, b, c, d) in sides
        if shown
    ]


def _break_upright(left: Fraction, top: Fraction, bottom: Fraction) -> list[str]:
    """A gap across the piece, its two edges drawn as break lines."""
    middle = (top + bottom) / 2
    shapes = [svg.rect(left, top - 2, GAP, bottom - top + 3, fill="#fff", stroke=0)]
    for x in (left, left + GAP):
        points = [(x, top - 3), (x, middle - 5), (x - 3, middle - 2), (x + 3, middle + 2)]
        shapes.append(svg.path([*points, (x, middle + 5), (x, bottom)]))
    return shapes


def _break_across(top: Fraction, left: Fraction, right: Fraction) -> list[str]:
    middle = (left + right) / 2
    shapes = [svg.rect(left - 2, top, right - left + 3, GAP, fill="#fff", stroke=0)]
    for y in (top, top + GAP):
        points = [(left - 3, y), (middle - 5, y), (middle - 2, y - 3), (middle + 2, y + 3)]
        shapes.append(svg.path([*points, (middle + 5, y), (right, y)]))
    return shapes


def _blade(view: SawView, frame: Frame) -> list[str]:
    """Black, from under the table to its height; in the wood it fills its kerf."""
    if view.section.lean:
        return [svg.path(_sheared(view, frame), fill=svg.INK, stroke=0, closed=True)]
    near, far = view.drawn_guide, view.drawn_guide + view.setup.kerf
    right = frame.x(near)
    left = right - view.setup.kerf * frame.scale
    top = blade_top(view, frame)
    shapes = [svg.rect(left, top, right - left, frame.table + 6 - top, fill=svg.INK, stroke=0)]
    if view.section.cut[0][0] < near:  # nibbled away pass by pass
        shapes.insert(0, _rect(frame, view.section.cut, fill="#fff", dash="2 2"))
    if frame.x(far) != left:
        shapes.append(svg.line(left, frame.table, left, frame.table, width=1))
    return shapes


def _sheared(view: SawView, frame: Frame) -> list[tuple[Fraction, Fraction]]:
    """The four corners of a leaning blade. The guide is measured at the deck; the kerf across."""
    under = -view.deck - 6 / frame.scale
    over = view.setup.height - view.deck
    near, far = view.drawn_guide, view.drawn_guide + view.setup.kerf
    lean = view.section.lean
    return [
        (frame.x(u - lean * v), frame.y(v))
        for u, v in ((near, under), (near, over), (far, over), (far, under))
    ]


def _beside_mark(view: SawView, room: Room) -> bool:
    """Whether the side that looks at the person is named beside the mark: there is room up to the
    name of the face, where that is under the piece's right side and not under its left."""
    if view.section.sides[1] == view.marked:
        return False
    mark, near = svg.text_width(view.mark, TYPE, bold=True), svg.text_width(view.near, TYPE)
    if view.section.sides[0] != view.marked:
        return mark + near + 12 < WIDTH
    face = svg.text_width(room.text(pictures.FACE), TYPE)
    free = WIDTH - face - guide_wide(view) * (2 if view.behind else 1)
    return mark + near + 16 < free


def _marks(view: SawView, frame: Frame, room: Room) -> list[str]:
    """A heavy line on the marked face, with its name where there is room; a wedge at the inside
    edge; under the table the piece's mark, and which side of it looks at the person."""
    section = view.section
    left, top = frame.x(section.across), frame.y(section.upright)
    right, bottom = frame.right, frame.deck_top
    corners = {
        0: (right - 1, top, right - 1, bottom),
        1: (left + 1, top, left + 1, bottom),
        2: (left, bottom - 1, right, bottom - 1),
        3: (left, top + 1, right, top + 1),
    }
    face = room.text(pictures.FACE)
    shapes = [svg.text(1, frame.table + ROW + 12, view.mark, TYPE, bold=True)]
    if _beside_mark(view, room):
        at = 9 + svg.text_width(view.mark, TYPE, bold=True)
        shapes.append(svg.text(at, frame.table + ROW + 12, view.near, TYPE))
    if view.marked in section.sides:
        side = section.sides.index(view.marked)
        shapes.append(svg.line(*corners[side], width=4))
        if side == 0:
            shapes.append(svg.text(right, frame.table + ROW + 12, face, TYPE, anchor="end"))
        elif side == 1:
            shapes.append(svg.text(left, frame.table + ROW + 12, face, TYPE))
        elif bottom - top > TYPE + 10:
            y = bottom - 7 if side == 2 else top + TYPE + 4
            shapes += _in_stretch(view, frame, y, face)
    if "inside-edge" in section.sides:
        shapes.append(_wedge(corners[section.sides.index("inside-edge")], left, right, top, bottom))
    return shapes


def _in_stretch(view: SawView, frame: Frame, y: Fraction, words: str) -> list[str]:
    """The words in the widest stretch of wood between cuts and breaks, if it takes them."""
    section = view.section
    cuts = [*(rect[0] for rect in section.gone), *(rect[0] for rect in view.again)]
    taken = [(frame.x(u1), frame.x(u0)) for u0, u1 in (section.cut[0], *cuts)]
    taken += [(frame.right - at - GAP, frame.right - at) for at in frame.us.breaks]
    edge = frame.x(section.across)
    best = (Fraction(0), edge)
    for low, high in [*sorted(taken), (frame.right, frame.right)]:
        best = max(best, (low - edge, edge), key=lambda stretch: stretch[0])
        edge = max(edge, high)
    if best[0] < svg.text_width(words, TYPE) + 8:
        return []
    return [svg.text(best[1] + best[0] / 2, y, words, TYPE, anchor="middle")]


def _wedge(
    side: tuple[Fraction, Fraction, Fraction, Fraction],
    left: Fraction,
    right: Fraction,
    top: Fraction,
    bottom: Fraction,
) -> str:
    x, y = (side[0] + side[2]) / 2, (side[1] + side[3]) / 2
    if side[0] == side[2]:
        y = top + (bottom - top) * Fraction(3, 4)
        inward = -9 if x > (left + right) / 2 else 9
        points = [(x, y), (x + inward, y - 5), (x + inward, y + 5)]
    else:
        x = left + (right - left) / 5
        inward = -9 if y > (top + bottom) / 2 else 9
        points = [(x, y), (x - 5, y + inward), (x + 5, y + inward)]
    return svg.path(points, fill=svg.INK, stroke=0, closed=True)


def _says(view: SawView, scale: Scale) -> str:
    number, height, room = view.setup.number, scale.told(view.setup.height_shown), scale.room
    if view.by_eye:
        said = room.text(pictures.SETUP_TRIMMED, number=number, height=height)
    else:
        said = room.text(
            pictures.SETUP,
            number=number,
            guide=view.guide_name,
            distance=scale.told(view.drawn_guide + view.setup.spacer + view.setup.off(view.knob)),
            height=height,
        )
    if view.hold is None:
        return said
    side = room.term(f"kerf.{view.hold.side or 'none'}")
    held = room.text(pictures.HELD, by=room.term(f"by.{view.hold.by}"), side=side)
    return f"{said}; {held}"
