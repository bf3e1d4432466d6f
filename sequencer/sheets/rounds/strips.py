"""A strip in the round, as it lies to be crosscut: its marked face up, its inside edge toward the
person, its pieces of either hand with their ends, the kerfs between them, the offcut."""

from __future__ import annotations

from collections.abc import Iterator
from functools import partial

from sequencer.plan import Plan, Stick
from sequencer.proof.cells import Bit, Length
from sequencer.proof.grain import Grain, grain_of
from sequencer.proof.hands import STICK, X, Y, Z
from sequencer.proof.solid import bounds
from sequencer.records import replace
from sequencer.sheets.rounds.breaks import uncrossed
from sequencer.sheets.rounds.callouts import lettered
from sequencer.sheets.rounds.camera import Camera
from sequencer.sheets.rounds.chalk import chalked
from sequencer.sheets.rounds.ink import Mark, fitted, layers, painted, seen_at, svg
from sequencer.sheets.rounds.lying import Shortened, Span, framed, placing
from sequencer.sheets.rounds.order import ordered
from sequencer.sheets.rounds.parts import grain_mm
from sequencer.sheets.rounds.pose import Posed, corners_of, extent_of, named
from sequencer.sheets.rounds.surfaces import Spot, Surface, surfaces
from sequencer.wording import Room, pictures

_CAMERA = Camera(-1, 0.2, 0.75)
_PIECE = 96.0  # mm of the wood that are drawn of a piece, at the least
_ACROSS = 80.0  # of its width, at the most
_CHALK = 2.2
_TYPE = 3.2  # mm, of a mark

Stretch = tuple[str, Length, Length]
"""What is along a strip: a piece by its mark, or `kerf` or `waste`, from where to where."""


def strip_picture(
    plan: Plan, stick: Stick, room: Room, width: float = 170.0, height: float = 24.0
) -> str:
    """The strip as SVG in mm."""
    grain = grain_of(plan)
    posed = strip_posed(plan, stick, grain)
    corners = [posed.into(corner) for corner in corners_of(posed.box)]
    sheet = fitted(posed.camera, corners, width, height, 1.0, 0.5)
    found = layers(ordered(posed.wood), sheet)

    def seen(spot: Spot) -> Surface | None:
        return seen_at(found, sheet.at(spot))

    marks: list[Mark] = list(posed.broken())
    shapes_over: list[str] = []
    y = float(posed.box[2] + posed.box[3]) / 2
    face = float(posed.box[5] if stick.marked == "face" else posed.box[4])
    ends = {piece.mark: piece.end_a for piece in stick.pieces}
    for mark, low, high in _stretches(plan, stick, grain):
        if mark not in ends:
            continue
        drawn = [float(posed.short.at(X, place)) for place in (low, high)]
        a, b = drawn if ends[mark] == "left" else drawn[::-1]
        own = replace(posed, ends={"A": a, "B": b})
        chalk = chalked(own, seen, _CHALK / sheet.scale)
        marks += [each for each in chalk if each.kind != "wedge"]
        middle = (drawn[0] + drawn[1]) / 2
        shapes_over += lettered(mark, sheet.at(posed.into((middle, y, face))), _TYPE)
    marks += chalked(posed, seen, _CHALK / sheet.scale)
    shapes = [*painted(found, marks, sheet), *shapes_over]
    says = room.text(
        pictures.STRIP_OF, mark=stick.mark, marks=tuple(piece.mark for piece in stick.pieces)
    )
    return svg(width, height, shapes, says)


def strip_posed(plan: Plan, stick: Stick, grain: Grain) -> Posed:
    """The strip as it lies, each piece drawn shorter by itself."""
    mm = grain_mm(grain)
    wide, thick = grain.of(stick.size.width), grain.of(stick.size.thickness)
    bits: list[tuple[str, Bit]] = []
    for mark, low, high in _stretches(plan, stick, grain):
        label = mark if mark in ("kerf", "waste") else "wood"
        bits.append((label, (low, high, 0, wide, 0, thick)))
    short = Shortened()
    across = min(wide, int(_ACROSS / mm))
    if across < wide:
        short.out[Y] = [_middle(0, wide, across)]
    most = max(int(_PIECE / mm), across * 2)
    long = [(bit[0], bit[1]) for _, bit in bits if bit[1] - bit[0] > most + 12 / mm]
    if long:
        short.out[X] = [_middle(low, high, most) for low, high in long]
    drawn = short.bits(bits)
    box = bounds(tuple(bit for _, bit in drawn))
    axis, way = STICK.at(stick.marked)
    into = placing(framed({axis: (Z, way), Y: (Y, 1)}), mm)
    breaks = [(each.axis, float(each.at) * mm) for each in short.breaks]
    whole = partial(uncrossed, breaks=breaks, mm=mm)
    wood = surfaces(drawn, into, _CAMERA.toward, named(STICK, box), stick.marked, whole)
    return Posed(_CAMERA, wood, extent_of(box, into), box, short, into, mm, STICK, stick.marked)


def _middle(low: Length, high: Length, most: Length) -> Span:
    """What to leave out in the middle of a stretch that is drawn `most` long."""
    start = int(low + most // 2)
    return start, start + int(high - low - most)


def _stretches(plan: Plan, stick: Stick, grain: Grain) -> Iterator[Stretch]:
    """What is along the strip from its end A, in grains."""
    lengths = {part.mark: part.size.length for part in plan.parts}
    lengths |= {scrap.mark: scrap.size.length for scrap in plan.scrap}
    end = grain.of(stick.size.length)
    if not stick.pieces:
        yield stick.mark, 0, end
        return
    at: Length = 0
    for piece in stick.pieces:
        start = grain.of(piece.start)
        if start > at:
            yield ("kerf" if at else "waste"), at, start
        at = min(end, start + grain.of(lengths[piece.mark]))
        yield piece.mark, start, at
    if end > at:
        yield "waste", at, end
