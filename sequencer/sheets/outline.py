"""A piece drawn for itself: from the marked face, from the inside edge above it, and the profile at
an end."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction

from msgspec import Struct

from sequencer.instructions.figures import Scale
from sequencer.plan import Feature, Hand, Marked, Part, Span
from sequencer.records import replace
from sequencer.sheets import svg
from sequencer.sheets.axis import Axis, axis
from sequencer.sheets.stock import joint
from sequencer.wording import pictures

_TYPE = 11
_GAP = 16  # points between views
END = Fraction(96)
"""Points of the widest profile."""
_MOST = {"in": Fraction(38), "mm": Fraction(3, 2)}  # points a unit
_HIGH = Fraction(56)  # points, the face view's height

Polygon = tuple[tuple[Fraction, Fraction], ...]


def as_marked(part: Part, marked: Marked) -> Part:
    """The part with its thickness counted from the marked face, and of the hand that is seen on
    that: where it is the back, left and right change over."""
    if marked == "face":
        return part
    turned = tuple(feature.reflected(part.size, "z") for feature in part.features)
    inside: Hand = "left" if part.inside == "right" else "right"
    return replace(part, features=turned, inside=inside)


def piece_drawing(part: Part, scale: Scale, marked: Marked, width: Fraction) -> str:
    """Two views, `width` points wide at most: the marked face with end A to the left, and so the
    inside edge up or down as the piece's hand is; beside it the inside edge, folded over."""
    part = as_marked(part, marked)
    size, above = part.size, part.inside == "right"
    points = min(_MOST[scale.unit], _HIGH / size.width)
    needed = [_widened(feature.box[0]) for feature in part.features if _local(feature, part)]
    room = width - 2
    along = axis(size.length, room, points, needed)
    if along.length > room:  # features all along it: smaller, and whole
        points = min(points, room / size.length)
        along = axis(size.length, room, points, needed)
    across = Axis(((Fraction(0), size.width),), points)
    through = Axis(((Fraction(0), size.thickness),), points)
    thick = size.thickness * points
    wide_points = size.width * points
    ends = Fraction(_TYPE + 2)  # A and B, under the face view
    if above:
        top = Fraction(_TYPE + 4)
        low = top + thick + _GAP
        heavy, named, height = low, Fraction(_TYPE), low + wide_points + ends + 4
    else:
        low = Fraction(2)
        heavy, named = low + wide_points, low + wide_points + ends + _TYPE + 4
        top = named + 4
        height = top + thick + 4
    edge = _View(along, through, (0, 2), above, part, (Fraction(1), top))
    face = _View(along, across, (0, 1), not above, part, (Fraction(1), low))
    right = along.length + 1
    base = low + wide_points + ends
    edge_words = scale.room.text(pictures.FACE_BELOW if above else pictures.FACE_ABOVE)
    shapes = [
        *edge.shapes(),
        *face.shapes(),
        svg.text(1, named, edge_words, _TYPE),
        svg.text(1, base, "A", _TYPE, bold=True),
        svg.text(right, base, "B", _TYPE, anchor="end", bold=True),
        svg.line(1, heavy, right, heavy, width=3),
    ]
    full = max(right, svg.text_width(edge_words, _TYPE)) + 1
    kinds = dict.fromkeys(scale.room.term(joint(part, feature)) for feature in part.features)
    says = scale.room.text(pictures.PIECE_LACKS, name=part.name, kinds=tuple(kinds))
    return svg.drawing(full, height, shapes, says)


def end_drawing(part: Part, scale: Scale, marked: Marked) -> str:
    """The end seen from end A, larger, the inside edge to the left, and so the face down or up as
    the piece's hand is: as large as shows a bevel. A wide piece is broken in the middle."""
    view = _profile(as_marked(part, marked), scale)
    top, long, said = view.at[1], view.rightward.length, scale.room.text(pictures.FROM_END_A)
    base = top + view.downward.length if view.over else top
    shapes = [
        *view.shapes(),
        svg.line(1, base, 1 + long, base, width=3),
        svg.text(1, _TYPE, said, _TYPE),
    ]
    wide = max(long, svg.text_width(said, _TYPE)) + 2
    return svg.drawing(wide, top + view.downward.length + 4, shapes, said)


def _widened(span: Span) -> Span:
    margin = (span[1] - span[0]) / 8
    return (span[0] - margin, span[1] + margin)


def _local(feature: Feature, part: Part) -> bool:
    """Whether it takes up a stretch of the length only."""
    return feature.box[0] != (Fraction(0), part.size.length)


