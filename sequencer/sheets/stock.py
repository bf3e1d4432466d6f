"""Leaves, parts, sticks and test pieces as lists: what is alike stands in one line."""

from __future__ import annotations

from dataclasses import dataclass, replace
from fractions import Fraction

from sequencer.plan import Door, Feature, Part, Plan, Size, Stick
from sequencer.sheets import words
from sequencer.sheets.figures import Figure, Scale
from sequencer.sheets.layouts import stick_drawing, stick_scale
from sequencer.sheets.leaf import leaf_drawing, leaf_scale
from sequencer.sheets.pieces import Pieces
from sequencer.stock.resaw import Resawn, as_planned

Figures = tuple[Figure, Figure, Figure]
"""Length, width, thickness."""


@dataclass(frozen=True, slots=True)
class DoorLine:
    """Leaves that are alike: their marks, what they are, and the picture of the first."""

    marks: tuple[str, ...]
    name: str
    size: tuple[Figure, Figure]
    opening: tuple[Figure, Figure]
    hinge: str
    gaps: str
    face: str
    drawing: str


@dataclass(frozen=True, slots=True)
class PartLine:
    """Parts that are alike."""

    marks: tuple[str, ...]
    name: str
    material: str
    size: Figures
    joints: str


@dataclass(frozen=True, slots=True)
class StickLine:
    mark: str
    material: str
    blank: Figures
    size: Figures
    pieces: tuple[str, ...]
    test: bool
    drawing: str
    hands: str = ""
    """Which of its pieces lie in it turned end for end, and of which either hand would do."""
    note: str = ""
    """How it comes out of one piece with another stick; the second has no blank of its own."""


@dataclass(frozen=True, slots=True)
class ScrapLine:
    mark: str
    stick: str
    size: Figures
    serves: str


def doors(plan: Plan, scale: Scale) -> tuple[DoorLine, ...]:
    """Leaves of one size, hinge, opening and name together."""
    if not plan.doors:
        return ()
    made = {part.mark: part for part in plan.parts}
    points = leaf_scale(plan)
    lapped = {
        removal.mark: removal.box
        for step in plan.steps
        if step.kind == "rebate meeting"
        for removal in step.removes
        if removal.box[1] != (Fraction(0), made[removal.mark].size.width)
    }
    several = len(plan.jobs) > 1
    found: dict[DoorLine, tuple[list[str], Door]] = {}
    for door in plan.doors:
        line = _door(door, several, scale)
        found.setdefault(line, ([], door))[0].append(door.mark)
    return tuple(
        replace(line, marks=tuple(marks), drawing=leaf_drawing(first, made, points, lapped))
        for line, (marks, first) in found.items()
    )


def _door(door: Door, several: bool, scale: Scale) -> DoorLine:
    """Without marks and picture, so that equal leaves are equal."""
    return DoorLine(
        marks=(),
        name=f"{door.job}: {door.name}" if several and door.job != door.name else door.name,
        size=(scale.figure(door.size[0]), scale.figure(door.size[1])),
        opening=(scale.figure(door.opening[0]), scale.figure(door.opening[1])),
        hinge=door.hinge,
        gaps=_gaps(door, scale),
        face="out" if door.face_side == "out" else "in",
        drawing="",
    )


def _gaps(door: Door, scale: Scale) -> str:
    """`top, bottom, hinge 3/32; meeting 1/8`; what is below 0 laps over the case."""
    found: dict[Fraction, list[str]] = {}
    for name, gap in door.gaps.items():
        found.setdefault(gap, []).append(name)
    return "; ".join(
        f"{', '.join(names)} {'laps over ' if gap < 0 else ''}{scale.text(gap)}"
        for gap, names in found.items()
    )


def parts(plan: Plan, scale: Scale) -> tuple[PartLine, ...]:
    """Parts of one name, wood, size and joints together."""
    found: dict[PartLine, list[str]] = {}
    for part in plan.parts:
        size = figures(part.size, scale)
        line = PartLine((), part.name, part.material, size, part_joints(part))
        found.setdefault(line, []).append(part.mark)
    return tuple(replace(line, marks=tuple(marks)) for line, marks in found.items())


