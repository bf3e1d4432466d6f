"""What is chalked on the wood, where it shows: a wedge whose tip is at the inside edge, and letters
at the ends. The marked face has its heavy outline from `surfaces`."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence

from msgspec import Struct

from sequencer.proof.hands import X, Y, Z
from sequencer.sheets.rounds.breaks import near
from sequencer.sheets.rounds.ink import Mark
from sequencer.sheets.rounds.pose import Posed
from sequencer.sheets.rounds.surfaces import Spot, Surface

Seen = Callable[[Spot], Surface | None]
"""Which surface is seen where a place of the room is."""

LETTERS: Mapping[str, Sequence[Sequence[tuple[float, float]]]] = {
    "A": [[(-0.36, -0.5), (0, 0.5), (0.36, -0.5)], [(-0.22, -0.14), (0.22, -0.14)]],
    "B": [
        [(-0.28, 0), (0.12, 0), (0.27, 0.12), (0.27, 0.38), (0.12, 0.5), (-0.28, 0.5),
         (-0.28, -0.5), (0.16, -0.5), (0.33, -0.36), (0.33, -0.14), (0.16, 0)],
    ],
}  # fmt: skip
"""Their strokes in a square of one, y up."""

_PLACES = (0.3, 0.7, 0.2, 0.8, 0.5, 0.4, 0.6, 0.12, 0.88)


def chalked(wood: Posed, seen: Seen, size: float) -> Iterator[Mark]:
    """The marks; `size` is how high they are drawn, in mm of the wood."""
    yield from _wedge(wood, seen, size)
    for end in ("A", "B"):
        yield from _letter(wood, seen, size * 1.25, end)


def _sides(wood: Posed) -> list[str]:
    """Sides of the wood on which something is chalked, the best first."""
    marked = wood.marked
    return [marked, "back" if marked == "face" else "face", "end-A", "end-B"]


def _taking(
    spots: Sequence[Spot], side: str, wood: Posed, seen: Seen, labels: Sequence[str] = ("wood",)
) -> list[Surface]:
    """The surfaces of a side, where all the places of the room are seen on it; else none."""
    for spot in spots:
        surface = seen(spot)
        if surface is None or surface.side != side or surface.label not in labels:
            return []
    return [each for each in wood.wood if each.side == side and each.label in labels]


def _wedge(wood: Posed, seen: Seen, size: float) -> Iterator[Mark]:
    """On the first side that shows it: the tip as near to the inside edge as that side goes."""
    tries = [(side, ["wood"]) for side in _sides(wood)]
    tries += [(side, ["wood", "waste"]) for side in _sides(wood)[:2]]
    for side, labels in tries:
        for corners in _wedges(wood, side, size / wood.mm, labels):
            middle = _mean(corners)
            inner = [_between(corner, middle, 0.15) for corner in corners]
            on = _taking([middle, *inner], side, wood, seen, labels)
            if on:
                yield Mark(corners, on, kind="wedge")
                return


def _wedges(
    wood: Posed, side: str, size: float, labels: Sequence[str]
) -> Iterator[tuple[Spot, Spot, Spot]]:
    """Where a wedge may be on a side, its tip first; `size` in the lengths of the wood."""
    mm, brick = wood.mm, wood.box
    on = [each for each in wood.wood if each.side == side and each.label in labels]
    if not on:
        return
    low = min(spot[Y] for each in on for spot in each.told)
    axis, way = wood.marks.sides[side]
    run = Z if axis == X else X
    start, room = float(brick[2 * run]), float(brick[2 * run + 1] - brick[2 * run])
    high = min(size, 0.6 * (float(brick[3]) - low))
    half = min(high * 0.42, room * 0.42)
    at = float(brick[2 * axis + (way > 0)])
    for share in (0.5,) if run == Z else _PLACES:
        middle = start + share * room
        if near(middle * mm, run, wood.breaks, half * mm):
            continue
        corners = []
        for along, inward in ((0.0, 0.0), (-half, high), (half, high)):
            place = [0.0, 0.0, 0.0]
            place[axis], place[run], place[Y] = at, middle + along, low + inward
            corners.append(wood.into((place[0], place[1], place[2])))
        yield corners[0], corners[1], corners[2]


class _Square(Struct, frozen=True):
    """A square on a side of the wood, `high` mm, with the ways that it is read along and up."""

    centre: Spot
    right: Spot
    up: Spot
    high: float

    def at(self, u: float, v: float) -> Spot:
        x, y, z = (
            c + self.high * (u * r + v * p)
            for c, r, p in zip(self.centre, self.right, self.up, strict=True)
        )
        return x, y, z


def _letter(wood: Posed, seen: Seen, size: float, end: str) -> Iterator[Mark]:
    """The letter of an end, on the best side that shows it: the marked face, or what a joint has
    left of it there."""
    if end not in wood.ends:
        return
    for side in (*_sides(wood)[:2], "inside-edge", "outside-edge"):
        axis, way = wood.marks.sides[side]
        if _dot(_direction(wood, axis, way), wood.camera.toward) < 1e-6:
            continue  # seen from behind, a letter would be mirrored
        levels = _levels(wood, axis)
        for level in sorted(levels, key=lambda at: -way * at):
            for square in _squares(wood, side, size, end, level):
                tried = [square.at(a, b) for a in (-0.5, 0, 0.5) for b in (-0.5, 0, 0.5)]
                if all(any(seen(spot) is each for each in levels[level]) for spot in tried):
                    for stroke in LETTERS[end]:
                        spots = [square.at(u, v) for u, v in stroke]
                        yield Mark(spots, levels[level], width=0.42, kind=f"end-{end}")
                    return


def _levels(wood: Posed, axis: int) -> dict[float, list[Surface]]:
    """What is seen of the wood square to one of its axes, by where it is on it."""
    found: dict[float, list[Surface]] = {}
    for each in wood.wood:
        places = [spot[axis] for spot in each.told]
        if each.label == "wood" and max(places) - min(places) < 1e-6:
            found.setdefault(round(places[0], 3), []).append(each)
    return found


def _squares(wood: Posed, side: str, size: float, end: str, level: float) -> Iterator[_Square]:
    """Where a letter may stand at a level of a side, the nearest to its end first."""
    mm, brick, place = wood.mm, wood.box, wood.ends[end]
    inward = 1 if place < wood.ends["B" if end == "A" else "A"] else -1
    axis, way = wood.marks.sides[side]
    other = Y + Z - axis
    room = float(brick[2 * other + 1] - brick[2 * other]) * mm
    high = min(size, 0.75 * room)
    right, up = _upright(wood, axis, way, other)
    for step in (0.9, 1.3, 2.0):
        for share in (0.5, 0.75, 0.25) if room > 2.4 * high else (0.5,):
            spot = [0.0, 0.0, 0.0]
            spot[X] = place + inward * step * high / mm
            spot[other] = float(brick[2 * other]) + share * room / mm
            spot[axis] = level
            if any(near(spot[a] * mm, a, wood.breaks, high * 0.5) for a in (X, other)):
                continue
            yield _Square(wood.into((spot[0], spot[1], spot[2])), right, up, high)


def _upright(wood: Posed, axis: int, way: int, other: int) -> tuple[Spot, Spot]:
    """Which ways on a side of the wood a letter is read along and stands up: as upright as it can
    be read, never mirrored."""
    out = _direction(wood, axis, way)
    best: tuple[float, Spot, Spot] | None = None
    for one, two in ((X, other), (other, X)):
        for s in (1, -1):
            for t in (1, -1):
                right, up = _direction(wood, one, s), _direction(wood, two, t)
                if _dot(_cross(right, up), out) < 0.5:
                    continue
                page = wood.camera.page
                score = page(right)[0] - page(up)[1]
                if best is None or score > best[0]:
                    best = (score, right, up)
    assert best is not None
    return best[1], best[2]


def _direction(wood: Posed, axis: int, way: int) -> Spot:
    """The way in the room of an axis of the wood, 1 long."""
    nought = wood.into((0.0, 0.0, 0.0))
    tip = [0.0, 0.0, 0.0]
    tip[axis] = way / wood.mm
    x, y, z = (b - a for a, b in zip(nought, wood.into((tip[0], tip[1], tip[2])), strict=True))
    return x, y, z


def _cross(a: Spot, b: Spot) -> Spot:
    return (a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0])


def _dot(a: Spot, b: Spot) -> float:
    return a[0] * b[0] + a[1] * b[1] + a[2] * b[2]


def _mean(spots: Sequence[Spot]) -> Spot:
    x, y, z = (sum(values) / len(spots) for values in zip(*spots, strict=True))
    return x, y, z


def _between(spot: Spot, other: Spot, share: float) -> Spot:
    x, y, z = (a + share * (b - a) for a, b in zip(spot, other, strict=True))
    return x, y, z
