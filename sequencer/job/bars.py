"""Mid rails and mullions, read: `[[bar]]` for the whole file, `[[door.bar]]` for one door; and the
lights that they leave.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from fractions import Fraction
from typing import Literal

from msgspec import Struct

from sequencer.errors import Fault
from sequencer.facts import bars as told
from sequencer.facts import doors
from sequencer.job.checked import Checked
from sequencer.job.document import Path
from sequencer.job.kinds import Bar
from sequencer.job.reader import Reader
from sequencer.job.schema import Door
from sequencer.records import replace

BAR = ("kind", "width", "at", "row")
BAR_KINDS: Mapping[str, Literal["mid rail", "mullion"]] = {
    "mid rail": "mid rail",
    "muntin": "mullion",
    "mullion": "mullion",
}
"""What a file may call them: a bar between panels is a muntin, one between panes a mullion."""
MOST_BARS = 12
"""In one leaf; more is sooner a slip of the pen."""
TALL = Fraction(10**6)
"""A leaf's height where heights are not asked for."""


class Written(Struct, frozen=True):
    """A bar as the file states it; `width` `None`: as wide as the door's top rail."""

    kind: Literal["mid rail", "mullion"]
    width: Fraction | None
    at: Fraction | None
    row: int | None
    path: Path

    def made(self, usual: Fraction) -> Bar:
        return Bar(self.kind, usual if self.width is None else self.width, self.at, self.row)


def read_bars(reader: Reader, base: Path) -> tuple[Written, ...] | None:
    """The bars that stand there, in file order; `None` where nothing is said of them. What is
    wrong is kept by the reader."""
    path = (*base, "bar")
    if not reader.has(path):
        return None
    number = reader.tables(path)
    if number > MOST_BARS:
        reader.fault((*path, MOST_BARS), told.TOO_MANY(most=MOST_BARS), told.LEAVE_SOME_OUT())
    return tuple(
        bar
        for index in range(min(number, MOST_BARS))
        if (bar := _read(reader, (*path, index))) is not None
    )


def _read(reader: Reader, path: Path) -> Written | None:
    before = len(reader.faults)
    reader.known(path, BAR)
    kind = reader.choice((*path, "kind"), tuple(BAR_KINDS))
    if not reader.has((*path, "kind")):
        hint = doors.WRITE(lines=tuple(f'kind = "{each}"' for each in BAR_KINDS))
        reader.fault(path, told.NO_KIND(), hint, key=True)
    width, at = (reader.length((*path, key)) for key in ("width", "at"))
    row = reader.count((*path, "row"), MOST_BARS + 1)
    if row is not None and kind == "mid rail":
        hint = told.MID_RAILS_MAKE_ROWS()
        reader.fault((*path, "row"), told.MID_RAIL_IN_ROW(), hint, key=True)
    if width == 0:
        reader.fault((*path, "width"), doors.NOTHING(key="width"), doors.GIVE_SIZE())
    if kind is None or len(reader.faults) > before:
        return None
    return Written(BAR_KINDS[kind], width, at, row, path)


def places_of(written: Sequence[Written]) -> Mapping[str, Path]:
    """Where the bars stand, by the keys that messages are placed at, and their widths where they
    are stated."""
    found: dict[str, Path] = {}
    for number, bar in enumerate(written):
        found[f"bar.{number}"] = bar.path
        if bar.width is not None:
            found[f"bar.{number}.width"] = (*bar.path, "width")
    return found


def widened(door: Door, top_rail: Fraction) -> tuple[Bar, ...]:
    """The bars of a door whose top rail is another: those without a width of their own follow."""
    return tuple(
        bar if f"bar.{number}.width" in door.places else replace(bar, width=top_rail)
        for number, bar in enumerate(door.bars)
    )


class Room(Struct, frozen=True):
    """An upright rectangle of a leaf, from its lower left corner."""

    left: Fraction
    bottom: Fraction
    width: Fraction
    height: Fraction


