"""The space that a pass clears, from the setting and how the piece is held."""

from __future__ import annotations

from fractions import Fraction

from msgspec import Struct

from sequencer.plan import Against, CarrierName, Down, Keeps
from sequencer.proof.carriers import CARRIERS
from sequencer.proof.cells import Bit, Brick, Length, Plane, opposite, plane_of
from sequencer.proof.hands import AS_TOLD, Marks, Side, X, Y, Z
from sequencer.proof.polygons import Point, drawn_out
from sequencer.proof.prisms import straightened


class Pass(Struct, frozen=True):
    """One pass as it is made. Lengths are whole numbers of the plan's grain.

    `bearing` is the least length that the piece must bear on fence or jig with. `by_eye` is where
    an end is squared without a guide: all before it goes. `tilt` is how far the blade leans toward
    the guide in one unit of height; with `back`, a sweep goes no further than that from its far
    side. `marks` say which sides of the wood `down` and `against` are.
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
    tilt: Fraction = Fraction(0)
    back: int | None = None
    marks: Marks = AS_TOLD

    @property
    def lies(self) -> Side:
        """The side of the wood that is down."""
        return self.marks.at(self.down)

    @property
    def bears(self) -> Side:
        """The side of the wood that is against the guide."""
        return self.marks.at(self.against or "end-A")


def guide_side(box: Brick, cut: Pass) -> Plane:
    """The plane of the kerf's near side: what is between blade and guide is inside."""
    if CARRIERS[cut.carrier].slanted:
        return _mitre_line(box, cut)
    return _leaning(box, cut, cut.guide or 0)


def far_side(box: Brick, cut: Pass) -> Plane:
    """The plane of the kerf's far side: what is beyond the blade is inside."""
    if cut.guide is None or cut.against is None:
        return plane_of((-1, 0, 0), -(cut.by_eye or 0))
    return opposite(_leaning(box, cut, cut.guide + cut.kerf))


def kerf_of(box: Brick, cut: Pass) -> Bit:
    """The space that a pass through a piece that fills `box` clears."""
    if CARRIERS[cut.carrier].slanted:
        return _mitred(box, cut)
    space = list(box)
    down = cut.lies
    low, high = _risen(box, cut)
    space[2 * down[0] : 2 * down[0] + 2] = low, high
    if cut.against is None or cut.guide is None:
        assert cut.by_eye is not None
        space[1] = cut.by_eye
        return _brick(space)
    axis, side = cut.bears
    nearest = guide = cut.guide
    if cut.sweep:
        # A sweep begins at the guide, or where its second shoulder is.
        nearest = 0 if cut.back is None else max(0, guide + cut.kerf - cut.back)
    if cut.tilt:
        return _sheared(box, cut, low, high)
    if side < 0:
        ends: Point = (box[2 * axis] + nearest, box[2 * axis] + guide + cut.kerf)
    else:
        ends = (box[2 * axis + 1] - guide - cut.kerf, box[2 * axis + 1] - nearest)
    space[2 * axis : 2 * axis + 2] = ends
    return _brick(space)


def _risen(box: Brick, cut: Pass) -> Point:
    """What of the height the blade reaches, on the axis of what is down."""
    axis, side = cut.lies
    if side < 0:
        return (box[2 * axis], min(box[2 * axis] + cut.depth, box[2 * axis + 1]))
    return (max(box[2 * axis + 1] - cut.depth, box[2 * axis]), box[2 * axis + 1])


def _leaning(box: Brick, cut: Pass, distance: Length) -> Plane:
    """The plane at a distance from the guide, measured at the surface that is down; what is nearer
    to the guide is inside."""
    axis, side = cut.bears
    down, down_side = cut.lies
    normal: list[Length] = [0, 0, 0]
    normal[axis] = -side
    at = distance + (box[2 * axis] if side < 0 else -box[2 * axis + 1])
    if cut.tilt:
        lean = -down_side * cut.tilt
        normal[down] = lean
        at += lean * (box[2 * down] if down_side < 0 else box[2 * down + 1])
    return plane_of((normal[0], normal[1], normal[2]), at)


def _sheared(box: Brick, cut: Pass, low: Length, high: Length) -> Bit:
    assert cut.guide is not None
    axis, side = cut.bears
    down, down_side = cut.lies
    corners: list[Point] = []
    for at in (low, high):
        lean: Length = cut.tilt * (at - low if down_side < 0 else high - at)
        for distance in (cut.guide - lean, cut.guide + cut.kerf - lean):
            place = box[2 * axis] + distance if side < 0 else box[2 * axis + 1] - distance
            corners.append((place, at))
    near_low, far_low, near_high, far_high = corners
    third = X + Y + Z - axis - down
    along = (box[2 * third], box[2 * third + 1])
    return drawn_out((near_low, far_low, far_high, near_high), (axis, down), along)


def _mitred(box: Brick, cut: Pass) -> Bit:
    """All on the end's side of a line at 45°, which crosses the outside edge at the guide."""
    assert cut.guide is not None
    near, far = cut.guide, cut.guide + box[3] - box[2]
    if cut.bears[1] < 0:
        end, outside, inside = box[0], box[0] + near, box[0] + far
    else:
        end, outside, inside = box[1], box[1] - near, box[1] - far
    corners = ((end, box[2]), (inside, box[2]), (outside, box[3]), (end, box[3]))
    return drawn_out(straightened(corners), (X, Y), _risen(box, cut))


def _mitre_line(box: Brick, cut: Pass) -> Plane:
    reach = (cut.guide or 0) + box[3]
    if cut.bears[1] < 0:
        return plane_of((1, 1, 0), box[0] + reach)
    return plane_of((-1, 1, 0), reach - box[1])


def _brick(space: list[Length]) -> Brick:
    x0, x1, y0, y1, z0, z1 = space
    return (x0, x1, y0, y1, z0, z1)
