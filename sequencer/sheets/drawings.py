"""The picture of one setup: blade, carrier and piece to proportion, as the person at the saw
sees them. The guiding surface stands to the right of the blade, distances grow to the left.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from sequencer.plan import Setup
from sequencer.sheets import svg
from sequencer.sheets.axis import END, GAP, Axis, axis
from sequencer.sheets.figures import Figure, Scale
from sequencer.sheets.section import Rect, Section

WIDTH = Fraction(308)
LOW, HIGH = Fraction(150), Fraction(228)
"""Heights of the picture: a piece that lies, a piece that stands."""

TYPE = 13
"""Points; the floor for what is read at the saw."""

_TOP = 38  # two rows of dimensions above the piece
_FOOT = 22  # under the table
_GUIDE = 46  # fence, jig or stop, with its name inside
_COLUMN = 58  # a vertical dimension with its words
_MOST = {"in": Fraction(84), "mm": Fraction(84 * 5, 127)}  # points a unit
_CLEAR = Fraction(5)  # points a kerf must take to be seen
_THIN = Fraction(1, 2)
_MARGIN = 16  # points drawn round a cut where the piece is broken


@dataclass(frozen=True, slots=True)
class SawView:
    """What one picture shows. Where an end is squared `by_eye` there is no guide: `drawn_guide` is
    where the kerf is drawn then. `again` is the pass after turning the piece round, in the
    first pass's view."""

    setup: Setup
    section: Section
    again: tuple[Rect, ...]
    by_eye: bool
    drawn_guide: Fraction
    deck: Fraction
    guide_name: str
    mark: str
    behind: Fraction
    """Thickness of a jig between fence and piece, 0 where there is none."""


@dataclass(frozen=True, slots=True)
class _Frame:
    """Where things lie: `right` is the guiding surface, `table` and `deck_top` are their tops."""

    us: Axis
    vs: Axis
    right: Fraction
    table: Fraction
    deck_top: Fraction
    scale: Fraction

    def x(self, u: Fraction) -> Fraction:
        return self.right - self.us.at(u)

    def y(self, v: Fraction) -> Fraction:
        return self.deck_top - self.vs.at(v)


def setup_drawing(view: SawView, scale: Scale) -> str:
    """The picture, `WIDTH` points wide."""
    frame = _frame(view, scale)
    shapes = [
        *_carrier(view, frame),
        *_piece(view, frame),
        *_blade(view, frame),
        *_marks(view, frame),
        *_across(view, frame, scale),
        *_upright(view, frame, scale),
    ]
    return svg.drawing(WIDTH, frame.table + _FOOT, shapes, _says(view, scale))


def _frame(view: SawView, scale: Scale) -> _Frame:
    setup, section = view.setup, view.section
    columns = 2 if _two_depths(view) else 1
    room_u = WIDTH - _GUIDE - columns * _COLUMN - 16
    if view.behind:
        room_u -= _GUIDE
    lies = section.sides[2] in ("face", "back")
    table = (LOW if lies else HIGH) - _FOOT
    room_v = table - _TOP
    whole = min(room_u / section.across, room_v / max(setup.height, view.deck + section.upright))
    if whole * setup.kerf >= _CLEAR:
        drawn = min(whole, _MOST[scale.unit])
    else:
        tall = room_v / max(setup.height, view.deck + section.upright)
        if not lies:
            tall = (room_v - _MARGIN - GAP - END) / setup.height
        wide = (room_u - 3 * _MARGIN - 2 * GAP - END) / setup.kerf
        drawn = min(tall, wide, _MOST[scale.unit] * Fraction(3, 4))
    margin = Fraction(_MARGIN) / drawn
    near, far = section.cut[0]
    around = [(near - margin, near), (near, far + margin), *(rect[0] for rect in view.again)]
    us = axis(section.across, room_u, drawn, around)
    depth = min(setup.depth, section.upright)
    needed = [(Fraction(0), depth + margin)]
    vs = axis(section.upright, room_v - view.deck * drawn, drawn, needed)
    right = WIDTH - _GUIDE - (_GUIDE if view.behind else 0)
    return _Frame(us, vs, right, table, table - view.deck * drawn, drawn)


def _two_depths(view: SawView) -> bool:
    """Whether a deck makes the depth of cut differ from the height above the table."""
    return view.deck > 0 and view.setup.depth < view.section.upright


