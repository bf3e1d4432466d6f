"""What is painted last at a point is what the eye would see there, whatever bricks and cells."""

from __future__ import annotations

import random

import pytest

from sequencer.proof.cells import Bit, parted, plane_of
from sequencer.proof.solid import shared, subtract
from sequencer.sheets.rounds.camera import Camera
from sequencer.sheets.rounds.ink import Sheet, layers, seen_at
from sequencer.sheets.rounds.order import ordered
from sequencer.sheets.rounds.surfaces import Surface, surfaces
from tests.sheets.rounds.points import Eye


def heap(chance: random.Random) -> list[Bit]:
    """Bricks and cells that share no volume, many of them touching."""
    solid: tuple[Bit, ...] = ()
    for _ in range(chance.randint(2, 7)):
        lows = [chance.randint(-30, 20) for _ in range(3)]
        highs = [low + chance.choice((2, 8, 15, 40)) for low in lows]
        brick: Bit = (lows[0], highs[0], lows[1], highs[1], lows[2], highs[2])
        if chance.random() < 0.6:
            normal = tuple(chance.randint(-2, 2) for _ in range(3))
            middle = sum(n * (a + b) // 2 for n, a, b in zip(normal, lows, highs, strict=True))
            if any(normal):
                half = parted(brick, plane_of((normal[0], normal[1], normal[2]), middle))[0]
                brick = half or brick
        solid = (*subtract(solid, brick), brick)
    return list(solid)


@pytest.mark.parametrize("side", [-1, 1])
def test_the_nearest_is_painted_last(side: int, seed: int, large: bool) -> None:
    chance = random.Random(seed)
    met = 0
    for _ in range(200 if large else 20):
        camera = Camera(side)
        bits = heap(chance)
        # Each bit by itself, in one heap: their faces touch, and none is taken away.
        labels = [f"bit-{n}" for n in range(len(bits))]
        skin = surfaces(zip(labels, bits, strict=True), lambda spot: spot, camera.toward, {})
        sheet = Sheet(camera, 1.0, (100.0, 100.0), 200.0, 200.0)
        found = layers(ordered(skin), sheet)
        eye = Eye(camera)
        for _ in range(40):
            box = tuple(float(end) for end in chance.choice(bits))
            spot = [chance.uniform(box[2 * n] - 2, box[2 * n + 1] + 2) for n in range(3)]
            x, y = camera.page((spot[0], spot[1], spot[2]))
            nearest = eye.nearest(bits, x, y)
            seen = seen_at(found, (x + 100, y + 100))
            if nearest is None:
                assert seen is None
                continue
            met += 1
            assert seen is not None
            assert seen.label == labels[nearest[1]]
    assert met > 400


def test_a_sliver_off_its_own_plane_is_painted_once() -> None:
    """Its direction is worked out by itself: a long thin corner may lie farther off than a hair."""
    up = (0.0, 0.0, 1.0)
    off = [(0.0, 0.0, 0.0), (900.0, 0.0, 3e-5), (900.0, 1e-3, 3e-5)]
    flat = [(0.0, 0.0, 5.0), (9.0, 0.0, 5.0), (9.0, 9.0, 5.0)]
    pair = [Surface(off, up, "sliver"), Surface(flat, up, "flat")]
    assert [each.whole.label for each in ordered(pair)] == ["sliver", "flat"]
    assert [each.whole.label for each in ordered([pair[0], pair[0]])] == ["sliver", "sliver"]


def test_no_line_is_drawn_inside_a_surface(seed: int) -> None:
    """A brick that is made up of bricks has the edges of one."""
    chance = random.Random(seed)
    camera = Camera()
    for _ in range(10):
        solid: tuple[Bit, ...] = ((0, 40, 0, 30, 0, 20),)
        for _ in range(4):
            low = [chance.randint(0, 30) for _ in range(3)]
            part: Bit = (low[0], low[0] + 12, low[1], low[1] + 9, low[2], low[2] + 7)
            solid = (*subtract(solid, part), *shared(solid, (part,)))
        skin = surfaces([("wood", bit) for bit in solid], lambda spot: spot, camera.toward, {})
        length = {"outer": 0.0, "inner": 0.0}
        for surface in skin:
            for (a, b), kind in surface.edges:
                length[kind] += sum(abs(p - q) for p, q in zip(a, b, strict=True))
        # Three edges between two seen surfaces, told with both; six at the outline.
        assert length["inner"] == pytest.approx(2 * (40 + 30 + 20))
        assert length["outer"] == pytest.approx(2 * (40 + 30 + 20))
