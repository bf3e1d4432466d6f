"""A framed leaf: two slotted stiles, two tenoned rails and a floating panel, sized and placed."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from sequencer.doors.fills import Fitting, fill
from sequencer.doors.leaf import Leaf, Light, end_box
from sequencer.doors.season import leaf_season
from sequencer.errors import Refusal
from sequencer.job.schema import Door, Side
from sequencer.joints import Corner, Joint, JointSizes
from sequencer.lengths import Unit
from sequencer.plan import Door as PlacedDoor
from sequencer.plan import Feature, Part, Place, Removal, Size

ZERO = Fraction(0)


@dataclass(frozen=True, slots=True)
class _Frame:
    """A leaf's numbers, left and right as seen from the front."""

    width: Fraction
    height: Fraction
    left: Fraction
    right: Fraction
    top: Fraction
    bottom: Fraction
    proud: Fraction
    top_tenon: Fraction
    bottom_tenon: Fraction
    left_reach: Fraction
    right_reach: Fraction

    @property
    def stile_length(self) -> Fraction:
        return self.height + 2 * self.proud

    @property
    def sight(self) -> tuple[Fraction, Fraction]:
        """The opening inside the frame, width and height."""
        return self.width - self.left - self.right, self.height - self.top - self.bottom

    @property
    def light(self) -> Light:
        return Light(self.left, self.bottom, *self.sight)

    @property
    def rail_length(self) -> Fraction:
        return self.left_reach + self.sight[0] + self.right_reach


def make_leaf(
    spec: Door,
    index: int,
    joint: Joint,
    sizes: JointSizes,
    widths: tuple[Fraction, Fraction],
    job: str,
    unit: Unit,
    kerf: Fraction,
) -> Leaf:
    """Leaf number `index`, from the left, with top and bottom tenons of the given `widths`."""
    mark = spec.marks[index]
    hinge = _hinge_side(spec, index)
    frame = _measure(spec, hinge, joint, widths)
    members = _parts(spec, mark, hinge, frame, joint, sizes)
    lights = (frame.light,)
    filled = fill(spec, mark, len(members) + 1, lights, Fitting(sizes, kerf, unit))
    free_gap = spec.gaps.lock if spec.gaps.meeting is None else spec.gaps.meeting
    at = spec.gaps.hinge if hinge == "left" else spec.opening.width - spec.gaps.hinge - frame.width
    door = PlacedDoor(
        mark=mark,
        job=job,
        name=spec.name,
        opening=(spec.opening.width, spec.opening.height),
        size=(frame.width, frame.height),
        at=(at, spec.gaps.bottom),
        hinge=hinge,
        gaps={
            "top": spec.gaps.top,
            "bottom": spec.gaps.bottom,
            "hinge": spec.gaps.hinge,
            "lock" if spec.leaves == 1 else "meeting": free_gap,
        },
        face_side=spec.face_side,
        pair=spec.marks,
        places=(*_places(members, frame), *filled.places),
        panes=filled.panes,
    )
    trims, flush = _bench(members, frame)
    return Leaf(
        spec=spec,
        door=door,
        joint=joint,
        sizes=sizes,
        parts=(*members, *filled.parts),
        sight=frame.sight,
        trims=trims,
        flush=flush,
        season=leaf_season(spec, mark, filled, lights, free_gap, unit),
        lights=lights,
        orders=filled.orders,
    )


def _hinge_side(spec: Door, index: int) -> Side:
    if spec.leaves == 1:
        return spec.hinge
    return "left" if index == 0 else "right"


def _measure(spec: Door, hinge: Side, joint: Joint, widths: tuple[Fraction, Fraction]) -> _Frame:
    gaps = spec.gaps
    if gaps.meeting is None:
        width = spec.opening.width - gaps.hinge - gaps.lock
    else:
        width = (spec.opening.width - 2 * gaps.hinge - gaps.meeting) / 2
    height = spec.opening.height - gaps.top - gaps.bottom
    stiles = (spec.hinge_stile, spec.free_stile)
    left, right = stiles if hinge == "left" else stiles[::-1]
    frame = _Frame(
        width=width,
        height=height,
        left=left,
        right=right,
        top=spec.top_rail,
        bottom=spec.bottom_rail,
        proud=joint.proud(spec),
        top_tenon=widths[0],
        bottom_tenon=widths[1],
        left_reach=joint.reach(spec, left),
        right_reach=joint.reach(spec, right),
    )
    if min(*frame.sight, *widths) <= 0:
        raise Refusal(f"{spec.where}: stiles, rails and groove leave no room for a panel")
    return frame


