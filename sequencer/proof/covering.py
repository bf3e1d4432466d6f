"""A door's outside: its size after trimming, and that no void shows on its edges and faces."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from sequencer.errors import InternalError
from sequencer.facts import Fact
from sequencer.facts import fits as told
from sequencer.plan import Door
from sequencer.proof.cells import Bit, Brick, Length
from sequencer.proof.grain import Grain
from sequencer.proof.hands import X, Y, Z
from sequencer.proof.joining import Joint
from sequencer.proof.placing import Put, misfit, wood
from sequencer.proof.solid import Solid, bounds, cropped, difference, faces, length

FACES: Mapping[str, tuple[int, int]] = {"show-face": (4, 1), "back": (5, -1)}
"""Where among a door's bounds each face is, and on which side of it the wood lies."""


class Outside:
    """The outside of a door made of `members`. `lapped` is how far a leaf beside it laps over it
    at its left and right: what shows there is seen only with both."""

    def __init__(
        self, door: Door, members: Sequence[Put], lapped: tuple[Length, Length], grain: Grain
    ) -> None:
        self.door = door
        self.members = members
        self.lapped = lapped
        self.grain = grain
        self.solid = wood(members)
        self.place = bounds(self.solid)
        self.size = [grain.of(value) for value in door.size]
        self.seen = (lapped[0], self.size[0] - lapped[1])
        """The range across the door that no other leaf laps over."""
        self.shown = {name: faces(self.solid, Z, self.place[at], side)
                      for name, (at, side) in FACES.items()}  # fmt: skip
        self.wholes = [each.whole() for each in members]
        self.voids = {name: self._bare(name) for name in FACES}

    def check_size(self) -> None:
        place = self.place
        if place[:4] != (0, self.size[0], 0, self.size[1]):
            width, height = (self.grain.told(place[i + 1] - place[i]) for i in (0, 2))
            x, y = (self.grain.told(place[i]) for i in (0, 2))
            wanted, by = (self.grain.told(value) for value in self.size)
            raise self.wrong(
                told.OTHER_SIZE(width=width, height=height, x=x, y=y, wanted=wanted, by=by)
            )

    def check_edges(self, clearance: Length) -> None:
        """No void is wider than the clearance."""
        rebates = tuple(bit for each in self.members for bit in _outer(each))
        for axis, at, side, name in (
            (X, 0, 1, "edge.left"),
            (X, self.size[0], -1, "edge.right"),
            (Y, 0, 1, "edge.bottom"),
            (Y, self.size[1], -1, "edge.top"),
        ):
            if axis == X and self.lapped[side < 0]:
                continue
            along = (0, self.size[1]) if axis == X else self.seen
            outside: Brick = (*along, self.place[4], self.place[5], 0, 1)
            void = difference((outside,), faces(self.solid, axis, at, side))
            if void and rebates:
                void = difference(void, _open(rebates, axis, at, side))
            if any(_width(void, bit) > clearance for bit in void):
                raise self.wrong(told.GAP_AT_EDGE(edge=name, where=self.where(void)))

    def _bare(self, name: str) -> Solid:
        """What of a face its pieces should cover, and do not."""
        at, side = FACES[name]
        found: list[Bit] = []
        for each in self.wholes:
            whole = faces(each, Z, self.place[at], side)
            whole = cropped(cropped(whole, X, self.seen), Y, (0, self.size[1]))
            found += difference(whole, self.shown[name])
        return tuple(found)

    def check_shoulder(self, joint: Joint) -> None:
        """No void lies between a bar and its crosspiece on either face."""
        for name, voids in self.voids.items():
            if any(_at_shoulder(void, joint) for void in voids):
                what = told.OPEN_SHOULDER(face=f"side.{name}")
                raise self.wrong(what, joint.bar.mark, joint.across.mark)

    def check_faces(self) -> None:
        """No void shows anywhere over the wood of the frame."""
        for name, voids in self.voids.items():
            if voids:
                raise self.wrong(told.GAP_ON_FACE(face=f"side.{name}", where=self.where(voids)))

    def check_bench(self, put: Put) -> None:
        """What the bench takes off a piece is outside the door, or where another leaf laps."""
        if put.finished == put.sawn:
            return
        lost = cropped(difference(put.sawn, put.finished), X, self.seen)
        lost = cropped(lost, Y, (0, self.size[1]))
        if lost:
            raise self.wrong(told.BENCH_TAKES_WOOD(where=self.where(lost)), put.mark)

    def lights(self, name: str) -> Solid:
        """What of a face no piece of the frame covers."""
        front: Brick = (0, self.size[0], 0, self.size[1], 0, 1)
        seen = cropped((front,), X, self.seen)
        return difference(seen, self.shown[name])

    def wrong(self, what: Fact, *marks: str) -> InternalError:
        return misfit(self.door, what, *marks)

    def where(self, flat: Solid) -> Fact:
        x, x1, y, y1 = (self.grain.told(value) for value in tuple(flat[0])[:4])
        return told.SPOT(x=x, x1=x1, y=y, y1=y1)


def _at_shoulder(void: Bit, joint: Joint) -> bool:
    """Whether a void on a face ends at the crosspiece's edge, beside the bar."""
    ends = tuple(void)
    here = bounds(joint.bar.sawn)
    low, high = ends[2 * joint.axis], ends[2 * joint.axis + 1]
    other = Y if joint.axis == X else X
    beside = ends[2 * other] < here[2 * other + 1] and here[2 * other] < ends[2 * other + 1]
    return beside and (high if joint.side > 0 else low) == joint.plane


def _width(void: Solid, beside: Bit) -> Length:
    """How wide a void on an edge is, through the thickness, where that bit of it is."""
    return length([(r[2], r[3]) for r in void if r[0] < beside[1] and beside[0] < r[1]])


def _outer(put: Put) -> Solid:
    """What is open to a piece's outer edges by design."""
    at = None if put.part.role == "slab" else "outside-edge"
    return put.lacks("rebate", "bevel", at=at)


def _open(rebates: Solid, axis: int, at: Length, side: int) -> Solid:
    """What rebates leave open on a plane, though they begin beyond it."""
    inner = (at, at + 1) if side > 0 else (at - 1, at)
    thin = cropped(rebates, axis, inner)
    return faces(thin, axis, at, side)