class Placed(Struct, frozen=True):
    """A bar and what is seen of it. `number` is its index in the door's bars; `row` the row that a
    mullion divides, 0 of a mid rail."""

    bar: Bar
    number: int
    row: int
    room: Room


class Division(Struct, frozen=True):
    """Mid rails from the top, mullions and lights row by row from the left. `rows` are what the mid
    rails leave; `light_rows` the row of each light, 1 at the top."""

    mid_rails: tuple[Placed, ...]
    mullions: tuple[Placed, ...]
    rows: tuple[Room, ...]
    lights: tuple[Room, ...]
    light_rows: tuple[int, ...]


def divide(bars: Sequence[Bar], sight: Room) -> Division:
    """What the bars make of a frame's opening. Lights may come out negative where there is no room.
    A bar says where its middle is, or all of its like leave lights of equal size."""
    numbered = list(enumerate(bars))
    cross = [(n, bar) for n, bar in numbered if bar.kind == "mid rail"]
    spans = _spans(cross, sight.bottom, sight.height, downward=True)
    mid_rails = tuple(
        Placed(bar, n, 0, Room(sight.left, low, sight.width, bar.width)) for n, bar, low in spans
    )
    rows: list[Room] = []
    top = sight.bottom + sight.height
    for placed in mid_rails:
        above = placed.room.bottom + placed.room.height
        rows.append(Room(sight.left, above, sight.width, top - above))
        top = placed.room.bottom
    rows.append(Room(sight.left, sight.bottom, sight.width, top - sight.bottom))
    mullions: list[Placed] = []
    lights: list[Room] = []
    light_rows: list[int] = []
    for number, row in enumerate(rows, 1):
        upright = [(n, b) for n, b in numbered if b.kind == "mullion" and b.row in (None, number)]
        left = row.left
        for n, bar, low in _spans(upright, row.left, row.width, downward=False):
            mullions.append(Placed(bar, n, number, Room(low, row.bottom, bar.width, row.height)))
            lights.append(Room(left, row.bottom, low - left, row.height))
            light_rows.append(number)
            left = low + bar.width
        lights.append(Room(left, row.bottom, row.left + row.width - left, row.height))
        light_rows.append(number)
    return Division(mid_rails, tuple(mullions), tuple(rows), tuple(lights), tuple(light_rows))


def _spans(
    bars: Sequence[tuple[int, Bar]], start: Fraction, room: Fraction, *, downward: bool
) -> list[tuple[int, Bar, Fraction]]:
    """Where each bar begins, from below or from the left, in the order in which they are told."""
    if all(bar.at is None for _, bar in bars):
        light = (room - sum((bar.width for _, bar in bars), Fraction(0))) / (len(bars) + 1)
        found = []
        at = start + room if downward else start
        for n, bar in bars:
            at += -light - bar.width if downward else light
            found.append((n, bar, at))
            at += 0 if downward else bar.width
        return found
    stated = [(n, bar, (bar.at or Fraction(0)) - bar.width / 2) for n, bar in bars]
    return sorted(stated, key=lambda each: -each[2] if downward else each[2])


def sights(door: Door, width: Fraction, height: Fraction) -> tuple[Room, ...]:
    """The opening inside each leaf's frame, where a leaf is `width` by `height`; under a shaped
    rail, where it is lowest."""
    rise = Fraction(0) if door.shape is None else door.shape.rise
    high = height - door.top_rail - rise - door.bottom_rail
    across = width - door.hinge_stile - door.free_stile
    hung = ("left", "right") if door.leaves == 2 else (door.hinge,)
    lefts = (door.hinge_stile if hinge == "left" else door.free_stile for hinge in hung)
    return tuple(Room(left, door.bottom_rail, across, high) for left in dict.fromkeys(lefts))


def lights(door: Door, width: Fraction, height: Fraction = TALL) -> Iterator[Room]:
    """What bars leave of the opening inside each leaf's frame, where a leaf is `width` by `height`;
    all of it where there are none."""
    for sight in sights(door, width, height):
        yield from divide(door.bars, sight).lights


