"""What a piece looks like at the blade: its outline seen along the feed, cut by cut.

Seen by the person who stands before the saw; `u` runs from the guiding surface toward the blade,
`v` upward from what the piece stands on. Only what goes right through the piece along the feed is
followed: that is what shows in such a view. It is a drawing, not a proof: a piece is never judged
by it.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from fractions import Fraction

from msgspec import Struct

from sequencer.job.schema import Side
from sequencer.plan import Box, Cut, Hand, Setup, Size, Span
from sequencer.saw.fittings import CARRIERS

Rect = tuple[Span, Span]
"""A u-range and a v-range."""

Outline = tuple[tuple[Fraction, Fraction], ...]
"""Corners (u, v) of a polygon."""

AXIS = {
    "end-A": 0,
    "end-B": 0,
    "inside-edge": 1,
    "outside-edge": 1,
    "face": 2,
    "back": 2,
}
_LOW = frozenset({"end-A", "inside-edge", "face"})
_OPPOSITE = {
    "end-A": "end-B",
    "end-B": "end-A",
    "inside-edge": "outside-edge",
    "outside-edge": "inside-edge",
    "face": "back",
    "back": "face",
}
ZERO = Fraction(0)


class Section(Struct, frozen=True):
    """A piece at the blade. `across` and `upright` are its extents, `cut` what this pass removes,
    `gone` what earlier passes removed, `freed` what falls off now. `sides` names the surfaces
    that look right, left, down and up. `feed` is the axis (0, 1, 2) along which it is pushed. A
    blade that leans by `lean` in one unit of height, toward the guide where positive, cuts `cut`
    sheared; `loose` is what falls off then."""

    across: Fraction
    upright: Fraction
    cut: Rect
    gone: tuple[Rect, ...]
    freed: tuple[Rect, ...]
    sides: tuple[str, str, str, str]
    feed: int
    lean: Fraction = ZERO
    loose: tuple[Outline, ...] = ()


def toward(cut: Cut, inside: Hand, side: Side) -> str:
    """The surface of a piece, of the hand `inside`, that looks at the person, when the guiding
    surface stands on that `side` of the blade."""
    right, up = _looks(cut.against or "end-A"), _looks(_OPPOSITE[cut.down])
    axis = 3 - right[0] - up[0]
    even = (right[0], up[0], axis) in ((0, 1, 2), (1, 2, 0), (2, 0, 1))
    sign = right[1] * up[1] * (1 if even else -1)
    # Right and up make a right-handed frame with what looks at the person; so do the marks of a
    # piece whose inside edge is right.
    if (inside == "left") != (side == "left"):
        sign = -sign
    return next(name for name in AXIS if _looks(name) == (axis, sign))


def _looks(surface: str) -> tuple[int, int]:
    return AXIS[surface], -1 if surface in _LOW else 1


def extents(size: Size) -> tuple[Fraction, Fraction, Fraction]:
    return size.length, size.width, size.thickness


def section(
    size: Size, gone: Iterable[Box], setup: Setup, cut: Cut, guide: Fraction
) -> tuple[Section, tuple[Box, ...]]:
    """The piece of `size` that lacks `gone`, at this pass, and what the pass takes from it: the
    kerf and what it frees, as boxes in the piece's frame. What a leaning blade or the mitre sled
    takes is no box: it is not followed further."""
    spans = extents(size)
    against = cut.against or "end-A"
    u_axis, v_axis = AXIS[against], AXIS[cut.down]
    feed = 3 - u_axis - v_axis
    across, upright = spans[u_axis], spans[v_axis]
    near = guide
    if cut.sweep:
        near = ZERO if cut.back is None else guide + setup.kerf - cut.back
    kerf = ((near, min(guide + setup.kerf, across)), (ZERO, min(setup.depth, upright)))
    rects = tuple(
        seen_as(box, cut, size) for box in gone if box[feed][0] <= 0 and box[feed][1] >= spans[feed]
    )
    sides = (against, _OPPOSITE[against], str(cut.down), _OPPOSITE[cut.down])
    if CARRIERS[setup.carrier].slanted:
        return Section(across, upright, kerf, rects, (), sides, feed), ()
    if setup.tilt:
        loose = _loose(across, kerf, rects, setup.tilt, cut.keeps)
        found = Section(across, upright, kerf, rects, (), sides, feed, setup.tilt, loose)
        return found, ()
    freed = _freed(across, upright, (*rects, kerf), cut.keeps, guide)
    taken = []
    for u, v in (kerf, *freed):
        box: list[Span] = [(ZERO, spans[feed])] * 3
        box[u_axis] = _turned(u, across, against)
        box[v_axis] = _turned(v, upright, cut.down)
        taken.append((box[0], box[1], box[2]))
    return Section(across, upright, kerf, rects, freed, sides, feed), tuple(taken)


def _loose(
    across: Fraction, kerf: Rect, gone: Sequence[Rect], lean: Fraction, keeps: str | None
) -> tuple[Outline, ...]:
    """What a leaning blade frees on its open side: up to where it comes out of the piece, or to an
    earlier cut that comes in from there. Nothing where neither is."""
    far, depth = kerf[0][1], kerf[1][1]

    def at(v: Fraction) -> Fraction:
        return far - lean * v

    if keeps == "far" or far >= across:
        return ()
    meets = [v[0] for u, v in gone if u[1] >= across and 0 < v[0] <= depth and u[0] <= at(v[0])]
    if lean < 0 and at(depth) >= across:
        meets.append((far - across) / lean)
    if not meets:
        return ()
    top = min(meets)
    corners = ((far, ZERO), (across, ZERO), (across, top), (min(at(top), across), top))
    return (corners if corners[2] != corners[3] else corners[:3],)


def seen_as(box: Box, cut: Cut, size: Size) -> Rect:
    """A box of the piece's frame in the view of `cut`."""
    spans = extents(size)
    against = cut.against or "end-A"
    u_axis, v_axis = AXIS[against], AXIS[cut.down]
    return (
        _turned(box[u_axis], spans[u_axis], against),
        _turned(box[v_axis], spans[v_axis], cut.down),
    )


