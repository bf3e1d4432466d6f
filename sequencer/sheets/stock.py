"""Leaves, parts, sticks and test pieces as lists: what is alike stands in one line."""

from __future__ import annotations

from collections.abc import Hashable, Sequence
from fractions import Fraction

from msgspec import Struct

from sequencer.instructions import words
from sequencer.instructions.figures import Figure, Scale
from sequencer.instructions.glued import boards_words
from sequencer.instructions.spent import Ends, ends_of
from sequencer.plan import Door, Feature, Part, Plan, Size, Stick
from sequencer.records import replace
from sequencer.sheets import svg
from sequencer.sheets.cover import covered
from sequencer.sheets.layouts import stick_drawing, stick_scale
from sequencer.sheets.leaf import leaf_drawing, leaf_scale
from sequencer.sheets.pieces import Pieces
from sequencer.sheets.runs import alike, together
from sequencer.stock.resaw import Resawn, as_planned
from sequencer.wording import Room, lacks, papers

_CAPTION = 130
"""Points that the words over a strip's drawing take at least."""

Figures = tuple[Figure, Figure, Figure]
"""Length, width, thickness."""


class DoorLine(Struct, frozen=True):
    """Leaves that are alike: their marks, what they are, and the picture of the first."""

    marks: tuple[str, ...]
    name: str
    size: tuple[Figure, Figure]
    opening: tuple[Figure, Figure]
    hinge: str
    gaps: str
    face: str
    drawing: str

    @property
    def together(self) -> str:
        return together(self.marks)


class PartLine(Struct, frozen=True):
    """Parts that are alike."""

    marks: tuple[str, ...]
    name: str
    material: str
    size: Figures
    joints: str


class StickLine(Struct, frozen=True):
    mark: str
    material: str
    blank: Figures
    size: Figures
    pieces: tuple[str, ...]
    test: bool
    halved: bool = False
    hands: str = ""
    """Which of its pieces lie in it turned end for end, and of which either hand would do."""
    note: str = ""
    """How it comes out of one piece with another stick, of which the second has no blank of its
    own; or of how many boards it is glued up."""


class Laid(Struct, frozen=True):
    """Strips of one size whose pieces lie alike: the first, whose picture shows them, and the marks
    of the others. Fewer than four alike have a picture each."""

    first: StickLine
    drawing: str
    others: tuple[str, ...] = ()

    @property
    def together(self) -> str:
        return together(self.others)

    @property
    def across(self) -> float:
        """Points that the drawing takes, with what stands over it."""
        return max(svg.size_of(self.drawing)[0], _CAPTION)


class ScrapLine(Struct, frozen=True):
    """A test piece; `spent` is what is sawn off a spent end, and how often; empty where it has no
    end that is."""

    mark: str
    size: Figures
    serves: str
    spent: str


def doors(plan: Plan, scale: Scale) -> tuple[tuple[DoorLine, ...], bool]:
    """Leaves of one size, hinge, opening and name together, and whether they stand beside the list
    of the first page."""
    if not plan.doors:
        return (), True
    made = {part.mark: part for part in plan.parts}
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
    points, beside = covered([first.size for _, first in found.values()], leaf_scale(plan))
    lines = tuple(
        replace(
            line, marks=tuple(marks), drawing=leaf_drawing(first, made, points, lapped, scale.room)
        )
        for line, (marks, first) in found.items()
    )
    return lines, beside


def _door(door: Door, several: bool, scale: Scale) -> DoorLine:
    """Without marks and picture, so that equal doors are equal."""
    room = scale.room
    name = room.say(door.name)
    return DoorLine(
        marks=(),
        name=room.text(papers.OF_JOB, job=door.job, door=name)
        if several and door.job != name
        else name,
        size=(scale.figure(door.size[0]), scale.figure(door.size[1])),
        opening=(scale.figure(door.opening[0]), scale.figure(door.opening[1])),
        hinge=room.term(door.hinge),
        gaps=_gaps(door, scale),
        face=room.text(papers.FACE_OUT if door.face_side == "out" else papers.FACE_IN),
        drawing="",
    )


def _gaps(door: Door, scale: Scale) -> str:
    """`top, bottom, hinge 3/32; meeting 1/8`; what is below 0 laps over the case."""
    found: dict[Fraction, list[str]] = {}
    for name, gap in door.gaps.items():
        found.setdefault(gap, []).append(name)
    room = scale.room
    return "; ".join(
        room.text(
            papers.GAP_LAPS if gap < 0 else papers.GAP,
            sides=tuple(room.term(f"gap.{name}") for name in names),
            gap=scale.text(gap),
        )
        for gap, names in found.items()
    )