def part_joints(part: Part) -> str:
    """A part's joints in words: `slot at A and B; groove`."""
    ends: dict[str, list[str]] = {}
    for feature in part.features:
        kind = _joint(feature.kind)
        if lapped(part, feature):
            kind = "half-lap"
        elif tongued(part, feature):
            kind = "tongue"
        at = ends.setdefault(kind, [])
        if feature.at not in at:
            at.append(feature.at)
    said = []
    for kind, places in ends.items():
        where = [place for place in places if place in ("A", "B")]
        if len(where) == 2 and len(places) == 4:
            said.append(f"{kind} all round")
            continue
        said.append(f"{kind} at {words.spoken(where)}" if where else kind)
    return "; ".join(said)


def lapped(part: Part, feature: Feature) -> bool:
    """Whether the feature is a half-lap's: a slot that is open to a face, or one cheek alone."""
    if feature.kind == "slot":
        return feature.box[2][0] <= 0 or feature.box[2][1] >= part.size.thickness
    cheeks = [f for f in part.features if f.kind == "cheek" and f.at == feature.at]
    return feature.kind == "cheek" and len(cheeks) == 1 and not _mitred(part, feature.at)


def _mitred(part: Part, at: str) -> bool:
    """A mitre stands in for the front cheek."""
    return any(f.kind == "mitre" and f.at == at for f in part.features)


def tongued(part: Part, feature: Feature) -> bool:
    """Whether it is one of the two rebates that leave a tongue on an edge."""
    beside = [f for f in part.features if f.kind == "rebate" and f.at == feature.at]
    return feature.kind == "rebate" and len({f.box[2] for f in beside}) == 2


def _joint(kind: str) -> str:
    return _JOINTS.get(kind, kind)


_JOINTS = {
    "cheek": "tenon",
    "edge-cheek": "tenon cut to width",
    "mitre": "mitred shoulder",
    "shape": "shaped edge",
}


def figures(size: Size, scale: Scale) -> Figures:
    return scale.figure(size.length), scale.figure(size.width), scale.figure(size.thickness)


def sticks(plan: Plan, scale: Scale) -> tuple[StickLine, ...]:
    if not plan.sticks:
        return ()
    pieces = Pieces(plan)
    points = stick_scale(plan)
    whole = {each.first.mark: each for each in as_planned(plan)}
    halves = {each.second.mark: each for each in whole.values()}
    return tuple(
        _stick(stick, pieces, points, scale, whole.get(stick.mark), halves.get(stick.mark))
        for stick in plan.sticks
    )


def _stick(
    stick: Stick,
    pieces: Pieces,
    points: Fraction,
    scale: Scale,
    whole: Resawn | None,
    half: Resawn | None,
) -> StickLine:
    """`whole`, where it is the first of two that are resawn from one piece, `half` the second."""
    blank = stick.blank if whole is None else whole.blank.size
    note = f"resawn into {stick.mark} and {whole.second.mark}" if whole else ""
    return StickLine(
        mark=stick.mark,
        material=stick.material,
        blank=figures(blank, scale),
        note=f"other half of {half.first.mark}" if half else note,
        size=figures(stick.size, scale),
        pieces=tuple(piece.mark for piece in stick.pieces),
        hands=_hands(stick),
        test=stick.test,
        drawing=stick_drawing(stick, pieces, points, scale),
    )


def _hands(stick: Stick) -> str:
    turned = [piece.mark for piece in stick.pieces if piece.end_a == "right"]
    either = [piece.mark for piece in stick.pieces if piece.remarked]
    said = [f"turned end for end: {', '.join(turned)}"] if turned else []
    if either:
        said.append(f"either hand would do, the marks decide: {', '.join(either)}")
    return "; ".join(said)


def scrap(plan: Plan, scale: Scale) -> tuple[ScrapLine, ...]:
    return tuple(
        ScrapLine(piece.mark, piece.stick, figures(piece.size, scale), words.runs(piece.serves))
        for piece in plan.scrap
    )