def _carrier(view: SawView, frame: _Frame) -> list[str]:
    """Table, deck, and fence, jig or stop with their names."""
    left = frame.x(view.section.across) - 6
    deck = frame.table - frame.deck_top
    shapes = []
    if view.deck:
        shapes.append(svg.rect(left, frame.deck_top, WIDTH - left - 1, deck, fill="#fff"))
        if deck > TYPE + 3 and not view.by_eye:
            shapes.append(svg.text(WIDTH - 6, frame.table - 4, "deck", TYPE, anchor="end"))
    shapes.append(svg.line(0, frame.table, WIDTH, frame.table, width=2))
    if view.by_eye:
        return shapes
    foot = frame.table if view.guide_name == "fence" else frame.deck_top
    tall = min(max(frame.vs.length + 6, Fraction(44)), foot - _TOP + 4)
    if view.guide_name == "stop":
        tall = min(tall, Fraction(44))
    names = [view.guide_name, "fence"] if view.behind else [view.guide_name]
    x = frame.right
    for name in names:
        shapes.append(svg.rect(x, foot - tall, _GUIDE - 1, tall, fill=svg.METAL, stroke=2))
        shapes.append(svg.text(x + Fraction(_GUIDE, 2), foot - 8, name, TYPE, anchor="middle"))
        x += _GUIDE
        foot, tall = frame.table, tall + frame.table - foot
    return shapes


def _piece(view: SawView, frame: _Frame) -> list[str]:
    section = view.section
    left, top = frame.x(section.across), frame.y(section.upright)
    shapes = [
        svg.rect(left, top, frame.right - left, frame.deck_top - top, fill=svg.WOOD, stroke=0)
    ]
    shapes += [_rect(frame, rect, fill="#fff", dash="3 2") for rect in section.freed]
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
    frame: _Frame, rect: Rect, *, fill: str = "none", stroke: svg.Number = 1, dash: str = ""
) -> str:
    (u0, u1), (v0, v1) = rect
    left, top = frame.x(u1), frame.y(v1)
    return svg.rect(
        left, top, frame.x(u0) - left, frame.y(v0) - top, fill=fill, stroke=stroke, dash=dash
    )


def _edges(frame: _Frame, rect: Rect, section: Section) -> list[str]:
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


def _blade(view: SawView, frame: _Frame) -> list[str]:
    """Black, from under the table to its height; in the wood it fills its kerf."""
    near, far = view.drawn_guide, view.drawn_guide + view.setup.kerf
    right = frame.x(near)
    left = right - view.setup.kerf * frame.scale
    top = _height_y(view, frame)
    shapes = [svg.rect(left, top, right - left, frame.table + 6 - top, fill=svg.INK, stroke=0)]
    if view.section.cut[0][0] < near:  # nibbled away pass by pass
        shapes.insert(0, _rect(frame, view.section.cut, fill="#fff", dash="2 2"))
    if frame.x(far) != left:
        shapes.append(svg.line(left, frame.table, left, frame.table, width=1))
    return shapes


def _height_y(view: SawView, frame: _Frame) -> Fraction:
    """The blade's top: at its true place beside the piece, also where the piece is broken."""
    over = view.setup.height - view.deck
    if over <= view.section.upright:
        return frame.y(over)
    return frame.y(view.section.upright) - (over - view.section.upright) * frame.scale


def _marks(view: SawView, frame: _Frame) -> list[str]:
    """A heavy line on the marked face, with its name where there is room; a wedge at the inside
    edge; the piece's mark under the table."""
    section = view.section
    left, top = frame.x(section.across), frame.y(section.upright)
    right, bottom = frame.right, frame.deck_top
    corners = {
        0: (right - 1, top, right - 1, bottom),
        1: (left + 1, top, left + 1, bottom),
        2: (left, bottom - 1, right, bottom - 1),
        3: (left, top + 1, right, top + 1),
    }
    shapes = [svg.text(1, frame.table + 17, view.mark, TYPE, bold=True)]
    if "face" in section.sides:
        side = section.sides.index("face")
        shapes.append(svg.line(*corners[side], width=4))
        if side == 0:
            shapes.append(svg.text(right, frame.table + 18, "face", TYPE, anchor="end"))
        elif side == 1:
            shapes.append(svg.text(left, frame.table + 18, "face", TYPE))
        elif bottom - top > TYPE + 10:
            y = bottom - 7 if side == 2 else top + TYPE + 4
            shapes += _in_stretch(view, frame, y, "face")
    if "inside-edge" in section.sides:
        shapes.append(_wedge(corners[section.sides.index("inside-edge")], left, right, top, bottom))
    return shapes


