"""The pictures of the examples' setups, held against the proof's solids, point by point, and
against the words that are printed beside them, as the reader reads them."""

from __future__ import annotations

import random
from collections.abc import Sequence
from functools import cache, partial

import pytest

from sequencer.job.schema import Side
from sequencer.proof.solid import cropped, volume
from sequencer.records import replace
from sequencer.sheets import html
from sequencer.sheets.rounds.chalk import chalked
from sequencer.sheets.rounds.ink import Layer, Sheet, layers, seen_at
from sequencer.sheets.rounds.order import ordered
from sequencer.sheets.rounds.scene import Scene, scene_of
from sequencer.sheets.rounds.surfaces import Spot, Surface
from sequencer.sheets.rounds.walk import moments
from tests.reader.jobs import EXAMPLES, planned
from tests.reader.paper import read
from tests.reader.seen import lines
from tests.reader.told import Setup
from tests.reader.words import Lies, side
from tests.sheets.rounds.points import Back, Eye, entered

WHOLE = 1e9


@cache
def scenes(name: str, most: float | None = None) -> dict[int, Scene]:
    plan, _ = planned(name)
    return {n: scene_of(plan, moment, most) for n, moment in moments(plan).items()}


def wide_open(scene: Scene) -> Sheet:
    return Sheet(scene.camera, 1.0, (3000.0, 3000.0), 6000.0, 6000.0)


@pytest.mark.parametrize("name", EXAMPLES)
def test_the_outline_is_that_of_the_solid_that_is_sawn(name: str, seed: int) -> None:
    """Drawn at its full length, the wood hides just what the proof's solid hides."""
    chance = random.Random(seed)
    hits = 0
    for number, scene in scenes(name, WHOLE).items():
        found = layers(ordered(scene.wood), wide_open(scene))
        eye, back = Eye(scene.camera), Back(scene.into)
        for _ in range(15):
            spot = [chance.uniform(low - 4, high + 4) for low, high in scene.extent]
            x, y = scene.camera.page((spot[0], spot[1], spot[2]))
            start, way = back.place(eye.start(x, y)), back.way(eye.toward)
            hit = any(entered(bit, start, way) is not None for bit in scene.moment.before)
            seen = seen_at(found, (x + 3000, y + 3000)) is not None
            assert seen == hit, (name, number, x, y)
            hits += hit
    assert hits > 20


@pytest.mark.parametrize("name", EXAMPLES)
def test_what_is_left_out_is_alike_along_its_length(name: str) -> None:
    """A break leaves out wood only where the section before it and behind it is one."""
    left_out = 0
    for number, scene in scenes(name).items():
        moment, short = scene.moment, scene.short
        before = volume(moment.before)
        drawn = volume(bit for _, bit in short.bits(moment.bits))
        assert (drawn == before) == (not short.out), (name, number)
        for axis, spans in short.out.items():
            for low, high in spans:
                ends = [
                    cropped(moment.before, axis, span)
                    for span in ((low, low + 1), (high - 1, high))
                ]
                middle = cropped(moment.before, axis, (low, high))
                assert volume(ends[0]) == volume(ends[1])
                assert volume(middle) == volume(ends[0]) * (high - low)
                left_out += 1
    assert left_out > 3


@pytest.mark.parametrize(
    ("name", "hand"),
    [*((name, None) for name in EXAMPLES), *((name, "left") for name in ("dresser", "pantry"))],
)
def test_the_wood_lies_as_the_words_say(name: str, hand: Side | None) -> None:
    """What the sheet prints is read: what is down, what bears on the guide, what is toward you; in
    the picture these sides look there. In a shop with fence and jig on the left too, and a blade
    that tilts to the right."""
    plan, _ = planned(name)
    if hand is not None:
        shop = replace(plan.shop, fence_side=hand, jig_side=hand, tilts="right")
        plan = replace(plan, shop=shop)
    document = read(lines(html(plan, "a4")))
    told = [each for each in document.told if isinstance(each, Setup)]
    drawn = {n: scene_of(plan, moment) for n, moment in moments(plan).items()}
    # What lies like one before has no flat view of its own, and the words say so.
    alike = [setup.number for setup in told if setup.like or setup.drawn_at]
    assert {*(setup.number for setup in told if setup.seen), *alike} == set(drawn)
    compared = 0
    for setup in told:
        scene = drawn.get(setup.number)
        lies = _lies(setup)
        if scene is None or lies is None or not setup.seen:
            continue
        carrier = scene.moment.setup.carrier
        if not lies.slanted:
            stands = plan.shop.guide_side(carrier, scene.moment.setup.tilt)
            assert scene.guide_side == (1 if stands == "right" else -1)
            assert scene.camera.side == -scene.guide_side
        ways = {"down": (0.0, 0.0, -1.0), "guide": (float(scene.guide_side), 0.0, 0.0)}
        face = document.face_of(setup.seen)
        names = {"down": lies.down, "guide": lies.against}
        if lies.off_strip or lies.by_eye or lies.slanted:
            del names["guide"]
        if setup.near and not lies.slanted:
            ways["near"], names["near"] = (0.0, -1.0, 0.0), side(setup.near, face)
        for what, said in names.items():
            assert _looking(scene, ways[what]) == said, (name, setup.number, what)
            compared += 1
    assert compared > 5


