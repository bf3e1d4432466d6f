"""Wood as it is sawn from what was read: slabs taken from a piece, and what then hangs together.

A slab lies between two distances from the surface that bears on fence, stop or jig, and is as deep
as the blade stands over what carries the piece. Frames are the designer's: along from end A, across
from the inside edge, through from the show face.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field
from fractions import Fraction

from tests.proof.sampler import largest
from tests.reader.words import Lies

Span = tuple[Fraction, Fraction]
Box = tuple[Span, Span, Span]
Size = tuple[Fraction, Fraction, Fraction]
AXES = {
    "A": (0, False), "B": (0, True), "inside": (1, False), "outside": (1, True),
    "marked": (2, False), "other": (2, True),
}  # fmt: skip


@dataclass(frozen=True)
class Slab:
    """One pass as sawn: which side was down and which bore, from and to how far from that, how
    deep; `lean` of the blade, `slanted` at 45°; the step it was made in."""

    lies: Lies
    low: Fraction
    high: Fraction
    depth: Fraction
    lean: Fraction = Fraction(0)
    setup: int = 0
    step: int = 0
    guide: Fraction = Fraction(0)
    """The setting, to the near side of the kerf; on the mitre sled, to the line that is kept."""

    def box(self, size: Size, face: str) -> Box:
        """Its box in a piece whose marked face looks `face`."""
        spans: list[Span] = [(Fraction(0), extent) for extent in size]
        for which, low, high in (
            (self.lies.against, self.low, self.high),
            (self.lies.down, Fraction(0), self.depth),
        ):
            axis, far = AXES[which]
            if axis == 2 and face == "in":
                far = not far
            span = (size[axis] - high, size[axis] - low) if far else (low, high)
            spans[axis] = (max(span[0], spans[axis][0]), min(span[1], spans[axis][1]))
        return (spans[0], spans[1], spans[2])

    @property
    def plain(self) -> bool:
        """Whether it is a box."""
        return not self.lean and not self.lies.slanted


@dataclass
class Wood:
    """A strip or piece: `length` is `None` of a strip that nothing came off yet."""

    mark: str
    width: Fraction | None
    thickness: Fraction | None
    length: Fraction | None = None
    slabs: list[Slab] = field(default_factory=list)
    strip: str = ""
    at_stop: str = ""

    def size(self) -> Size:
        return (
            Fraction(0) if self.length is None else self.length,
            Fraction(0) if self.width is None else self.width,
            Fraction(0) if self.thickness is None else self.thickness,
        )


Cell = tuple[int, int, int]


class Grid:
    """A piece's size cut into cells by all limits of some boxes."""

    def __init__(self, size: Size, boxes: Iterable[Box]) -> None:
        self.ranks: list[dict[Fraction, int]] = []
        self.counts: list[int] = []
        self.lines: list[list[Fraction]] = []
        boxes = list(boxes)
        for axis, extent in enumerate(size):
            limits = {Fraction(0), extent}
            limits |= {v for box in boxes for v in box[axis] if 0 <= v <= extent}
            lines = sorted(limits)
            self.ranks.append({value: n for n, value in enumerate(lines)})
            self.counts.append(len(lines) - 1)
            self.lines.append(lines)

    def cells(self, box: Box) -> set[Cell]:
        """The cells in a box."""
        ranges = []
        for axis, (low, high) in enumerate(box):
            if low >= high:
                return set()
            ranks = self.ranks[axis]
            ranges.append(range(ranks[low], ranks[high]))
        return {(i, j, k) for i in ranges[0] for j in ranges[1] for k in ranges[2]}

    def all(self) -> set[Cell]:
        x, y, z = self.counts
        return {(i, j, k) for i in range(x) for j in range(y) for k in range(z)}

    def place(self, cell: Cell) -> str:
        """Where a cell is, for a message."""
        told = [
            f"{float(self.lines[axis][n]):g} to {float(self.lines[axis][n + 1]):g}"
            for axis, n in enumerate(cell)
        ]
        return f"{told[0]} from end A, {told[1]} from the inside edge, {told[2]} from the show face"


class _Limits:
    """All limits along each axis: what lies no further apart than `near` is one, first what is
    wanted, then what is sawn, which goes to the nearest."""

    def __init__(self, size: Size, wanted: Sequence[Box], near: Fraction) -> None:
        self.near = near
        self.axes: list[dict[Fraction, Fraction]] = []
        for axis, extent in enumerate(size):
            known: dict[Fraction, Fraction] = {}
            last: Fraction | None = None
            for value in sorted({Fraction(0), extent, *(v for box in wanted for v in box[axis])}):
                if last is None or value - last > near or value == extent:
                    last = value
                known[value] = last
            self.axes.append(known)

    def box(self, box: Box) -> Box:
        spans = [
            (self._at(axis, low), self._at(axis, high)) for axis, (low, high) in enumerate(box)
        ]
        return (spans[0], spans[1], spans[2])

    def _at(self, axis: int, value: Fraction) -> Fraction:
        known = self.axes[axis]
        best = min(known, key=lambda each: abs(each - value))
        if abs(best - value) > self.near:
            known[value] = best = value
        return known[best]


def difference(
    size: Size,
    sawn: Sequence[Box],
    wanted: Sequence[Box],
    apart: Sequence[Box],
    near: Fraction,
) -> tuple[str, str, Box | None]:
    """What is gone that should be there, or there that should be gone, and where; nothing where
    the two are the same. What lies in boxes that stand `apart` is looked at elsewhere."""
    limits = _Limits(size, [*wanted, *apart], near)
    sawn, wanted, apart = ([limits.box(box) for box in boxes] for boxes in (sawn, wanted, apart))
    grid = Grid(size, [*sawn, *wanted, *apart])
    masked: set[Cell] = set()
    for box in apart:
        masked |= grid.cells(box)
    whole = grid.all() - masked
    left, due = set(whole), set(whole)
    for box in sawn:
        left -= grid.cells(box)
    for box in wanted:
        due -= grid.cells(box)
    left, due = set(largest(left)), set(largest(due))
    for said, cells in (("no wood", due - left), ("wood left", left - due)):
        if cells:
            cell = min(cells)
            span = tuple(
                (grid.lines[axis][n], grid.lines[axis][n + 1]) for axis, n in enumerate(cell)
            )
            return said, grid.place(cell), (span[0], span[1], span[2])
    return "", "", None