def _in_stretch(view: SawView, frame: _Frame, y: Fraction, words: str) -> list[str]:
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


def _across(view: SawView, frame: _Frame, scale: Scale) -> list[str]:
    """Guide and kerf, above the piece."""
    near = frame.x(view.drawn_guide)
    far = near - view.setup.kerf * frame.scale
    top = _height_y(view, frame)
    row = 32
    kerf = [
        svg.line(far, row - 9, far, top, width=_THIN),
        svg.line(near, row - 9, near, top, width=_THIN),
        svg.arrow(far - 12, row - 5, far, row - 5),
        svg.arrow(near + 12, row - 5, near, row - 5),
        svg.text(far - 15, row, f"kerf {scale.text(view.setup.kerf)}", TYPE, anchor="end"),
    ]
    return kerf if view.by_eye else [*_guide_dimension(view, frame, scale, near), *kerf]


def _guide_dimension(view: SawView, frame: _Frame, scale: Scale, near: Fraction) -> list[str]:
    """From the guiding surface to the near side of the kerf: the words between the arrows where
    they go, else to the left of them; the decimal alone where both would not go."""
    right, row = frame.right, 13
    top = _height_y(view, frame)
    ends = [
        svg.line(right, row - 9, right, frame.y(view.section.upright), width=_THIN),
        svg.line(near, row - 9, near, top, width=_THIN),
    ]
    figure = scale.figure(view.drawn_guide)
    choices = [f"guide {figure.text}", f"guide {figure.decimal or figure.plain}"]
    inside = [words for words in choices if svg.text_width(words, TYPE) + 24 < right - near]
    if inside:
        middle, half = (right + near) / 2, svg.text_width(inside[0], TYPE) / 2
        return [
            *ends,
            svg.arrow(middle - half, row - 5, near, row - 5),
            svg.arrow(middle + half, row - 5, right, row - 5),
            svg.text(middle, row, inside[0], TYPE, anchor="middle"),
        ]
    beside = [words for words in choices if svg.text_width(words, TYPE) < near - 15]
    return [
        *ends,
        svg.arrow(near - 12, row - 5, near, row - 5),
        svg.arrow(right + 12, row - 5, right, row - 5),
        svg.text(near - 15, row, (beside or choices[1:])[0], TYPE, anchor="end"),
    ]


def _upright(view: SawView, frame: _Frame, scale: Scale) -> list[str]:
    """Height above the table, and depth above the deck where the two differ."""
    top = _height_y(view, frame)
    blade = frame.x(view.drawn_guide) - view.setup.kerf * frame.scale
    x = frame.x(view.section.across) - 14
    depth: list[str] = []
    if _two_depths(view):
        depth = _tall(x, top, frame.deck_top, frame.table, "depth", scale.figure(view.setup.depth))
        x -= _COLUMN
    height = scale.figure(view.setup.height)
    level = svg.line(x - 4, top, blade, top, width=_THIN, dash="5 3")
    return [level, *depth, *_tall(x, top, frame.table, frame.table, "height", height)]


def _tall(
    x: Fraction, top: Fraction, bottom: Fraction, table: Fraction, name: str, value: Figure
) -> list[str]:
    """A dimension line with its words to the left, a line of text for each."""
    said = [name, value.plain] + ([f"({value.decimal})"] if value.decimal else [])
    wide = max(svg.text_width(each, TYPE) for each in said)
    high = (TYPE + 1) * len(said)
    middle = (top + bottom) / 2
    first = max(middle - Fraction(high, 2), Fraction(_TOP))
    first = min(first, table - high - 3)
    if bottom - top > 12:
        shapes = [svg.arrow(x, middle, x, top), svg.arrow(x, middle, x, bottom)]
    else:
        shapes = [svg.line(x, top, x, bottom), svg.arrow(x, top - 12, x, top)]
    right = max(wide, x - 5)
    for row, each in enumerate(said):
        base = first + (TYPE + 1) * (row + 1) - 2
        shapes.append(svg.text(right, base, each, TYPE, anchor="end"))
    return [svg.rect(right - wide, first, wide, high, fill="#fff", stroke=0), *shapes]


def _says(view: SawView, scale: Scale) -> str:
    guide = scale.length(view.drawn_guide)
    where = "by eye" if view.by_eye else f"{view.guide_name} to blade {guide}"
    return f"Setup {view.setup.number}: {where}, blade {scale.length(view.setup.height)} high"
