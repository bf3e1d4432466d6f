"""What simulated shops have made: every joint, edge, panel and leaf as it came out."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from fractions import Fraction
from itertools import pairwise

from tests.simulator.scale import Json
from tests.simulator.shopwork import HAIR, Shopfloor, box

Value = tuple[str, tuple[str, ...], float]


def joints(floor: Shopfloor) -> Iterator[Value]:
    """Air, faces and ends of every joint; each told by what it is and the two pieces."""
    parts = floor.plan.parts
    for door in floor.plan.plan["doors"]:
        for place in door["places"]:
            bar = parts[place["mark"]]
            if bar["role"] not in ("rail", "mid rail", "mullion"):
                continue
            for end in "AB":
                mine = [f for f in bar["features"] if f["at"] == end and f["mate"]]
                if mine:
                    across = parts[mine[0]["mate"].rpartition("/")[0]]
                    yield from _joint(floor, bar, end, mine, across)


def _joint(
    floor: Shopfloor, bar: Json, end: str, mine: Sequence[Json], across: Json
) -> Iterator[Value]:
    named = f"{bar['mark']}/{end}"
    down = f"end-{end}"
    thick, other = floor.thickness(bar["mark"]), floor.thickness(across["mark"])
    of = (across["mark"], bar["mark"])
    slot = next((f for f in mine if f["kind"] == "slot"), None)
    inside = [f for f in across["features"] if f["mate"] == named]
    meant = across["meant"]["thickness"]
    if slot is not None:
        tongue = [0.0, meant]
        for f in inside:
            if f["kind"] == "housing":
                tongue[f["at"] == "back"] = box(f)[2][f["at"] == "face"]
        walls = [floor.wall(bar["mark"], z, (down,)) for z in box(slot)[2]]
        walls += [floor.wall(across["mark"], z, ("end-A", "end-B"), trench=True) for z in tongue]
        if None not in walls:
            a, b, c, d = (wall for wall in walls if wall is not None)
            yield "tenon-in-slot", of, (b - a) - (d - c)
            yield from _faces(of, (c + d - a - b) / 2, thick - other, bar, across)
        return
    there = [f for f in inside if f["kind"] == "slot"]
    channel = next(iter(there or [f for f in across["features"] if f["kind"] == "groove"]), None)
    if channel is None:
        return
    at = {"A": "end-A", "B": "end-B"}.get(channel["at"], channel["at"])
    span, tenon = box(channel)[2], [0.0, bar["meant"]["thickness"]]
    for f in bar["features"]:
        if f["at"] == end and f["kind"] in ("cheek", "mitre"):
            low, high = box(f)[2]
            if low == 0:
                tenon[0] = high
            else:
                tenon[1] = low
    walls = [floor.wall(across["mark"], z, (at,)) for z in span]
    walls += [floor.wall(bar["mark"], z, (down,)) for z in tenon]
    if None not in walls:
        a, b, c, d = (wall for wall in walls if wall is not None)
        if abs(span[1] - meant) < HAIR:
            yield "halves-flush", of, a - c
            yield from _faces(of, a - c, thick - other, bar, across)
        else:
            yield "tenon-in-slot", of, (b - a) - (d - c)
            yield from _faces(of, (a + b - c - d) / 2, thick - other, bar, across)
    yield from _ends(floor, bar, end, across, there, of)


def _faces(
    of: tuple[str, ...], centre: float, thicker: float, bar: Json, across: Json
) -> Iterator[Value]:
    yield "faces-in-line", of, centre
    if bar["size"]["thickness"] == across["size"]["thickness"]:
        yield "backs-in-line", of, centre + thicker


def _ends(
    floor: Shopfloor, bar: Json, end: str, across: Json, slots: Sequence[Json], of: tuple[str, ...]
) -> Iterator[Value]:
    cheeks = sorted(
        {box(f)[0][1] - box(f)[0][0] for f in bar["features"]
         if f["at"] == end and f["kind"] == "cheek"}, reverse=True,
    )  # fmt: skip
    long = next(
        (found for length in cheeks
         if (found := floor.shoulder(bar["mark"], f"end-{end}", length)) is not None), None,
    )  # fmt: skip
    if long is None:
        return
    if slots:
        width = floor.width(across["mark"])
        if width is not None:
            yield "rail-proud", of, long - width
        span = box(slots[0])[0]
        there = f"end-{slots[0]['at']}"
        deep = floor.deep(across["mark"], there, span[1] - span[0])
        if deep is None:
            deep = floor.shoulder(across["mark"], there, span[1] - span[0])
        edge = _edge(floor, bar, end)
        if deep is not None and edge is not None:
            yield "stile-proud", of, deep - edge
        return
    groove = next(f for f in across["features"] if f["kind"] == "groove")
    low, high = box(groove)[1]
    deep = floor.deep(across["mark"], groove["at"], high - low)
    if deep is not None:
        yield "tenon-off-bottom", of, deep - long


def _edge(floor: Shopfloor, bar: Json, end: str) -> float | None:
    """How wide the tenon came out."""
    ripped = floor.width(bar["mark"])
    own = [f for f in bar["features"] if f["at"] == end and f["kind"] == "edge-cheek"]
    if own:
        cut = box(own[0])[1][1]
        for made in floor.passes(bar["mark"]):
            if made.down == f"end-{end}" and made.against == "outside-edge":
                return made.near
            swept = made.kind == "sweep" and made.against == f"end-{end}"
            if swept and ripped is not None and abs(made.names[2] - cut) < HAIR:
                return ripped - made.depth
        return None
    groove = next(
        (f for f in bar["features"] if f["kind"] == "groove" and f["at"] == "inside-edge"), None
    )
    if groove is None or ripped is None:
        return None
    low, high = box(groove)[1]
    deep = floor.deep(bar["mark"], "inside-edge", high - low)
    return None if deep is None else ripped - deep


def edges(floor: Shopfloor) -> Iterator[Value]:
    """Panels' edges in the grooves round them, and boards' tongues in their neighbours'."""
    parts, plan = floor.plan.parts, floor.plan
    for door in plan.plan["doors"]:
        marks = [place["mark"] for place in door["places"]]
        grooved = [
            (mark, f) for mark in marks for f in parts[mark]["features"]
            if f["kind"] == "groove" and parts[mark]["role"] in
            ("stile", "rail", "mid rail", "mullion") and not f["unproven_by_saw"]
        ]  # fmt: skip
        for mark in marks:
            if parts[mark]["role"] != "panel":
                continue
            bevels = [p for p in floor.passes(mark) if p.kind == "bevel"]
            edge = floor.thickness(mark)
            if bevels:
                check = plan.by_measure["bevel"][0]
                edge = check["planned"] + bevels[0].near - bevels[0].names[0]
            for member, groove in grooved:
                walls = [floor.wall(member, z, (groove["at"],)) for z in box(groove)[2]]
                if walls[0] is not None and walls[1] is not None:
                    yield "panel-in-groove", (member, mark), walls[1] - walls[0] - edge
        boards = [mark for mark in marks if parts[mark]["role"] == "board"]
        for one, other in pairwise(boards):
            rebates = [f for f in parts[one]["features"] if f["at"] == "outside-edge"]
            groove = next((f for f in parts[other]["features"] if f["kind"] == "groove"), None)
            if len(rebates) != 2 or groove is None:
                continue
            low = min(box(f)[2][1] for f in rebates)
            high = max(box(f)[2][0] for f in rebates)
            walls = [floor.wall(one, z, ("outside-edge",)) for z in (low, high)]
            walls += [floor.wall(other, z, (groove["at"],)) for z in box(groove)[2]]
            if None not in walls:
                a, b, c, d = (wall for wall in walls if wall is not None)
                yield "tongue-in-groove", (other, one), (d - c) - (b - a)