def _turned(span: Span, extent: Fraction, surface: str) -> Span:
    return span if surface in _LOW else (extent - span[1], extent - span[0])


def _freed(
    across: Fraction, upright: Fraction, missing: Sequence[Rect], keeps: str | None, guide: Fraction
) -> tuple[Rect, ...]:
    """The rectangles of what no longer hangs together with the piece."""
    us = _lines(across, [r[0] for r in missing])
    vs = _lines(upright, [r[1] for r in missing])
    wood = {
        (i, j)
        for i in range(len(us) - 1)
        for j in range(len(vs) - 1)
        if not any(
            u[0] <= us[i] and us[i + 1] <= u[1] and v[0] <= vs[j] and vs[j + 1] <= v[1]
            for u, v in missing
        )
    }
    lumps = _lumps(wood)
    if len(lumps) < 2:
        return ()

    def weight(lump: Sequence[tuple[int, int]]) -> Fraction:
        return sum(((us[i + 1] - us[i]) * (vs[j + 1] - vs[j]) for i, j in lump), ZERO)

    kept = max(lumps, key=weight)
    if keeps == "guide":
        kept = max((x for x in lumps if us[x[0][0]] < guide), key=weight, default=kept)
    elif keeps == "far":
        kept = max((x for x in lumps if us[x[0][0]] >= guide), key=weight, default=kept)
    return tuple(
        ((us[i], us[i + 1]), (vs[j], vs[j + 1])) for x in lumps if x is not kept for i, j in x
    )


def _lines(extent: Fraction, spans: Iterable[Span]) -> list[Fraction]:
    inner = {edge for span in spans for edge in span if 0 < edge < extent}
    return [ZERO, *sorted(inner), extent]


def _lumps(wood: set[tuple[int, int]]) -> list[list[tuple[int, int]]]:
    """Cells that hang together, each lump sorted, lumps by their first cell."""
    lumps = []
    left = set(wood)
    for start in sorted(wood):
        if start not in left:
            continue
        left.remove(start)
        lump, edge = [], [start]
        while edge:
            i, j = edge.pop()
            lump.append((i, j))
            for cell in ((i - 1, j), (i + 1, j), (i, j - 1), (i, j + 1)):
                if cell in left:
                    left.remove(cell)
                    edge.append(cell)
        lumps.append(sorted(lump))
    return lumps
