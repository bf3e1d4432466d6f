"""Stiles and rails: parts and features, places in the door, and what the bench takes off their
ends."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from fractions import Fraction

from sequencer.doors.leaf import end_box
from sequencer.doors.measure import ZERO, Frame
from sequencer.facts import parts as called
from sequencer.job.schema import Door
from sequencer.joints import Corner, Joint, JointSizes
from sequencer.plan import Feature, Part, Place, Removal, Size
from sequencer.records import replace


def make_members(
    spec: Door,
    mark: str,
    frame: Frame,
    joint: Joint,
    sizes: JointSizes,
    let_in: Mapping[str, Sequence[Feature]],
) -> tuple[Part, ...]:
    """Left stile, right stile, top rail, bottom rail; `let_in` is what bars take from each. A
    shaped rail has no groove yet: it follows the shape."""
    free = spec.free_side
    left, right = ("hinge", free) if frame.hinge == "left" else (free, "hinge")
    widths = {1: frame.left, 2: frame.right, 3: frame.top, 4: frame.bottom}
    names = {1: f"{left}-stile", 2: f"{right}-stile", 3: "top-rail", 4: "bottom-rail"}
    corners = [_corner(mark, stile, rail, frame) for stile in (1, 2) for rail in (3, 4)]
    parts: list[Part] = []
    for number, width in widths.items():
        is_stile = number < 3
        length = frame.stile_length if is_stile else frame.rail_length
        shaped = number == 3 and frame.curve is not None
        # No groove's pass trims the tenons of a rail that is grooved after them.
        joined = replace(sizes, groove=(ZERO, ZERO), groove_depth=ZERO) if shaped else sizes
        own = f"{mark}{number}"
        features = [
            feature
            for corner in corners
            if own in (corner.stile, corner.rail)
            for feature in (joint.in_stile if is_stile else joint.in_rail)(corner, joined)
        ]
        edges = () if shaped else along_edges(spec, length, width, sizes, ("inside-edge",))
        parts.append(
            Part(
                mark=own,
                door=mark,
                role="stile" if is_stile else "rail",
                name=called.NAMED(name=names[number]),
                material=spec.species,
                size=Size(length, width, sizes.thickness),
                features=(*features, *let_in.get(own, ()), *edges),
            )
        )
    return tuple(parts)


def along_edges(
    spec: Door, length: Fraction, width: Fraction, sizes: JointSizes, edges: Sequence[str]
) -> Iterator[Feature]:
    """The groove, or for glass the rebate, along edges of a piece."""
    depth = sizes.groove_depth
    for edge in edges:
        across = (ZERO, depth) if edge == "inside-edge" else (width - depth, width)
        kind = "rebate" if spec.glazed else "groove"
        yield Feature(kind, edge, ((ZERO, length), across, sizes.groove))


def _corner(mark: str, stile: int, rail: int, frame: Frame) -> Corner:
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
        tenon_width=frame.tenon("top" if top else "bottom", "left" if left else "right"),
        proud=frame.proud,
    )


def member_places(mark: str, frame: Frame) -> tuple[Place, ...]:
    start, above = frame.rail_start, frame.above
    return (
        Place(f"{mark}1", (frame.left, above, ZERO), ("-y", "-x", "+z")),
        Place(f"{mark}2", (frame.width - frame.right, above, ZERO), ("-y", "+x", "+z")),
        Place(f"{mark}3", (start, frame.height - frame.top, ZERO), ("+x", "+y", "+z")),
        Place(f"{mark}4", (start, frame.bottom, ZERO), ("+x", "-y", "+z")),
    )


def end_work(
    members: Sequence[Part], frame: Frame
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
            if surplus > 0:
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