def leaves(floor: Shopfloor) -> Iterator[Value]:
    """What is measured at the bench of a leaf whole, and put right there."""
    plan = floor.plan
    for what, name in (("gap", "gap-open"), ("lap", "lap-covers"), ("diagonals", "square")):
        for check in plan.by_measure.get(what, ()):
            for mark in check["marks"]:
                value = floor.bench(check, 0.4)
                gap = plan.seasons.get(mark, {}).get("gap")
                if what == "gap" and gap:
                    gaps = [float(Fraction(each)) for each in gap["gaps"]]
                    value -= gaps[1] - min(gaps)
                yield name, (mark,), abs(value) if what == "diagonals" else value
    for door in plan.plan["doors"]:
        yield from Leaf(floor, door).values()


Spans = tuple[tuple[float, float], tuple[float, float]]


class Leaf:
    """One leaf as it is put together: its lights as they came out, or as they were put right."""

    def __init__(self, floor: Shopfloor, door: Json) -> None:
        self.floor, self.door, self.plan = floor, door, floor.plan
        self.season = self.plan.seasons.get(door["mark"], {})
        self.there = self.plan.spans[door["mark"]]
        self.lights: dict[tuple[str, str], float | None] = {}

    def role(self, *roles: str) -> list[str]:
        return [mark for mark in self.there if self.plan.parts[mark]["role"] in roles]

    def values(self) -> Iterator[Value]:
        for mark in self.role("panel"):
            yield from self.panel(mark)
        for pane in self.door["panes"]:
            yield from self.pane(pane)
        for year in self.season.get("boards", ()):
            yield from self.boards(year)
        yield from self.height()

    def beside(self, spans: Spans, axis: int) -> tuple[str, str] | None:
        """The two members at both sides of what stands there."""
        roles = ("rail", "mid rail") if axis else ("stile", "mullion")
        centre, middle = sum(spans[axis]) / 2, sum(spans[1 - axis]) / 2
        near: dict[bool, tuple[float, str]] = {}
        for mark in self.role(*roles):
            along, over = self.there[mark][axis], self.there[mark][1 - axis]
            if over[0] < middle < over[1]:
                before = along[1] <= centre
                far = centre - along[1] if before else along[0] - centre
                if far >= 0 and (before not in near or far < near[before][0]):
                    near[before] = (far, mark)
        return (near[True][1], near[False][1]) if len(near) == 2 else None

    def light(self, low: str, high: str, axis: int) -> float | None:
        """How far two members are apart."""
        if (low, high) not in self.lights:
            self.lights[low, high] = self._light(low, high, axis)
        return self.lights[low, high]

    def _light(self, low: str, high: str, axis: int) -> float | None:
        size = self.there[high][axis][0] - self.there[low][axis][1]
        way = ("width", "height")[axis]
        checks = [
            check
            for name in ("opening", "each", "light")
            for check in self.plan.by_measure.get(f"{name}-{way}", ())
            if self.door["mark"] in check["marks"] and abs(check["planned"] - size) < HAIR
        ]
        found = None
        for bar in self.role("rail", "mid rail") if axis == 0 else ():
            ends = [_longest(self.floor, self.plan.parts[bar], end) for end in "AB"]
            meant = self.plan.between(bar)
            if None not in ends and meant is not None and abs(meant - size) < HAIR:
                found = self.floor.lengths[bar] - sum(end or 0.0 for end in ends)
                break
        if not checks:
            return found
        check = checks[0]
        if found is None:
            return self.floor.bench(check, 0.4)
        while not check["low"] <= found + self.floor.wrong(check) <= check["high"]:
            found = check["target"] + self.floor.sigma(0.1)
        return found

    def groove(self, mark: str) -> float | None:
        for f in self.plan.parts[mark]["features"]:
            if f["kind"] in ("groove", "rebate"):
                low, high = box(f)[1]
                return self.floor.deep(mark, f["at"], high - low)
        return None

    def room(self, spans: Spans, axis: int) -> tuple[tuple[str, str], float, float] | None:
        """The members at both sides, how far they are apart, and how deep their grooves are."""
        sides = self.beside(spans, axis)
        if sides is None:
            return None
        light, depths = self.light(*sides, axis), [self.groove(mark) for mark in sides]
        if light is None or None in depths:
            return None
        return sides, light, sum(depth or 0.0 for depth in depths)

    def panel(self, mark: str) -> Iterator[Value]:
        part, floor = self.plan.parts[mark], self.floor
        if any(f["unproven_by_saw"] for f in part["features"]):
            return
        width, across = floor.width(mark), self.room(self.there[mark], 0)
        check = next(
            (c for c in self.plan.by_measure.get("panel-width", ()) if mark in c["marks"]), None
        )
        if check is not None and width is not None:
            while not check["low"] <= width + floor.wrong(check) <= check["high"]:
                width = check["target"] + floor.sigma(0.1)
        if width is not None and across is not None:
            sides, light, deep = across
            grown, shrunk = self.year(mark)
            yield "panel-free-across", (*sides, mark), light + deep - width * grown
            yield "panel-held-across", (*sides, mark), (width * shrunk - light) / 2
        along = self.room(self.there[mark], 1)
        if along is not None:
            sides, light, deep = along
            yield "panel-free-along", (*sides, mark), light + deep - floor.lengths[mark]
            yield "panel-held-along", (*sides, mark), (floor.lengths[mark] - light) / 2

    def year(self, mark: str) -> tuple[float, float]:
        year = next((p for p in self.season.get("panels", ()) if p["part"] == mark), None)
        if year is None:
            return 1.0, 1.0
        widths = [float(Fraction(each)) for each in year["widths"]]
        return max(widths) / widths[1], min(widths) / widths[1]

    def pane(self, pane: Json) -> Iterator[Value]:
        box = [(float(Fraction(a)), float(Fraction(b))) for a, b in pane["box"]]
        for axis, name in enumerate(("pane-width", "pane-height")):
            check = next(
                (c for c in self.plan.by_measure.get(name, ()) if pane["mark"] in c["marks"]), None
            )
            there = self.room((box[0], box[1]), axis)
            if check is None or there is None:
                continue
            sides, light, deep = there
            size = self.floor.bench(check, 1.0)
            yield "pane-free", (*sides, pane["mark"]), light + deep - size
            yield "pane-held", (*sides, pane["mark"]), (size - light) / 2

    def boards(self, year: Json) -> Iterator[Value]:
        parts, first = tuple(year["parts"]), year["parts"][0]
        checks = self.plan.by_measure.get("board-gap", ())
        check = next((c for c in checks if set(c["marks"]) & set(parts)), None)
        if check is None:
            return
        wider = self.floor.bench(check, 0.1) - check["planned"]
        yield "boards-free", parts, min(float(Fraction(a)) for a in year["leave"]) + wider
        rebate = next(f for f in self.plan.parts[first]["features"] if f["kind"] == "rebate")
        low, high = box(rebate)[1]
        deep = self.floor.deep(first, rebate["at"], high - low)
        if deep is not None:
            held = min(float(Fraction(each)) for each in year["hold"])
            yield "boards-held", parts, held + deep - (high - low) - wider

    def height(self) -> Iterator[Value]:
        """As high as its rails and the lights between them; a slab as it was cut."""
        gaps = [float(Fraction(self.door["gaps"].get(side, "0"))) for side in ("top", "bottom")]
        opening = float(Fraction(self.door["size"]["height"])) + sum(gaps)
        if min(gaps) < 0:
            return
        for slab in self.role("slab"):
            yield "height-in-opening", (self.door["mark"],), opening - self.floor.lengths[slab]
            return
        inside = min(self.there[mark][0][1] for mark in self.role("stile"))
        rails = sorted(
            (m for m in self.role("rail", "mid rail")
             if self.there[m][0][0] <= inside < self.there[m][0][1]),
            key=lambda mark: self.there[mark][1],
        )  # fmt: skip
        lights = [self.light(low, high, 1) for low, high in pairwise(rails)]
        widths = [self.floor.width(mark) for mark in rails]
        if None in lights or None in widths:
            return
        wide = sum(width or 0.0 for width in widths)
        gap = self.season.get("gap")
        grown = 0.0
        if gap and float(Fraction(gap["stiles"])):
            year = [float(Fraction(each)) for each in gap["gaps"]]
            grown = wide * (year[1] - min(year)) / float(Fraction(gap["stiles"]))
        high = sum(light or 0.0 for light in lights) + wide
        yield "height-in-opening", (self.door["mark"],), opening - grown - high


def _longest(floor: Shopfloor, bar: Json, end: str) -> float | None:
    cheeks = sorted(
        {box(f)[0][1] - box(f)[0][0] for f in bar["features"]
         if f["at"] == end and f["kind"] == "cheek"}, reverse=True,
    )  # fmt: skip
    found = (floor.shoulder(bar["mark"], f"end-{end}", length) for length in cheeks)
    return next((each for each in found if each is not None), None)