def parts(plan: Plan, scale: Scale) -> tuple[PartLine, ...]:
    """Parts of one name, wood, size and joints together."""
    found: dict[PartLine, list[str]] = {}
    for part in plan.parts:
        size = figures(part.size, scale)
        line = PartLine(
            (),
            scale.room.say(part.name),
            scale.room.own(part.material),
            size,
            part_joints(part, scale.room),
        )
        found.setdefault(line, []).append(part.mark)
    return tuple(replace(line, marks=tuple(marks)) for line, marks in found.items())


def part_joints(part: Part, room: Room) -> str:
    """A part's joints in words: `slot at A and B; groove`."""
    ends: dict[str, list[str]] = {}
    for feature in part.features:
        at = ends.setdefault(joint(part, feature), [])
        if feature.at not in at:
            at.append(feature.at)
    told = []
    for term, places in ends.items():
        name = room.term(term)
        where = [place for place in places if place in ("A", "B")]
        if len(where) == 2 and len(places) == 4:
            told.append(room.text(lacks.JOINT_ALL_ROUND, joint=name))
        elif where:
            told.append(room.text(lacks.JOINT_AT, joint=name, ends=room.listed(where)))
        else:
            told.append(name)
    return "; ".join(told)


def joint(part: Part, feature: Feature) -> str:
    """The term for what the feature is of."""
    if lapped(part, feature):
        return "lacks.half-lap"
    return "lacks.tongue" if tongued(part, feature) else f"lacks.{feature.kind}"


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


def figures(size: Size, scale: Scale) -> Figures:
    return scale.figure(size.length), scale.figure(size.width), scale.figure(size.thickness)


def sticks(plan: Plan, scale: Scale) -> tuple[StickLine, ...]:
    whole = {each.first.mark: each for each in as_planned(plan)}
    halves = {each.second.mark: each for each in whole.values()}
    return tuple(
        _stick(stick, plan, scale, whole.get(stick.mark), halves.get(stick.mark))
        for stick in plan.sticks
    )


def _stick(
    stick: Stick,
    plan: Plan,
    scale: Scale,
    whole: Resawn | None,
    half: Resawn | None,
) -> StickLine:
    """`whole`, where it is the first of two that are resawn from one piece, `half` the second."""
    room = scale.room
    blank = stick.blank if whole is None else whole.blank.size
    note = boards_words(stick, plan, scale)
    if whole is not None:
        note = room.text(papers.RESAWN, first=stick.mark, second=whole.second.mark)
    return StickLine(
        mark=stick.mark,
        material=room.own(stick.material),
        blank=figures(blank, scale),
        note=room.text(papers.OTHER_HALF, mark=half.first.mark) if half else note,
        halved=half is not None,
        size=figures(stick.size, scale),
        pieces=tuple(piece.mark for piece in stick.pieces),
        hands=_hands(stick, room),
        test=stick.test,
    )


def blanks(lines: Sequence[StickLine]) -> tuple[tuple[StickLine, ...], ...]:
    """The strips as they are laid out: many of one wood and size together."""

    def kind(line: StickLine) -> Hashable:
        own = line.mark if line.halved or line.test else ""
        return own, line.note, line.material, line.blank, line.size[1]

    return tuple(alike(lines, kind))


def laid(plan: Plan, lines: Sequence[StickLine], scale: Scale) -> tuple[Laid, ...]:
    """The pictures of all strips, whose `lines` are in the order of the plan."""
    if not plan.sticks:
        return ()
    pieces = Pieces(plan)
    points = stick_scale(plan)
    told = {line.mark: line for line in lines}

    def kind(stick: Stick) -> Hashable:
        places = tuple(
            (place.start, pieces.size(place.mark), place.end_a, place.remarked)
            for place in stick.pieces
        )
        return stick.material, stick.size, stick.marked, stick.test, places

    return tuple(
        Laid(
            told[first.mark],
            stick_drawing(first, pieces, points, scale),
            tuple(stick.mark for stick in others),
        )
        for first, *others in alike(plan.sticks, kind)
    )


def _hands(stick: Stick, room: Room) -> str:
    either = tuple(piece.mark for piece in stick.pieces if piece.remarked)
    turned = tuple(
        piece.mark for piece in stick.pieces if piece.end_a == "right" and not piece.remarked
    )
    told = [room.text(papers.TURNED, marks=turned)] if turned else []
    if either:
        told.append(room.text(papers.EITHER_HAND, marks=either))
    return "; ".join(told)


def scrap(plan: Plan, scale: Scale) -> tuple[ScrapLine, ...]:
    return tuple(
        ScrapLine(
            piece.mark,
            figures(piece.size, scale),
            words.runs(piece.serves),
            _spent(ends_of(plan, piece.mark), scale),
        )
        for piece in plan.scrap
    )


def _spent(ends: Ends | None, scale: Scale) -> str:
    if ends is None:
        return ""
    if not ends.times:
        return scale.room.text(papers.OTHER_END)
    return scale.room.text(papers.SAWN_OFF, off=scale.told(ends.off), times=ends.times)
