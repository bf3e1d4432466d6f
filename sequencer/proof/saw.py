"""One pass of one piece over the saw: what it removes, what falls, and what must not happen.

The saw knows the setting, how the piece is held, and the piece as it is; not what it is to become.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from sequencer.plan import Against, CarrierName, Down, Keeps
from sequencer.proof.solid import (
    IntBox,
    Solid,
    bounds,
    faces,
    length,
    overlap,
    pieces,
    subtract,
)

X, Y, Z = 0, 1, 2
SURFACES: Mapping[str, tuple[int, int]] = {
    "end-A": (X, -1),
    "end-B": (X, 1),
    "inside-edge": (Y, -1),
    "outside-edge": (Y, 1),
    "face": (Z, -1),
    "back": (Z, 1),
}
"""Each surface of a piece: the axis that it lies across, and which end of it."""

_HELD: Mapping[CarrierName, frozenset[tuple[int, int]]] = {
    "rip-fence": frozenset({(Z, Y), (Y, Z)}),
    "crosscut-sled": frozenset({(Z, X), (Y, X)}),
    "tenoning-jig": frozenset({(X, Z), (X, Y)}),
}
"""The axes of what may be down and against the guide on each carrier."""

GUIDES: Mapping[CarrierName, str] = {
    "rip-fence": "fence",
    "crosscut-sled": "stop",
    "tenoning-jig": "face of the jig",
}


@dataclass(frozen=True, slots=True)
class Pass:
    """One pass as it is made. Lengths are whole numbers of the plan's grain.

    `bearing` is the least length that the piece must bear on fence or jig with. `by_eye` is where
    an end is squared without a guide: all before it goes.
    """

    carrier: CarrierName
    kerf: int
    guide: int | None
    depth: int
    down: Down
    against: Against | None
    keeps: Keeps | None
    sweep: bool
    bearing: int
    by_eye: int | None = None


@dataclass(frozen=True, slots=True)
class Sawn:
    """What a pass leaves: the piece, the rest beyond the kerf where a cut went through, the space
    that was cleared, and what fell. `fault` says in words what must not happen."""

    kept: Solid
    rest: Solid
    cleared: tuple[IntBox, ...]
    fault: str | None = None


def saw(piece: Solid, cut: Pass) -> Sawn:
    """Make one pass. The piece is one solid, none of it empty."""
    box = bounds(piece)
    fault = _wrongly_held(piece, box, cut)
    if fault is not None:
        return Sawn(piece, (), (), fault)
    kerf, axis, near, side = _kerf(box, cut)
    if not overlap(kerf, box):
        return Sawn(piece, (), (), "the blade passes beside it")
    left = subtract(piece, kerf)
    if not left:
        return Sawn((), (), (kerf,), "nothing is left of the piece")
    if cut.keeps is not None:
        return _through(left, cut, kerf, axis, side)
    kept, *freed = pieces(left)
    cleared = (kerf, *(box for solid in freed for box in solid))
    if bounds(kept) != box:
        return Sawn(kept, (), cleared, f"the cut takes away a whole {_lost(box, bounds(kept))}")
    for solid in freed:
        place = bounds(solid)
        inner = place[2 * axis + 1] if side < 0 else place[2 * axis]
        if (inner - near) * side >= 0:
            fault = f"what it frees is trapped between the blade and the {GUIDES[cut.carrier]}"
    return Sawn(kept, (), cleared, fault)


def _kerf(box: IntBox, cut: Pass) -> tuple[IntBox, int, int, int]:
    """The space that the pass clears; the axis it is guided along; where, on that axis, the kerf
    begins; and which side of the kerf the guide is on."""
    space = list(box)
    down_axis, down_side = SURFACES[cut.down]
    if down_side < 0:
        space[2 * down_axis + 1] = min(box[2 * down_axis] + cut.depth, box[2 * down_axis + 1])
    else:
        space[2 * down_axis] = max(box[2 * down_axis + 1] - cut.depth, box[2 * down_axis])
    if cut.against is None or cut.guide is None:
        assert cut.by_eye is not None
        space[1] = cut.by_eye
        return (_box(space), X, box[0], -1)
    axis, side = SURFACES[cut.against]
    if side < 0:
        near = box[2 * axis] + cut.guide
        low, high = near, near + cut.kerf
        if cut.sweep:
            low = box[2 * axis]
    else:
        near = box[2 * axis + 1] - cut.guide
        low, high = near - cut.kerf, near
        if cut.sweep:
            high = box[2 * axis + 1]
    space[2 * axis], space[2 * axis + 1] = low, high
    return (_box(space), axis, near, side)


def _box(space: list[int]) -> IntBox:
    x0, x1, y0, y1, z0, z1 = space
    return (x0, x1, y0, y1, z0, z1)


def _wrongly_held(piece: Solid, box: IntBox, cut: Pass) -> str | None:
    guide = GUIDES[cut.carrier]
    down_axis, down_side = SURFACES[cut.down]
    if cut.depth <= 0:
        return "the blade does not reach above the table"
    if cut.against is None or cut.guide is None:
        if cut.against is not None or cut.guide is not None or cut.keeps != "larger":
            return f"the cut needs both a {guide} setting and what lies against it"
        if cut.carrier != "crosscut-sled" or down_axis != Z or cut.by_eye is None:
            return "only an end is squared by eye, on the sled"
        return None
    axis, side = SURFACES[cut.against]
    if (down_axis, axis) not in _HELD[cut.carrier]:
        return f"the {cut.carrier} takes no piece with its {cut.down} down, {cut.against} to it"
    if cut.sweep and (cut.carrier != "crosscut-sled" or cut.keeps is not None):
        return "only waste on the sled is nibbled away"
    if cut.guide < 0 or (cut.guide == 0 and not cut.sweep):
        return f"the blade stands in the {guide}"
    return _unsupported(piece, box, cut, (axis, side), (down_axis, down_side))


def _unsupported(
    piece: Solid, box: IntBox, cut: Pass, against: tuple[int, int], down: tuple[int, int]
) -> str | None:
    """Why the piece does not bear: on the guide along its length (across the end at a stop), on
    what it stands on over half of one side."""
    axis, side = against
    along = Y + Z - down[0] if cut.carrier == "crosscut-sled" else X
    extent = box[2 * along + 1] - box[2 * along]
    touching = _touching(piece, box, axis, side, along)
    match cut.carrier:
        case "rip-fence":
            wanted = min(extent, cut.bearing)
        case "tenoning-jig":
            wanted = min(extent // 2, cut.bearing)
        case "crosscut-sled":
            wanted = extent // 4
    if touching < wanted:
        return f"its {cut.against} does not bear on the {GUIDES[cut.carrier]} over a safe length"
    for other in (a for a in (X, Y, Z) if a != down[0]):
        span = box[2 * other + 1] - box[2 * other]
        if 2 * _touching(piece, box, *down, other) >= span:
            return None
    return f"its {cut.down} is not there to stand on"


def _touching(piece: Solid, box: IntBox, axis: int, side: int, along: int) -> int:
    at = box[2 * axis] if side < 0 else box[2 * axis + 1]
    others = [a for a in (X, Y, Z) if a != axis]
    first = 2 * others.index(along)
    return length([(r[first], r[first + 1]) for r in faces(piece, axis, at, -side)])


def _through(left: Solid, cut: Pass, kerf: IntBox, axis: int, side: int) -> Sawn:
    """What a through cut keeps. With `side` -1 the guide is below the kerf."""
    guided: list[Solid] = []
    beyond: list[Solid] = []
    for solid in pieces(left):
        place = bounds(solid)
        low, high = place[2 * axis], place[2 * axis + 1]
        if side < 0:
            at_guide, past = high <= kerf[2 * axis], low >= kerf[2 * axis + 1]
        else:
            at_guide, past = low >= kerf[2 * axis + 1], high <= kerf[2 * axis]
        if not at_guide and not past:
            return Sawn(left, (), (kerf,), "the cut does not go through")
        (guided if at_guide else beyond).append(solid)
    kept, rest = (guided, beyond) if cut.keeps == "guide" else (beyond, guided)
    if not kept:
        return Sawn(left, (), (kerf,), "no wood is left on the side that is kept")
    fault = None
    if cut.keeps == "far" and cut.carrier != "rip-fence" and guided:
        fault = f"what it frees is trapped between the blade and the {GUIDES[cut.carrier]}"
    fallen = kept[1:] + rest[1:]
    cleared = (kerf, *(box for solid in fallen for box in solid))
    return Sawn(kept[0], rest[0] if rest else (), cleared, fault)


def _lost(before: IntBox, after: IntBox) -> str:
    for name, (axis, side) in SURFACES.items():
        index = 2 * axis if side < 0 else 2 * axis + 1
        if before[index] != after[index]:
            return name
    return "side"
