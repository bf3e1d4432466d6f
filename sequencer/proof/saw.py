"""One pass of one piece over the saw: what it removes, what falls, and what must not happen.

The saw knows the setting, how the piece is held, and the piece as it is; not what it is to become.
"""

from __future__ import annotations

from msgspec import Struct

from sequencer.facts import Fact
from sequencer.facts import sawings as told
from sequencer.proof.carriers import CARRIERS, Carrier
from sequencer.proof.cells import Bit, Brick, Length, Plane, within
from sequencer.proof.hands import X, Y, Z
from sequencer.proof.kerf import Pass, far_side, guide_side, kerf_of
from sequencer.proof.solid import Solid, bounds, faces, length, overlap, pieces, subtract


class Sawn(Struct, frozen=True):
    """What a pass leaves: the piece, the rest beyond the kerf where a cut went through, the space
    that was cleared, and what else fell. `fault` says what must not happen."""

    kept: Solid
    rest: Solid
    cleared: Solid
    fault: Fact | None = None
    freed: tuple[Solid, ...] = ()


def saw(piece: Solid, cut: Pass) -> Sawn:
    """Make one pass. The piece is one solid, none of it empty."""
    box = bounds(piece)
    fault = _wrongly_held(piece, box, cut)
    if fault is not None:
        return Sawn(piece, (), (), fault)
    kerf = kerf_of(box, cut)
    if not overlap(kerf, box):
        return Sawn(piece, (), (), told.PASSES_BESIDE())
    left = subtract(piece, kerf)
    if not left:
        return Sawn((), (), (kerf,), told.NOTHING_LEFT())
    if cut.keeps is not None:
        return _through(left, box, cut, kerf)
    kept, *freed = pieces(left)
    cleared = (kerf, *(bit for solid in freed for bit in solid))
    if bounds(kept) != box:
        side = _lost(box, bounds(kept), cut)
        return Sawn(kept, (), cleared, told.TAKES_SIDE(side=f"side.{side}"))
    if freed and any(beside(solid, guide_side(box, cut)) for solid in freed):
        fault = told.TRAPPED(guide=CARRIERS[cut.carrier].guide)
    return Sawn(kept, (), cleared, fault, tuple(freed))


def beside(solid: Solid, side: Plane) -> bool:
    """Whether all of it lies on the plane's inner side."""
    return all(within(bit, side) for bit in solid)


def _wrongly_held(piece: Solid, box: Brick, cut: Pass) -> Fact | None:
    carrier = CARRIERS[cut.carrier]
    guide = carrier.guide
    down_axis, down_side = cut.lies
    if cut.depth <= 0:
        return told.BELOW_TABLE()
    if cut.against is None or cut.guide is None:
        if cut.against is not None or cut.guide is not None or cut.keeps != "larger":
            return told.NO_GUIDE(guide=guide)
        if not _squares(carrier) or down_axis != Z or cut.by_eye is None or cut.tilt:
            return told.SQUARED_ON_SLED_ONLY()
        return None
    axis, side = cut.bears
    if (down_axis, axis) not in carrier.held:
        return told.NOT_HELD_SO(
            carrier=f"carrier.{cut.carrier}",
            down=f"side.{cut.down}",
            against=f"side.{cut.against}",
        )
    wrong = _wrong_sweep(cut, carrier)
    if wrong is not None:
        return wrong
    if cut.guide < 0 or (cut.guide == 0 and not cut.sweep):
        return told.BLADE_IN_GUIDE(guide=guide)
    if cut.tilt and cut.guide - cut.tilt * cut.depth <= 0:
        return told.LEANS_INTO_GUIDE(guide=guide)
    return _unsupported(piece, box, cut, (axis, side), (down_axis, down_side))


def _squares(carrier: Carrier) -> bool:
    return carrier.kind == "sled" and not carrier.slanted


def _wrong_sweep(cut: Pass, carrier: Carrier) -> Fact | None:
    mitred = carrier.slanted
    if cut.sweep and (carrier.kind != "sled" or cut.keeps is not None):
        return told.NIBBLED_ON_SLED_ONLY()
    if mitred and not cut.sweep:
        return told.MITRE_IS_NIBBLED()
    if cut.sweep and cut.tilt:
        return told.NIBBLED_UPRIGHT_ONLY()
    if cut.back is not None:
        if not cut.sweep or mitred:
            return told.NO_SECOND_SHOULDER()
        if cut.back < cut.kerf:
            return told.SHOULDERS_TOO_NEAR()
    return None


def _unsupported(
    piece: Solid, box: Brick, cut: Pass, against: tuple[int, int], down: tuple[int, int]
) -> Fact | None:
    """Why the piece does not bear: on the guide along its length (across the end at a stop), on
    what it stands on over half of one side."""
    axis, side = against
    carrier = CARRIERS[cut.carrier]
    along = X if carrier.kind == "jig" else X + Y + Z - down[0] - axis
    extent = box[2 * along + 1] - box[2 * along]
    touching = _touching(piece, box, axis, side, along)
    wanted: Length = extent // carrier.part
    if carrier.kind == "fence" and down[0] == X:
        wanted = cut.bearing // 3  # what stands on end is no narrower than a third of that
    elif carrier.kind != "sled":
        wanted = min(wanted, cut.bearing)
    if touching < wanted:
        return told.SHORT_BEARING(side=f"side.{cut.against}", guide=carrier.guide)
    if carrier.slanted:
        long = box[1] - box[0]
        if _touching(piece, box, Y, 1, X) < min(long // 2, cut.bearing):
            return told.SHORT_BEARING(side="side.outside-edge", guide="guide.fence")
    for other in (a for a in (X, Y, Z) if a != down[0]):
        span = box[2 * other + 1] - box[2 * other]
        if 2 * _touching(piece, box, *down, other) >= span:
            return None
    return told.NOTHING_TO_STAND_ON(side=f"side.{cut.down}")


def _touching(piece: Solid, box: Brick, axis: int, side: int, along: int) -> Length:
    at = box[2 * axis] if side < 0 else box[2 * axis + 1]
    others = [a for a in (X, Y, Z) if a != axis]
    first = 2 * others.index(along)
    return length([(r[first], r[first + 1]) for r in faces(piece, axis, at, -side)])


def _through(left: Solid, box: Brick, cut: Pass, kerf: Bit) -> Sawn:
    """What a through cut keeps."""
    near, far = guide_side(box, cut), far_side(box, cut)
    guided: list[Solid] = []
    beyond: list[Solid] = []
    for solid in pieces(left):
        at_guide = beside(solid, near)
        if not at_guide and not beside(solid, far):
            return Sawn(left, (), (kerf,), told.NOT_THROUGH())
        (guided if at_guide else beyond).append(solid)
    kept, rest = (guided, beyond) if cut.keeps == "guide" else (beyond, guided)
    if not kept:
        return Sawn(left, (), (kerf,), told.NONE_KEPT())
    fault = None
    if cut.keeps == "far" and CARRIERS[cut.carrier].kind != "fence" and guided:
        fault = told.TRAPPED(guide=CARRIERS[cut.carrier].guide)
    fallen = kept[1:] + rest[1:]
    cleared = (kerf, *(bit for solid in fallen for bit in solid))
    return Sawn(kept[0], rest[0] if rest else (), cleared, fault, tuple(fallen))


def _lost(before: Brick, after: Brick, cut: Pass) -> str:
    for name, (axis, side) in cut.marks.sides.items():
        index = 2 * axis if side < 0 else 2 * axis + 1
        if before[index] != after[index]:
            return name
    return "any"
