"""Marks to lay out a shaped edge by."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction

from sequencer.instructions.figures import Scale
from sequencer.plan import Prism, Size
from sequencer.wording import benches

_ENDS = ("A", "B")
MOST_MARKS = 17
"""Rows of one table; a finer curve is thinned to as many."""


def ordinates(
    prisms: Sequence[Prism], size: Size, scale: Scale
) -> tuple[tuple[str, str, str], tuple[tuple[str, str, str], ...]]:
    """The marks to lay out what is shaped off a piece's edge or end: what the columns are measured
    from, and a row a mark, from both ends (of what is shaped at an end, from both edges). Of a
    fine curve every so many, the last kept."""
    corners = [corner for prism in prisms for corner in prism.corners]
    spans = [max(c[axis] for c in corners) - min(c[axis] for c in corners) for axis in (0, 1)]
    at_end = spans[0] < spans[1]
    along, across = (1, 0) if at_end else (0, 1)
    extent = size.width if at_end else size.length
    whole = size.length if at_end else size.width
    far = min(corner[across] for corner in corners) > 0
    deepest: dict[Fraction, Fraction] = {}
    for corner in corners:
        depth = whole - corner[across] if far else corner[across]
        deepest[corner[along]] = max(depth, deepest.get(corner[along], Fraction(0)))
    marks = sorted(deepest.items())
    step = max(1, -(-(len(marks) - 1) // (MOST_MARKS - 1)))
    chosen = marks[::step]
    if chosen[-1] != marks[-1]:
        chosen.append(marks[-1])
    room = scale.room
    edges = [room.term(f"side.{edge}-edge") for edge in ("inside", "outside")]
    ends = [room.term(f"side.end-{end}") for end in _ENDS]
    if at_end:
        start, stop = (room.text(benches.FROM, side=edge) for edge in edges)
        inward = room.text(benches.IN_FROM_END, side=ends[far])
    else:
        start, stop = (room.text(benches.FROM_END, side=end) for end in ends)
        inward = room.text(benches.IN_FROM, side=edges[far])
    columns = (start, stop, inward)
    text = scale.text
    return columns, tuple((text(at), text(extent - at), text(deep)) for at, deep in chosen)
