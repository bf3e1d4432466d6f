"""A part by itself with its joints, lying as it is looked at on the bench: the marked face up, the
inside edge toward the person."""

from __future__ import annotations

from sequencer.instructions.words import marked_faces
from sequencer.plan import Marked, Part, Plan
from sequencer.proof.cells import Bit
from sequencer.proof.compare import design_of
from sequencer.proof.grain import Grain, grain_of
from sequencer.proof.hands import Marks, Y, Z, in_hand
from sequencer.proof.solid import Solid, bounds
from sequencer.sheets.rounds.breaks import uncrossed
from sequencer.sheets.rounds.camera import Camera
from sequencer.sheets.rounds.chalk import chalked
from sequencer.sheets.rounds.ink import fitted, layers, painted, seen_at, svg
from sequencer.sheets.rounds.lying import framed, placing, shortened
from sequencer.sheets.rounds.order import ordered
from sequencer.sheets.rounds.pose import Posed, corners_of, extent_of, named
from sequencer.sheets.rounds.surfaces import Spot, Surface, surfaces
from sequencer.wording import Room, pictures

WIDE, HIGH = 82.0, 34.0
_CHALK = 3.0
_LONGEST = 165.0  # mm of the wood


def part_picture(
    plan: Plan, part: Part, room: Room, width: float = WIDE, height: float = HIGH
) -> str:
    """The part as it is designed, as SVG in mm."""
    posed = part_posed(plan, part)
    sheet = fitted(
        posed.camera, [posed.into(c) for c in corners_of(posed.box)], width, height, 1, 1
    )
    found = layers(ordered(posed.wood), sheet)

    def seen(spot: Spot) -> Surface | None:
        return seen_at(found, sheet.at(spot))

    marks = [*posed.broken(), *chalked(posed, seen, _CHALK / sheet.scale)]
    says = room.text(pictures.NAMED, mark=part.mark, name=room.say(part.name))
    return svg(width, height, painted(found, marks, sheet), says)


def part_posed(plan: Plan, part: Part, longest: float | None = None) -> Posed:
    """The part as it lies; drawn no longer than `longest`, in mm, where that can be."""
    grain = grain_of(plan)
    marks = in_hand(plan).get(part.mark, Marks())
    marked = marked_faces(plan).get(part.mark, "face")
    mm = grain_mm(grain)
    return posed(design_of(part, marks, grain), marks, marked, mm, longest)


def posed(solid: Solid, marks: Marks, marked: Marked, mm: float, longest: float | None) -> Posed:
    """Wood by itself, its marked face up and its inside edge toward the person."""
    axis, way = marks.at(marked)
    axes = framed({axis: (Z, way), Y: (Y, 1)})
    most = _LONGEST if longest is None else longest
    bits: list[Bit] = list(solid)
    short = shortened(bits, (), int(most / mm), int(16 / mm))
    drawn = short.bits([("wood", bit) for bit in bits])
    box = bounds(tuple(bit for _, bit in drawn))
    into = placing(axes, mm)
    camera = Camera()
    breaks = [(each.axis, float(each.at) * mm) for each in short.breaks]
    wood = surfaces(
        drawn, into, camera.toward, named(marks, box), marked,
        lambda line: uncrossed(line, breaks, mm),
    )  # fmt: skip
    low, high = float(box[0]), float(box[1])
    ends = {"A": low, "B": high} if marks.end_a < 0 else {"A": high, "B": low}
    return Posed(camera, wood, extent_of(box, into), box, short, into, mm, marks, marked, ends)


def grain_mm(grain: Grain) -> float:
    """One grain in mm."""
    return (25.4 if grain.unit == "in" else 1.0) / grain.parts