class _View(Struct, frozen=True):
    """A piece seen along one axis: `shown` are the axes drawn to the right and down, the second
    turned `over` where its nought lies at the bottom; `at` is the upper left corner in points."""

    rightward: Axis
    downward: Axis
    shown: tuple[int, int]
    over: bool
    part: Part
    at: tuple[svg.Number, svg.Number]

    @property
    def looked_along(self) -> int:
        return 3 - sum(self.shown)

    def place(self, corner: tuple[Fraction, Fraction]) -> tuple[Fraction, Fraction]:
        across = self.downward.at(corner[1])
        if self.over:
            across = self.downward.length - across
        return self.at[0] + self.rightward.at(corner[0]), self.at[1] + across

    def shapes(self) -> list[str]:
        extents = (self.part.size.length, self.part.size.width, self.part.size.thickness)
        whole = _rectangle(
            (Fraction(0), extents[self.shown[0]]), (Fraction(0), extents[self.shown[1]])
        )
        deep = extents[self.looked_along]
        gone: list[Polygon] = []
        opened: list[Feature] = []
        hidden: list[Feature] = []
        for feature in self.part.features:
            low, high = feature.box[self.looked_along]
            if self._slants(feature):
                (opened if low <= 0 else hidden).append(feature)
            elif low <= 0 and high >= deep:
                gone.append(self._shape(feature))
            else:
                (opened if low <= 0 else hidden).append(feature)
        shapes = [svg.path([self.place(c) for c in whole], fill=svg.WOOD, closed=True)]
        shapes += [
            svg.path([self.place(c) for c in self._shape(f)], dash="3 2", closed=True)
            for f in hidden
        ]
        shapes += [
            svg.path([self.place(c) for c in self._shape(f)], fill="#f6f6f6", closed=True)
            for f in opened
        ]
        shapes += [
            svg.path([self.place(c) for c in p], fill="#fff", stroke=0, closed=True) for p in gone
        ]
        shapes += self._outlines(whole, gone)
        for at in self.rightward.breaks:
            x, y = self.at[0] + at, self.at[1]
            high = self.downward.length
            shapes.append(svg.rect(x, y - 2, 12, high + 4, fill="#fff", stroke=0))
            shapes += [
                svg.line(x + side, y - 3, x + side, y + high + 3, dash="5 2 1 2")
                for side in (0, 12)
            ]
        return shapes

    def _slants(self, feature: Feature) -> bool:
        """Whether its form shows in another view only."""
        names = "".join("xyz"[n] for n in self.shown)
        return feature.prism is not None and feature.prism.axes != names

    def _shape(self, feature: Feature) -> Polygon:
        names = "".join("xyz"[n] for n in self.shown)
        if feature.prism is not None and feature.prism.axes == names:
            return feature.prism.corners
        return _rectangle(feature.box[self.shown[0]], feature.box[self.shown[1]])

    def _outlines(self, whole: Polygon, gone: Sequence[Polygon]) -> list[str]:
        """The sides of what is gone: not where it opens to the outside, nor between two of them."""
        lines = []
        (left, top), (right, bottom) = whole[0], whole[2]
        for polygon in gone:
            for one, other in zip(polygon, (*polygon[1:], polygon[0]), strict=True):
                ends = (self.place(one), self.place(other))
                open_x = one[0] == other[0] and one[0] in (left, right)
                open_y = one[1] == other[1] and one[1] in (top, bottom)
                middle = ((one[0] + other[0]) / 2, (one[1] + other[1]) / 2)
                if open_x or open_y:
                    lines.append(_between(ends, "#fff", 3))
                elif not any(_within(middle, each) for each in gone if each is not polygon):
                    lines.append(_between(ends, svg.INK, 1))
        return lines


def _between(ends: Sequence[tuple[Fraction, Fraction]], ink: str, width: int) -> str:
    (x1, y1), (x2, y2) = ends
    return (
        f'<line x1="{svg.number(x1)}" y1="{svg.number(y1)}" x2="{svg.number(x2)}"'
        f' y2="{svg.number(y2)}" stroke="{ink}" stroke-width="{width}"/>'
    )


def _rectangle(across: Span, down: Span) -> Polygon:
    return (
        (across[0], down[0]),
        (across[1], down[0]),
        (across[1], down[1]),
        (across[0], down[1]),
    )


def _within(point: tuple[Fraction, Fraction], polygon: Polygon) -> bool:
    """Whether the point lies in the polygon or on its sides."""
    x, y = point
    inside = False
    for (x1, y1), (x2, y2) in zip(polygon, (*polygon[1:], polygon[0]), strict=True):
        cross = (x2 - x1) * (y - y1) - (y2 - y1) * (x - x1)
        between = min(x1, x2) <= x <= max(x1, x2) and min(y1, y2) <= y <= max(y1, y2)
        if cross == 0 and between:
            return True
        if (y1 > y) != (y2 > y) and x < (x2 - x1) * (y - y1) / (y2 - y1) + x1:
            inside = not inside
    return inside


def _profile(part: Part, scale: Scale) -> _View:
    size = part.size
    points = min(2 * _MOST[scale.unit], Fraction(36) / size.thickness)
    ends = [f.box[1] for f in part.features if not _local(f, part)]
    across = axis(size.width, END, points, [_widened(span) for span in ends])
    through = Axis(((Fraction(0), size.thickness),), points)
    along = [f for f in part.features if not _local(f, part)]
    seen = replace(part, features=tuple(along))
    down = part.inside != "right"
    return _View(across, through, (1, 2), down, seen, (Fraction(1), Fraction(_TYPE + 4)))