def widest_light(door: Door, width: Fraction) -> Fraction:
    """The widest light of a leaf that is `width` wide."""
    return max(light.width for light in lights(door, width))


def rules(c: Checked) -> Iterator[Fault]:
    """Bars that stand clear of each other and leave lights, and joints that find room."""
    door = c.door
    if not door.bars:
        return
    if door.slab is not None:
        yield c.fault("bar.0", told.IN_SLAB(), told.BARS_OR_SLAB())
        return
    yield from _mixed(c)
    yield from _widths(c)
    rows = 1 + sum(bar.kind == "mid rail" for bar in door.bars)
    for number, bar in enumerate(door.bars):
        if bar.row is not None and bar.row > rows:
            message = told.NO_SUCH_ROW(row=bar.row, rows=rows)
            yield c.fault(f"bar.{number}", message, told.ROWS(rows=rows))
    if min(c.sight_width, c.sight_height) < c.limit("least_sight"):
        return
    for sight in sights(door, c.width, c.height):
        yield from _room(c, divide(door.bars, sight))


def _mixed(c: Checked) -> Iterator[Fault]:
    """Of bars side by side all say where they are, or none does."""
    for kind in dict.fromkeys(BAR_KINDS.values()):
        like = [(n, bar) for n, bar in enumerate(c.door.bars) if bar.kind == kind]
        for n, bar in like:
            beside = [
                b for m, b in like if m != n and (None in (b.row, bar.row) or b.row == bar.row)
            ]
            if bar.at is not None and any(b.at is None for b in beside):
                yield c.fault(
                    f"bar.{n}",
                    told.PARTLY_PLACED(bar=bar.called(c.door.fill)),
                    told.PLACE_ALL_OR_NONE(),
                )


def _widths(c: Checked) -> Iterator[Fault]:
    """A bar has a groove along both edges."""
    depth = c.door.groove.depth
    least = 2 * depth + c.limit("least_bar")
    for number, bar in enumerate(c.door.bars):
        if bar.width < least:
            keeps = max(bar.width - 2 * depth, Fraction(0))
            message = told.TOO_NARROW(
                bar=bar.called(c.door.fill), width=c.length(bar.width), keeps=c.length(keeps)
            )
            hint = told.WIDE_ENOUGH(least=c.length(least), depth=c.length(depth))
            yield c.fault(f"bar.{number}", message, hint)


def _room(c: Checked, made: Division) -> Iterator[Fault]:
    least = c.limit("least_sight")
    for number, row in enumerate(made.rows):
        if row.height < least and made.mid_rails:
            after = made.mid_rails[min(number, len(made.mid_rails) - 1)]
            yield _too_small(c, after.number, "high", row.height, least)
    for placed in made.mullions:
        beside = [
            light
            for light, row in zip(made.lights, made.light_rows, strict=True)
            if row == placed.row
            and placed.room.left in (light.left + light.width, light.left - placed.room.width)
        ]
        narrow = min(light.width for light in beside)
        if narrow < least:
            yield _too_small(c, placed.number, "wide", narrow, least)
    if c.door.joint.bars == "T-bridle":
        yield from _crossing(c, made)


def _too_small(c: Checked, number: int, way: str, left: Fraction, least: Fraction) -> Fault:
    if left < 0:
        message = told.OVERLAP(by=c.length(-left))
    else:
        message = told.SMALL_LIGHT(left=c.length(left), way=way)
    return c.fault(f"bar.{number}", message, told.LARGER_LIGHT(least=c.length(least)))


def _crossing(c: Checked, made: Division) -> Iterator[Fault]:
    """A T-bridle goes through the whole width of the piece it straddles."""
    for upper in made.mullions:
        for lower in made.mullions:
            if lower.row != upper.row + 1:
                continue
            one, other = upper.room, lower.room
            if one.left < other.left + other.width and other.left < one.left + one.width:
                yield c.fault(f"bar.{lower.number}", told.BRIDLES_MEET(), told.STUB_OR_CLEAR())
