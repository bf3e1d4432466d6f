"""A second saw, to judge the first: a part asked point by point whether wood is left there.

It shares nothing with `sequencer.proof`. A part is a length (from its crosscut), a width (from its
stick's rip and what is planed off) and a list of slabs, each between two distances from one
surface and no deeper than a third from another. Points stand in the middle of every cell that the
slabs' limits make; what no longer hangs together with the body has fallen off.
"""

from __future__ import annotations

import itertools
from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction

from sequencer.plan import SCRAP_STEPS, Cut, Plan, Setup

Surface = tuple[int, bool]
"""An axis (0 along, 1 across, 2 through), and whether the surface is at its far end."""

SURFACES: dict[str, Surface] = {
    "end-A": (0, False),
    "end-B": (0, True),
    "inside-edge": (1, False),
    "outside-edge": (1, True),
    "face": (2, False),
    "back": (2, True),
}
Slab = tuple[Surface, Fraction, Fraction, Surface, Fraction]


@dataclass(frozen=True)
class Wood:
    """A part as its plan cuts it; `odd` is anything that no right plan does to it."""

    size: tuple[Fraction, Fraction, Fraction]
    slabs: tuple[Slab, ...]
    odd: tuple[str, ...]


def read(plan: Plan) -> dict[str, Wood]:
    """Every piece that comes off a stick, in the order that the steps take them."""
    setups = {setup.number: setup for setup in plan.setups}
    sticks = {stick.mark: stick for stick in plan.sticks}
    width = {mark: stick.blank.width for mark, stick in sticks.items()}
    slabs: dict[str, list[Slab]] = {mark: [] for mark in sticks}
    odd: dict[str, list[str]] = {mark: [] for mark in sticks}
    left = {mark: [piece.mark for piece in stick.pieces] for mark, stick in sticks.items()}
    found: dict[str, tuple[str, Fraction]] = {}
    for step in plan.steps:
        if step.kind in SCRAP_STEPS:
            continue
        for cut in step.cuts:
            setup = setups[step.setup or 0]
            depth = setup.height - plan.shop.decks.get(setup.carrier, Fraction(0))
            stick = sticks.get(cut.mark)
            if stick is None or cut.keeps is None:
                slabs.setdefault(cut.mark, []).append(_slab(cut, setup, depth))
                continue
            if depth < stick.size.thickness:
                odd[cut.mark].append("not sawn through")
            if setup.carrier == "rip-fence":
                if cut.against != "inside-edge":
                    odd[cut.mark].append("ripped from another edge")
                width[cut.mark] = min(width[cut.mark], setup.guide or Fraction(0))
            elif cut.against is not None and left[cut.mark]:
                piece = left[cut.mark].pop(0)
                found[piece] = (cut.mark, setup.guide or Fraction(0))
                slabs.setdefault(piece, [])
                odd[piece] = [] if cut.against == "end-A" else ["cut from the stick's far end"]
        for removal in step.removes:
            if removal.mark in sticks:
                width[removal.mark] = removal.box[1][0]
    return {
        piece: Wood(
            (length, width[stick], sticks[stick].size.thickness),
            (*slabs[stick], *slabs[piece]),
            (*odd[stick], *odd[piece]),
        )
        for piece, (stick, length) in found.items()
    }


def _slab(cut: Cut, setup: Setup, depth: Fraction) -> Slab:
    assert cut.against is not None
    assert setup.guide is not None
    near = Fraction(0) if cut.sweep else setup.guide
    return (SURFACES[cut.against], near, setup.guide + setup.kerf, SURFACES[cut.down], depth)


def changed(before: Wood | None, after: Wood | None) -> bool:
    """Whether the two come out different anywhere."""
    if before == after:
        return False
    if before is None or after is None or before.size != after.size or before.odd != after.odd:
        return True
    lines = [_lines(before.size[axis], axis, (*before.slabs, *after.slabs)) for axis in range(3)]
    points = [[(low + high) / 2 for low, high in itertools.pairwise(line)]
              for line in lines]  # fmt: skip
    return _standing(before, points) != _standing(after, points)


def _lines(length: Fraction, axis: int, slabs: Sequence[Slab]) -> list[Fraction]:
    lines = {Fraction(0), length}
    for guided, low, high, down, depth in slabs:
        distances = (low, high) if guided[0] == axis else (depth,) if down[0] == axis else ()
        far = guided[1] if guided[0] == axis else down[1]
        lines |= {length - d if far else d for d in distances}
    return sorted(line for line in lines if 0 <= line <= length)


Cell = tuple[int, int, int]


def _standing(wood: Wood, points: Sequence[Sequence[Fraction]]) -> frozenset[Cell]:
    """The points where wood is left: of what hangs together, the most."""
    counts = [range(len(line)) for line in points]
    left = {(i, j, k) for i in counts[0] for j in counts[1] for k in counts[2]}
    for guided, low, high, down, depth in wood.slabs:
        inside = [set(count) for count in counts]
        for axis, far, least, most in (
            (guided[0], guided[1], low, high),
            (down[0], down[1], Fraction(0), depth),
        ):
            inside[axis] = {
                n
                for n, point in enumerate(points[axis])
                if least < (wood.size[axis] - point if far else point) < most
            }
        left -= {(i, j, k) for i in inside[0] for j in inside[1] for k in inside[2]}
    return largest(left)


def largest(left: set[Cell]) -> frozenset[Cell]:
    """Of cells that hang together, the most: the rest has fallen off."""
    most: list[Cell] = []
    waiting = set(left)
    while waiting:
        heap = [waiting.pop()]
        for i, j, k in heap:
            for near in (
                (i + 1, j, k), (i - 1, j, k), (i, j + 1, k),
                (i, j - 1, k), (i, j, k + 1), (i, j, k - 1),
            ):  # fmt: skip
                if near in waiting:
                    waiting.remove(near)
                    heap.append(near)
        if len(heap) > len(most):
            most = heap
    return frozenset(most)