def _parts(
    spec: Door, mark: str, hinge: Side, frame: _Frame, joint: Joint, sizes: JointSizes
) -> tuple[Part, ...]:
    free = "meeting" if spec.leaves == 2 else "lock"
    left, right = ("hinge", free) if hinge == "left" else (free, "hinge")
    widths = {1: frame.left, 2: frame.right, 3: frame.top, 4: frame.bottom}
    names = {1: f"{left} stile", 2: f"{right} stile", 3: "top rail", 4: "bottom rail"}
    corners = [_corner(mark, stile, rail, frame) for stile in (1, 2) for rail in (3, 4)]
    parts: list[Part] = []
    for number, width in widths.items():
        is_stile = number < 3
        length = frame.stile_length if is_stile else frame.rail_length
        features = [
            feature
            for corner in corners
            if f"{mark}{number}" in (corner.stile, corner.rail)
            for feature in (joint.in_stile if is_stile else joint.in_rail)(corner, sizes)
        ]
        parts.append(
            Part(
                mark=f"{mark}{number}",
                door=mark,
                role="stile" if is_stile else "rail",
                name=names[number],
                material=spec.species,
                size=Size(length, width, sizes.thickness),
                features=(*features, _groove(length, sizes)),
            )
        )
    return tuple(parts)


def _corner(mark: str, stile: int, rail: int, frame: _Frame) -> Corner:
    """Stiles are 1, left, and 2; rails 3, top, and 4. A is a stile's top and a rail's left."""
    left, top = stile == 1, rail == 3
    return Corner(
        stile=f"{mark}{stile}",
        stile_end="A" if top else "B",
        stile_length=frame.stile_length,
        stile_width=frame.left if left else frame.right,
        rail=f"{mark}{rail}",
        rail_end="A" if left else "B",
        rail_length=frame.rail_length,
        rail_width=frame.top if top else frame.bottom,
        reach=frame.left_reach if left else frame.right_reach,
        tenon_width=frame.top_tenon if top else frame.bottom_tenon,
        proud=frame.proud,
    )


def _groove(length: Fraction, sizes: JointSizes) -> Feature:
    return Feature(
        "groove", "inside-edge", ((ZERO, length), (ZERO, sizes.groove_depth), sizes.groove)
    )


def _places(members: tuple[Part, ...], frame: _Frame) -> tuple[Place, ...]:
    left, right, top, bottom = members
    above = frame.height + frame.proud
    tenon_start = frame.left - frame.left_reach
    return (
        Place(left.mark, (frame.left, above, ZERO), ("-y", "-x", "+z")),
        Place(right.mark, (frame.width - frame.right, above, ZERO), ("-y", "+x", "+z")),
        Place(top.mark, (tenon_start, frame.height - frame.top, ZERO), ("+x", "+y", "+z")),
        Place(bottom.mark, (tenon_start, frame.bottom, ZERO), ("+x", "-y", "+z")),
    )


def _bench(
    members: tuple[Part, ...], frame: _Frame
) -> tuple[tuple[Removal, ...], tuple[Removal, ...]]:
    """What is sawn off after the dry fit, and what is planed flush after glue."""
    trims: list[Removal] = []
    flush: list[Removal] = []
    proud = frame.proud
    ends = {
        "A": frame.left_reach - frame.left - proud,
        "B": frame.right_reach - frame.right - proud,
    }
    for rail in members[2:4]:
        for at, surplus in ends.items():
            if surplus:
                trims.append(Removal(rail.mark, end_box(rail, at, surplus, ZERO)))
            if proud:
                flush.append(Removal(rail.mark, end_box(rail, at, surplus + proud, surplus)))
    if proud:
        flush = [
            Removal(stile.mark, end_box(stile, at, proud, ZERO))
            for stile in members[:2]
            for at in ("A", "B")
        ] + flush
    return tuple(trims), tuple(flush)
