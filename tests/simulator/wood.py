"""Wood as boxes that share no volume, in whole grains: cut, fallen apart, and what of it touches.

A box is (x from, x to, y from, y to, z from, z to): x along the piece from end A, y across it from
the inside edge, z through it from the show face.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence

Box = tuple[int, int, int, int, int, int]
Wood = tuple[Box, ...]
Span = tuple[int, int]
Rectangle = tuple[Span, Span]

X, Y, Z = 0, 1, 2

SIDES = {
    "end-A": (X, 0),
    "end-B": (X, 1),
    "inside-edge": (Y, 0),
    "outside-edge": (Y, 1),
    "face": (Z, 0),
    "back": (Z, 1),
}
"""The axis that a side of a piece lies across, and whether it is where that begins or ends."""


def hull(wood: Wood) -> Box:
    """The least box round it. Raises `ValueError` where there is none.

    >>> hull(((0, 2, 0, 1, 0, 1), (2, 3, 0, 4, 0, 1)))
    (0, 3, 0, 4, 0, 1)
    """
    lows = [min(box[n] for box in wood) for n in (0, 2, 4)]
    highs = [max(box[n] for box in wood) for n in (1, 3, 5)]
    return (lows[0], highs[0], lows[1], highs[1], lows[2], highs[2])


def meet(one: Box, other: Box) -> Box | None:
    """What two boxes share; `None` where that has no volume."""
    x0, x1 = max(one[0], other[0]), min(one[1], other[1])
    y0, y1 = max(one[2], other[2]), min(one[3], other[3])
    z0, z1 = max(one[4], other[4]), min(one[5], other[5])
    return (x0, x1, y0, y1, z0, z1) if x0 < x1 and y0 < y1 and z0 < z1 else None


def without(wood: Wood, taken: Iterable[Box]) -> Wood:
    """What is left once the boxes are taken away.

    >>> without(((0, 9, 0, 1, 0, 1),), [(3, 5, 0, 1, 0, 1)])
    ((0, 3, 0, 1, 0, 1), (5, 9, 0, 1, 0, 1))
    """
    left = list(wood)
    for box in taken:
        rest: list[Box] = []
        for each in left:
            shared = meet(each, box)
            rest.extend([each] if shared is None else _round(each, shared))
        left = rest
    return tuple(left)


def _round(whole: Box, hole: Box) -> Iterable[Box]:
    """The whole less a box that lies in it."""
    rest = list(whole)
    for low, high in ((0, 1), (2, 3), (4, 5)):
        if rest[low] < hole[low]:
            yield _with(rest, high, hole[low])
        if hole[high] < rest[high]:
            yield _with(rest, low, hole[high])
        rest[low], rest[high] = hole[low], hole[high]


def _with(box: Sequence[int], at: int, value: int) -> Box:
    changed = [*box[:at], value, *box[at + 1 :]]
    return (changed[0], changed[1], changed[2], changed[3], changed[4], changed[5])


def merged(wood: Wood) -> Wood:
    """The same space in fewer boxes: those that share a whole side are one.

    >>> merged(((0, 1, 0, 1, 0, 1), (1, 2, 0, 1, 0, 1), (0, 2, 1, 3, 0, 1)))
    ((0, 2, 0, 3, 0, 1),)
    """
    for low in (0, 2, 4):
        rows: dict[Box, list[Span]] = {}
        for box in wood:
            rows.setdefault(_spanned(box, low, (0, 0)), []).append((box[low], box[low + 1]))
        wood = tuple(
            _spanned(row, low, span) for row, spans in rows.items() for span in _unbroken(spans)
        )
    return wood


def _spanned(box: Box, low: int, span: Span) -> Box:
    return _with(_with(box, low, span[0]), low + 1, span[1])


def _unbroken(spans: Iterable[Span]) -> list[Span]:
    found: list[Span] = []
    for low, high in sorted(spans):
        begin = found.pop()[0] if found and found[-1][1] == low else low
        found.append((begin, high))
    return found


def volume(wood: Wood) -> int:
    return sum((b[1] - b[0]) * (b[3] - b[2]) * (b[5] - b[4]) for b in wood)


def fallen(wood: Wood) -> list[Wood]:
    """The solids that it is in, the largest first. Boxes hold together by a surface, not an edge.

    >>> fallen(((0, 1, 0, 1, 0, 1), (1, 2, 0, 1, 0, 1), (2, 3, 1, 2, 0, 1)))
    [((0, 1, 0, 1, 0, 1), (1, 2, 0, 1, 0, 1)), ((2, 3, 1, 2, 0, 1),)]
    """
    waiting = list(wood)
    solids: list[Wood] = []
    while waiting:
        found = [waiting.pop(0)]
        for box in found:
            held = [other for other in waiting if _joined(box, other)]
            waiting = [other for other in waiting if other not in held]
            found.extend(held)
        solids.append(tuple(found))
    return sorted(solids, key=volume, reverse=True)


def _joined(one: Box, other: Box) -> bool:
    """Whether two boxes that share no volume share a surface."""
    flat = 0
    for low, high in ((0, 1), (2, 3), (4, 5)):
        overlap = min(one[high], other[high]) - max(one[low], other[low])
        if overlap < 0:
            return False
        flat += overlap == 0
    return flat == 1


def touching(wood: Wood, side: str, whole: Box) -> list[Rectangle]:
    """What of the wood lies in the plane of a side of `whole`: rectangles over the two other axes
    in their order."""
    axis, end = SIDES[side]
    at = 2 * axis + end
    first, second = (other for other in (X, Y, Z) if other != axis)
    return [(_along(box, first), _along(box, second)) for box in wood if box[at] == whole[at]]


def _along(box: Box, axis: int) -> Span:
    return (box[2 * axis], box[2 * axis + 1])


def covered(spans: Iterable[Span]) -> int:
    """How long spans are together, what they share counted once.

    >>> covered([(0, 5), (3, 7), (9, 10)])
    8
    """
    total, reached = 0, None
    for low, high in sorted(spans):
        begin = low if reached is None else max(low, reached)
        total += max(0, high - begin)
        reached = high if reached is None else max(reached, high)
    return total


def breadth(spans: Iterable[Span]) -> int:
    """From the first beginning to the last end; 0 of none."""
    found = list(spans)
    return max(high for _, high in found) - min(low for low, _ in found) if found else 0


def shifted(wood: Wood, by: int) -> Wood:
    """Moved along x."""
    return tuple((b[0] + by, b[1] + by, *b[2:]) for b in wood)


def turned(wood: Wood, length: int) -> Wood:
    """With its ends counted from the other side."""
    return tuple((length - b[1], length - b[0], *b[2:]) for b in wood)
