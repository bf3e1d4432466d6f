"""A framed leaf: two slotted stiles, two tenoned rails and a floating panel, sized and placed."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from sequencer.doors.joint import JointSizes
from sequencer.errors import Refusal
from sequencer.job.schema import Door, Side
from sequencer.plan import Box, Feature, Part, Place, Removal, Size
from sequencer.plan import Door as PlacedDoor

ZERO = Fraction(0)


@dataclass(frozen=True, slots=True)
class Leaf:
    """One leaf of a door: its parts and how they were sized. Parts are stiles, rails, panel, in
    the order of their marks; `trims` and `flush` are what the bench takes off them after the dry
    fit and after glue; `sight` is the opening inside the dry frame, width and height."""

    spec: Door
    door: PlacedDoor
    joint: JointSizes
    parts: tuple[Part, ...]
    sight: tuple[Fraction, Fraction]
    trims: tuple[Removal, ...]
    flush: tuple[Removal, ...]

    @property
    def panel(self) -> Part:
        return self.parts[4]

    @property
    def frame(self) -> tuple[Part, ...]:
        return self.parts[:4]


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
    left_tenon: Fraction
    right_tenon: Fraction


def make_leaf(
    spec: Door, index: int, joint: JointSizes, widths: tuple[Fraction, Fraction], job: str
) -> Leaf:
    """Leaf number `index`, from the left, with top and bottom tenons of the given `widths`."""
    mark = spec.marks[index]
    hinge = _hinge_side(spec, index)
    frame = _measure(spec, hinge, widths)
    parts = _parts(spec, mark, hinge, frame, joint)
    sight = (frame.width - frame.left - frame.right, frame.height - frame.top - frame.bottom)
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
        places=_places(parts, frame, joint),
    )
    return Leaf(spec, door, joint, parts, sight, *_bench(parts, frame))


def natural_tenons(spec: Door) -> tuple[Fraction, Fraction]:
    """Top and bottom tenon widths as the groove leaves them: rail width less groove depth."""
    return spec.top_rail - spec.groove.depth, spec.bottom_rail - spec.groove.depth


def _hinge_side(spec: Door, index: int) -> Side:
    if spec.leaves == 1:
        return spec.hinge
    return "left" if index == 0 else "right"


def _measure(spec: Door, hinge: Side, widths: tuple[Fraction, Fraction]) -> _Frame:
    gaps = spec.gaps
    if gaps.meeting is None:
        width = spec.opening.width - gaps.hinge - gaps.lock
    else:
        width = (spec.opening.width - 2 * gaps.hinge - gaps.meeting) / 2
    height = spec.opening.height - gaps.top - gaps.bottom
    stiles = (spec.hinge_stile, spec.free_stile)
    left, right = stiles if hinge == "left" else stiles[::-1]
    proud = spec.joint.proud
    one = spec.joint.tenons == "one length"
    frame = _Frame(
        width=width,
        height=height,
        left=left,
        right=right,
        top=spec.top_rail,
        bottom=spec.bottom_rail,
        proud=proud,
        top_tenon=widths[0],
        bottom_tenon=widths[1],
        left_tenon=(max(stiles) if one else left) + proud,
        right_tenon=(max(stiles) if one else right) + proud,
    )
    if width - left - right <= 0 or height - frame.top - frame.bottom <= 0 or min(widths) <= 0:
        raise Refusal(f"{spec.where}: stiles, rails and groove leave no room for a panel")
    return frame


def _parts(
    spec: Door, mark: str, hinge: Side, frame: _Frame, joint: JointSizes
) -> tuple[Part, ...]:
    free = "meeting" if spec.leaves == 2 else "lock"
    left, right = ("hinge", free) if hinge == "left" else (free, "hinge")
    stiles = (
        _stile(spec, mark, 1, left, frame.left, frame, joint),
        _stile(spec, mark, 2, right, frame.right, frame, joint),
    )
    rails = (
        _rail(spec, mark, 3, "top", frame.top, frame.top_tenon, frame, joint),
        _rail(spec, mark, 4, "bottom", frame.bottom, frame.bottom_tenon, frame, joint),
    )
    inside = 2 * (joint.groove_depth - spec.panel.play_side)
    along = 2 * (joint.groove_depth - spec.panel.play_end)
    panel = Part(
        mark=f"{mark}5",
        door=mark,
        role="panel",
        name="panel",
        material=spec.panel.species,
        size=Size(
            length=frame.height - frame.top - frame.bottom + along,
            width=frame.width - frame.left - frame.right + inside,
            thickness=joint.panel,
        ),
        features=(),
    )
    return (*stiles, *rails, panel)


def _stile(
    spec: Door,
    mark: str,
    number: int,
    name: str,
    width: Fraction,
    frame: _Frame,
    joint: JointSizes,
) -> Part:
    length = frame.height + 2 * frame.proud
    top = frame.top_tenon + frame.proud
    bottom = length - frame.bottom_tenon - frame.proud
    rail_end = "A" if number == 1 else "B"
    across = (ZERO, width)
    return Part(
        mark=f"{mark}{number}",
        door=mark,
        role="stile",
        name=f"{name} stile",
        material=spec.species,
        size=Size(length, width, joint.thickness),
        features=(
            Feature("slot", "A", ((ZERO, top), across, joint.slot), f"{mark}3/{rail_end}"),
            Feature("slot", "B", ((bottom, length), across, joint.slot), f"{mark}4/{rail_end}"),
            _groove(length, joint),
        ),
    )


def _rail(
    spec: Door,
    mark: str,
    number: int,
    name: str,
    width: Fraction,
    tenon_width: Fraction,
    frame: _Frame,
    joint: JointSizes,
) -> Part:
    shoulders = frame.width - frame.left - frame.right
    length = frame.left_tenon + shoulders + frame.right_tenon
    stile_end = "A" if number == 3 else "B"
    features: list[Feature] = []
    for at, stile, along in (
        ("A", f"{mark}1", (ZERO, frame.left_tenon)),
        ("B", f"{mark}2", (length - frame.right_tenon, length)),
    ):
        mate = f"{stile}/{stile_end}"
        features += (
            Feature("cheek", at, (along, (ZERO, width), span), mate)
            for span in ((ZERO, joint.tenon[0]), (joint.tenon[1], joint.thickness))
        )
        edge = width - tenon_width
        if not joint.trimmed or edge > joint.groove_depth:
            box: Box = (along, (ZERO, edge), (ZERO, joint.thickness))
            features.append(Feature("edge-cheek", at, box, mate))
    return Part(
        mark=f"{mark}{number}",
        door=mark,
        role="rail",
        name=f"{name} rail",
        material=spec.species,
        size=Size(length, width, joint.thickness),
        features=(*features, _groove(length, joint)),
    )


def _groove(length: Fraction, joint: JointSizes) -> Feature:
    return Feature(
        "groove", "inside-edge", ((ZERO, length), (ZERO, joint.groove_depth), joint.groove)
    )


def _places(parts: tuple[Part, ...], frame: _Frame, joint: JointSizes) -> tuple[Place, ...]:
    left, right, top, bottom, panel = parts
    above = frame.height + frame.proud
    tenon_start = frame.left - frame.left_tenon
    play_x = (panel.size.width - (frame.width - frame.left - frame.right)) / 2
    play_y = (panel.size.length - (frame.height - frame.top - frame.bottom)) / 2
    play_z = joint.groove[0] + (joint.groove[1] - joint.groove[0] - joint.panel) / 2
    return (
        Place(left.mark, (frame.left, above, ZERO), ("-y", "-x", "+z")),
        Place(right.mark, (frame.width - frame.right, above, ZERO), ("-y", "+x", "+z")),
        Place(top.mark, (tenon_start, frame.height - frame.top, ZERO), ("+x", "+y", "+z")),
        Place(bottom.mark, (tenon_start, frame.bottom, ZERO), ("+x", "-y", "+z")),
        Place(
            panel.mark,
            (frame.left - play_x, frame.height - frame.top + play_y, play_z),
            ("-y", "+x", "+z"),
        ),
    )


def _bench(
    parts: tuple[Part, ...], frame: _Frame
) -> tuple[tuple[Removal, ...], tuple[Removal, ...]]:
    """What is sawn off after the dry fit, and what is planed flush after glue."""
    trims: list[Removal] = []
    flush: list[Removal] = []
    proud = frame.proud
    ends = {
        "A": frame.left_tenon - frame.left - proud,
        "B": frame.right_tenon - frame.right - proud,
    }
    for rail in parts[2:4]:
        for at, surplus in ends.items():
            if surplus:
                trims.append(Removal(rail.mark, end_box(rail, at, surplus, ZERO)))
            if proud:
                flush.append(Removal(rail.mark, end_box(rail, at, surplus + proud, surplus)))
    if proud:
        flush = [
            Removal(stile.mark, end_box(stile, at, proud, ZERO))
            for stile in parts[:2]
            for at in ("A", "B")
        ] + flush
    return tuple(trims), tuple(flush)


def end_box(part: Part, at: str, to: Fraction, start: Fraction) -> Box:
    """A slice of the whole section, `start` to `to` from end `at`."""
    size = part.size
    along = (start, to) if at == "A" else (size.length - to, size.length - start)
    return (along, (ZERO, size.width), (ZERO, size.thickness))