def _lies(setup: Setup) -> Lies | None:
    """How the piece that is drawn lies, from the words."""
    for step in setup.steps:
        for work in step.works:
            if any(piece.mark == setup.seen for piece in work.pieces):
                return work.passes[0]
    return None


def _looking(scene: Scene, way: tuple[float, float, float]) -> str:
    """The side of the wood that looks that way, by the words of the reader."""
    nought = scene.into((0.0, 0.0, 0.0))
    for name, (axis, sign) in scene.marks.sides.items():
        tip = [0.0, 0.0, 0.0]
        tip[axis] = sign / scene.mm
        out = [a - b for a, b in zip(scene.into((tip[0], tip[1], tip[2])), nought, strict=True)]
        if sum(a * b for a, b in zip(out, way, strict=True)) > 0.9:
            marked = "marked" if name == scene.marked else "other"
            named = {"inside-edge": "inside", "outside-edge": "outside", "end-A": "A", "end-B": "B"}
            return named.get(name, marked)
    raise AssertionError(way)


@pytest.mark.parametrize("name", EXAMPLES)
def test_chalk_shows_where_it_is_on_the_wood(name: str) -> None:
    """The wedge's tip is at the inside edge; a letter is nearer to its own end; both are seen.
    Where a tenon leaves nothing of the edge but what a break takes, there is no wedge."""
    without = 0
    for scene in scenes(name).values():
        sheet = wide_open(scene)
        found = layers(ordered([*scene.wood, *scene.around]), sheet)
        back = Back(scene.into)
        kinds = []
        for mark in chalked(scene, partial(_seen, found, sheet), 8.0):
            kinds.append(mark.kind)
            spots = [back.place(spot) for spot in mark.spots]
            if mark.kind == "wedge":
                low = min(spot[1] for each in mark.on for spot in each.told)
                assert abs(spots[0][1] - low) < 1 < min(spot[1] for spot in spots[1:]) - low
                middle = [sum(values) / 3 for values in zip(*mark.spots, strict=True)]
            else:
                ends = scene.ends
                own, other = (ends["AB"["AB".index(mark.kind[-1]) ^ n]] for n in (0, 1))
                at = sum(spot[0] for spot in spots) / len(spots)
                assert abs(at - own) < abs(at - other)
                middle = [sum(values) / len(mark.spots) for values in zip(*mark.spots, strict=True)]
            seen = seen_at(found, sheet.at((middle[0], middle[1], middle[2])))
            assert seen is not None
            assert seen in mark.on
        without += "wedge" not in kinds
    assert without <= 1


def _seen(found: Sequence[Layer], sheet: Sheet, spot: Spot) -> Surface | None:
    return seen_at(found, sheet.at(spot))


def test_letters_are_never_mirrored() -> None:
    for scene in scenes("wall-cabinet").values():
        sheet = wide_open(scene)
        found = layers(ordered([*scene.wood, *scene.around]), sheet)
        for mark in chalked(scene, partial(_seen, found, sheet), 8.0):
            points = [sheet.at(spot) for spot in mark.spots]
            if mark.kind == "end-A" and len(points) == 3:
                # Up its left leg and down its right one, y down: a turn to the right.
                (ax, ay), (bx, by), (cx, cy) = points
                assert (bx - ax) * (cy - by) - (by - ay) * (cx - bx) > 0
