"""Hands and waste in a setup's picture. A row under the table shows what holds the piece, on the
side that it holds, and hatched how near to the blade no hand may come; in the piece what comes
loose is dark, with an arrow to where it falls.
"""

from __future__ import annotations

from fractions import Fraction

from sequencer.sheets import svg
from sequencer.sheets.placing import ROW, TYPE, WIDTH, Frame, SawView
from sequencer.wording import Room, pictures

_HIGH = ROW - 2
_SIGN = 15  # points that a sign takes before its word
_WIDE = 24  # points of waste that take an arrow inside

_HAND = (
    (2, 12), (2, 8), (0, 6), (1, 5), (3, 7), (3, 2), (4, 1), (5, 2), (5, 5), (5, 1), (6, 0), (7, 1),
    (7, 5), (7, 2), (8, 1), (9, 2), (9, 6), (9, 4), (10, 3), (11, 4), (11, 9), (9, 12),
)  # fmt: skip
"""The outline of a hand from above, 12 points high."""


def hands(view: SawView, frame: Frame, room: Room) -> list[str]:
    """The row under the table; nothing where the plan does not tell."""
    hold = view.hold
    if hold is None:
        return []
    top = frame.table + 2
    far, near = (view.drawn_guide + view.setup.kerf, view.drawn_guide)
    low = max(Fraction(1), frame.x(far + view.clear))
    high = min(WIDTH - 1, frame.x(near - view.clear))
    blade = (frame.x(near) + frame.x(far)) / 2
    shapes = _zone(low, high, top)
    word = room.term(f"by.{hold.by}")
    if hold.side is None:
        word = room.text(pictures.ABOVE, by=word)
    signed = hold.by if hold.by in ("hand", "clamp") else ""
    wide = svg.text_width(word, TYPE, bold=True) + (_SIGN if signed else 0) + 6
    left = Fraction(1)
    if hold.side == "guide":
        left = (frame.right if frame.right - frame.x(near) > wide else WIDTH - 1) - wide
    shapes += _labelled(left, top, wide, word, signed)
    none = room.text(pictures.NO_HANDS)
    taken = svg.text_width(none, TYPE) + 6
    # Nearest to the blade, inside the hatched part and beside the other word.
    first, last = max(low, left + wide + 2), high
    if (low + high) / 2 < left:
        first, last = low, min(high, left - 2)
    if last - first >= taken:
        at = min(max(blade - taken / 2, first), last - taken)
        shapes += _labelled(at, top, taken, none)
    return shapes


def all_round(blade: Fraction, clear: Fraction, top: Fraction, room: Room) -> list[str]:
    """The hatched row alone, to both sides of the blade's middle."""
    low, high = max(Fraction(1), blade - clear), min(WIDTH - 1, blade + clear)
    none = room.text(pictures.NO_HANDS)
    taken = svg.text_width(none, TYPE) + 6
    return [*_zone(low, high, top), *_labelled(blade - taken / 2, top, taken, none)]


def _zone(low: Fraction, high: Fraction, top: Fraction) -> list[str]:
    return [
        svg.hatch(low, top, high - low, _HIGH),
        svg.rect(low, top, high - low, _HIGH, stroke=Fraction(1, 2)),
    ]


def _labelled(
    left: Fraction, top: Fraction, wide: Fraction, word: str, signed: str = ""
) -> list[str]:
    shapes = [svg.rect(left, top, wide, _HIGH, fill="#fff", stroke=1 if signed else 0)]
    at = left + 3
    if signed:
        shapes += sign(left + 2, top + 1, signed)
        at += _SIGN
    return [*shapes, svg.text(at, top + _HIGH - 2, word, TYPE, bold=bool(signed))]


def sign(x: Fraction, y: Fraction, by: str) -> list[str]:
    """A hand, or a clamp, 12 points high."""
    if by == "hand":
        points = [(x + right, y + down) for right, down in _HAND]
        return [svg.path(points, fill=svg.INK, stroke=0, closed=True)]
    frame = [(x + 11, y + 1), (x + 1, y + 1), (x + 1, y + 11), (x + 11, y + 11)]
    return [svg.path(frame, stroke=2), svg.line(x + 9, y + 11, x + 9, y + 4, width=3)]


def fallen(view: SawView, frame: Frame) -> list[str]:
    """The arrow from what comes loose to where it falls: away from the blade."""
    section = view.section
    corners = [corner for outline in section.loose for corner in outline]
    corners += [(u, v) for us, vs in section.freed for u in us for v in vs]
    if view.waste is None or view.waste.side is None or not corners:
        return []
    across = [frame.x(u) for u, _ in corners]
    left, right = min(across), max(across)
    foot, top = frame.y(min(v for _, v in corners)), frame.y(max(v for _, v in corners))
    y = foot - (foot - top) / 4  # below where a break is drawn
    sign = -1 if view.waste.side == "open" else 1
    if right - left > _WIDE:
        middle = (left + right) / 2
        return [svg.arrow(middle - sign * 9, y, middle + sign * 9, y, size=7)]
    edge = left if sign < 0 else right
    return [svg.arrow(edge - sign * 2, y, edge + sign * 11, y, size=7)]
