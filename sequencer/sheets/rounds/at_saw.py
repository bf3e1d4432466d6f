"""The picture of one setup in the round."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import cached_property

from msgspec import Struct

from sequencer.instructions import words
from sequencer.plan import Plan
from sequencer.proof.carriers import CARRIERS
from sequencer.proof.cells import as_cell
from sequencer.sheets.rounds.callouts import Callout, Placed, placed, written
from sequencer.sheets.rounds.chalk import chalked
from sequencer.sheets.rounds.flat import Point
from sequencer.sheets.rounds.ink import (
    POINTS,
    WIDTHS,
    Layer,
    Mark,
    Sheet,
    fitted,
    layers,
    open_arrow,
    painted,
    seen_at,
    svg,
)
from sequencer.sheets.rounds.order import Painted, ordered
from sequencer.sheets.rounds.scene import Scene, scene_of
from sequencer.sheets.rounds.surfaces import Spot, Surface
from sequencer.sheets.rounds.walk import Moment
from sequencer.wording import Room, saws

_CHALK = 3.0  # mm on the page
_DASH = "0.8 0.6"
_CELL = 2.4  # mm: how finely it is asked what a word would hide


class Frame(Struct, frozen=True):
    """How large a picture is, in mm, and whether words stand in it."""

    width: float
    height: float
    words: bool
    fine: float = 1.0
    """What widths of lines and sizes of chalk are times."""


LARGE = Frame(62.0, 45.0, words=True)
SMALL = Frame(30.0, 14.5, words=False, fine=0.72)


@dataclass(frozen=True)
class Subject:
    """A setup as it is seen, for pictures of it in several sizes: what they share is worked out
    when one of them is drawn, and once."""

    plan: Plan
    moment: Moment
    room: Room

    @cached_property
    def scene(self) -> Scene:
        return scene_of(self.plan, self.moment)

    @cached_property
    def things(self) -> list[Painted]:
        """All that is seen, from back to front."""
        return list(ordered([*self.scene.wood, *self.scene.around]))

    @cached_property
    def broken(self) -> list[Mark]:
        return list(self.scene.broken())


class Picture(Struct, frozen=True):
    """A picture of a setup, drawn where it is printed: most setups have one that is not."""

    subject: Subject
    frame: Frame

    @property
    def high(self) -> float:
        """In points."""
        return self.frame.height * POINTS

    def __html__(self) -> str:
        return drawn(self.subject, self.frame)


def picture(plan: Plan, moment: Moment, room: Room, frame: Frame = LARGE) -> str:
    """The setup of a moment as SVG."""
    return drawn(Subject(plan, moment, room), frame)


def drawn(subject: Subject, frame: Frame) -> str:
    """The setup as SVG."""
    scene, room = subject.scene, subject.room
    sheet = fitted(scene.camera, scene.focus, frame.width, frame.height, 1.5, 1.0)
    found = layers(subject.things, sheet)
    fine = frame.fine

    def seen(spot: Spot) -> Surface | None:
        return seen_at(found, sheet.at(spot))

    chalk = list(chalked(scene, seen, _CHALK * fine / sheet.scale))
    marks = [
        *_flat(scene),
        *_arrow(scene, sheet, fine),
        *subject.broken,
        *_later(scene),
        *chalk,
    ]
    shapes = [*painted(found, marks, sheet, fine=fine), *_falls(scene, sheet, fine)]
    if frame.words:
        shapes += written(_named(scene, sheet, chalk, found, frame, room))
    moment = scene.moment
    says = words.passes(
        (moment.cut,), words.Rest.of(moment.setup, subject.plan), moment.marked, room
    )
    return svg(frame.width, frame.height, shapes, says)


def _named(
    scene: Scene,
    sheet: Sheet,
    chalk: Sequence[Mark],
    found: Sequence[Layer],
    frame: Frame,
    room: Room,
) -> list[Placed]:
    """The words in the picture: the guide, the marked face, the inside edge, where they show."""
    moment = scene.moment
    callouts = []
    if moment.made.guide is not None:
        name = saws.carrier(moment.setup.carrier, room).surface
        callouts.append(Callout(name, sheet.at(scene.guide_at)))
    for mark in chalk:
        if mark.kind == "wedge":
            tip = sheet.at(mark.spots[0])
            callouts.append(Callout(room.term("side.inside-edge"), tip))

    known: dict[tuple[int, int], str] = {}

    def label(point: Point) -> str:
        cell = round(point[0] / _CELL), round(point[1] / _CELL)
        if cell not in known:
            surface = seen_at(found, (cell[0] * _CELL, cell[1] * _CELL))
            known[cell] = "" if surface is None else surface.label
        return known[cell]

    x, y = scene.arrow
    pushed = sheet.at((x, y + 4 / sheet.scale, scene.floor))
    letters = [sheet.at(mark.spots[0]) for mark in chalk if mark.kind.startswith("end")]
    return placed(callouts, label, frame.width, frame.height, (pushed, *letters))


def _flat(scene: Scene) -> list[Mark]:
    grounds = _grounds(scene)
    found = [Mark(corners, grounds, grey) for corners, grey in scene.slots]
    found += [Mark([a, b], grounds, width=0.2, dash=dash) for a, b, dash in scene.dashes]
    return found


def _grounds(scene: Scene) -> list[Surface]:
    return [
        each
        for each in scene.around
        if each.label in ("table", "sled")
        and each.normal[2] > 0.9
        and abs(each.corners[0][2] - scene.floor) < 1e-6
    ]


def _later(scene: Scene) -> Iterator[Mark]:
    """The passes after turning, dashed where they open on the wood's outside; and how deep this one
    goes, on the side that looks away from the guide."""
    drawn = scene.short.bits([("", bit) for bit in scene.moment.later])
    for _, bit in drawn:
        for _, loop in as_cell(bit).faces:
            corners = [scene.into((v[0] / v[3], v[1] / v[3], v[2] / v[3])) for v in loop]
            on = [surface for surface in scene.wood if _in_plane(surface, corners)]
            if on:
                yield Mark(
                    [*corners, corners[0]], on, width=WIDTHS["dash"], dash=_DASH, kind="later"
                )
    made = scene.moment.made
    if made.keeps is None and not made.tilt and not CARRIERS[made.carrier].slanted:
        out, top = -scene.guide_side, scene.floor + made.depth * scene.mm
        x = scene.extent[0][0] if out < 0 else scene.extent[0][1]
        on = [each for each in scene.wood if each.normal[0] * out > 0.99]
        yield Mark(
            [(x, y, top) for y in scene.extent[1]],
            on,
            width=WIDTHS["dash"],
            dash=_DASH,
            kind="deep",
        )


def _in_plane(surface: Surface, corners: Sequence[Spot]) -> bool:
    normal, at = surface.normal, surface.corners[0]
    return all(
        abs(sum(n * (a - b) for n, a, b in zip(normal, corner, at, strict=True))) < 1e-4
        for corner in corners
    )


def _arrow(scene: Scene, sheet: Sheet, fine: float) -> Iterator[Mark]:
    """Which way the wood is pushed, on table or deck at the open side."""
    x, y = scene.arrow
    one = fine / sheet.scale
    half, head, long = 0.5 * one, 2.6 * one, 8.0 * one
    shaft = [(x - half, y), (x + half, y), (x + half, y + long - head), (x - half, y + long - head)]
    tip = [(x - 3.2 * half, y + long - head), (x + 3.2 * half, y + long - head), (x, y + long)]
    for corners in (shaft, tip):
        yield Mark([(a, b, scene.floor) for a, b in corners], _grounds(scene), kind="push")


def _falls(scene: Scene, sheet: Sheet, fine: float) -> list[str]:
    """An open arrow from what comes loose to where it comes to lie."""
    waste = scene.moment.cut.waste
    loose = [each for each in scene.wood if each.label == "waste"]
    if waste is None or waste.what not in ("offcut", "strip", "cheek") or not loose:
        return []
    out = scene.guide_side if waste.side == "guide" else -scene.guide_side
    spots = [corner for each in loose for corner in each.corners]
    x = max(out * spot[0] for spot in spots) * out
    y = sum(spot[1] for spot in spots) / len(spots)
    top = max(spot[2] for spot in spots)
    one = fine / sheet.scale
    start = sheet.at((x - out * 1.2 * one, y, (top + scene.floor) / 2))
    end = sheet.at((x + out * 6.0 * one, y, scene.floor))
    return [open_arrow(start, end, fine)]
