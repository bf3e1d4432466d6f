"""Leaves in their opening: gaps, laps over the case, and leaves that lap over each other."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from fractions import Fraction

from sequencer.errors import InternalError
from sequencer.facts import Fact, fits
from sequencer.facts import Length as Told
from sequencer.lengths import Unit
from sequencer.plan import Door
from sequencer.proof.cells import Length
from sequencer.proof.grain import Grain
from sequencer.proof.placing import misfit
from sequencer.proof.solid import Solid, bounds, moved, outline, overlap, subtract

_NOTHING = Fraction(0)


Airs = Mapping[tuple[str, str], Fraction]
"""The air found between two leaves that lap over each other, by their marks, left and right."""


def lapped(door: Door, doors: Sequence[Door], airs: Airs) -> tuple[Fraction, Fraction]:
    """How far from a leaf's left and right edge the leaves beside it, and the air before them,
    reach over it."""
    left = right = _NOTHING
    by_mark = {other.mark: other for other in doors}
    for other in _leaves(door, by_mark):
        if (other.mark, door.mark) in airs:
            left = other.at[0] + other.size[0] - door.at[0] + airs[other.mark, door.mark]
        if (door.mark, other.mark) in airs:
            right = door.at[0] + door.size[0] - other.at[0] + airs[door.mark, other.mark]
    return left, right


def _leaves(door: Door, by_mark: Mapping[str, Door]) -> list[Door]:
    return [by_mark[mark] for mark in door.pair if mark in by_mark] or [door]


def hang(doors: Sequence[Door], unit: Unit, airs: Airs | None = None) -> None:
    """Every leaf in its opening: its gaps are as stated, on all sides and between leaves; a gap
    below 0 is a lap over the case.

    Raises InternalError that names the leaf and the side.
    """
    by_mark = {door.mark: door for door in doors}
    for door in doors:
        gaps = door.gaps
        if door.hinge not in ("left", "right"):
            raise misfit(door, fits.NO_HINGE_SIDE(hinge=door.hinge))
        leaves = _leaves(door, by_mark)
        (x, y), (width, height) = door.at, door.size
        right, above = door.opening[0] - x - width, door.opening[1] - y - height
        index = leaves.index(door) if door in leaves else 0
        left = x
        if index:
            left = _meeting(leaves[index - 1], door, airs or {})
        if index + 1 < len(leaves):
            right = _meeting(door, leaves[index + 1], airs or {})
        hinge, free = (left, right) if door.hinge == "left" else (right, left)
        wanted = gaps.get("meeting" if len(leaves) > 1 else "lock", free)
        for name, found, gap in (
            ("edge.top", above, gaps["top"]),
            ("edge.bottom", y, gaps["bottom"]),
            ("edge.hinge", hinge, gaps["hinge"]),
            ("edge.free", free, wanted),
        ):
            if found != gap:
                what = fits.OTHER_GAP(side=name, found=Told(found, unit), wanted=Told(gap, unit))
                raise misfit(door, what)


def _meeting(left: Door, right: Door, airs: Airs) -> Fraction:
    apart = right.at[0] - left.at[0] - left.size[0]
    return airs.get((left.mark, right.mark), apart) if apart < 0 else apart


def lap(left: Door, right: Door, solids: Mapping[str, Solid], grain: Grain) -> Fraction:
    """The air between two leaves that lap over each other: they are not in the same place, and
    cover between them all that they lap over, but for that air.

    Raises InternalError where they do not.
    """
    one, other = (
        moved(solids[door.mark], (grain.of(door.at[0]), grain.of(door.at[1]), 0))
        for door in (left, right)
    )
    air: Length | None = None
    for a in one:
        for b in other:
            if overlap(a, b):
                raise _clash(left, right, fits.SAME_PLACE())
            if a[2] < b[3] and b[2] < a[3] and a[4] < b[5] and b[4] < a[5]:
                between = b[0] - a[1]
                air = between if air is None else min(air, between)
    if air is None:
        raise _clash(left, right, fits.SEEN_THROUGH())
    x = (bounds(other)[0] - air, bounds(one)[1] + air)
    y = (max(bounds(one)[2], bounds(other)[2]), min(bounds(one)[3], bounds(other)[3]))
    bare: Solid = ((*x, *y, 0, 1),)
    for bit in outline((*one, *other), 2):
        bare = subtract(bare, bit)
    if bare:
        raise _clash(left, right, fits.SEEN_THROUGH())
    return Fraction(air) / grain.parts


def _clash(left: Door, right: Door, what: Fact) -> InternalError:
    return InternalError(fits.OF_LEAVES(left=left.mark, right=right.mark, what=what))
