"""Simulated shops: the printed order followed on wood that is never quite where it is meant to be.

    python -m tests.simulator.shops LEAVES SEED

follows the plans of the framed examples, and of random jobs, until each kind of shop has made so
many leaves, and prints what share of the joints went together at the first try beside what the
plan says, which musts were broken, and how many tries a check took.

A shop sets a knob to its mark, a little off; makes the test cut, a little off; reads it with a
tool, a little wrong; moves the knob by the printed rule until the reading lies inside the window;
saws the good wood; measures at the bench, and puts right there what can be. It knows nothing of
how the plan was worked out: it reads `plan.json` and has sizes of its own, as plain decimals.
"""

from __future__ import annotations

import json
import sys
from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from fractions import Fraction
from itertools import pairwise
from random import Random
from typing import Any

from sequencer.contract import to_json
from sequencer.plan import Plan
from tests.simulator.pairs import pair
from tests.simulator.planned import outcome
from tests.simulator.scale import Json

KNOBS: Mapping[str, str] = {
    "rip-fence": "fence",
    "crosscut-sled": "stop",
    "tenoning-jig": "jig",
    "mitre-sled": "mitre stop",
}
FACES = ("face", "back")
SCRAP = ("test cut", "check cut")
MOST_TRIES = 60
HAIR = 1e-6
FEEL = 0.05
"""How far a hand is wrong that tries a fit, in millimetres; ours."""


@dataclass(frozen=True)
class Shop:
    """One sigma of a first setting, of a move, of a pass and of thickness; as far as a caliper is
    read wrong, in millimetres; and a rule, in halves of its step."""

    name: str
    scale: float
    move: float
    repeat: float
    thick: float
    caliper: float
    rule: float


SHOPS = (
    Shop("careful", 0.10, 0.03, 0.015, 0.02, 0.01, 0.6),
    Shop("ordinary", 0.15, 0.05, 0.03, 0.03, 0.02, 1.0),
    Shop("rough", 0.40, 0.10, 0.06, 0.05, 0.04, 1.6),
)
"""`ordinary` errs as the program takes it to (ours, common practice)."""


@dataclass(slots=True)
class Pass:
    """How a pass came out: which side lay down and which at the guide, from there to the kerf's
    two sides, and how deep. `names` are the same as they are meant."""

    down: str
    against: str | None
    kind: str
    near: float
    far: float
    depth: float
    names: tuple[float, float, float]
    step: int

    def walls(self, thick: float, meant: float) -> tuple[tuple[float, float], tuple[float, float]]:
        """Both sides through the thickness from the face, meant and made."""
        near, far, _ = self.names
        if self.against == "face":
            return (near, far), (self.near, self.far)
        return (meant - far, meant - near), (thick - self.far, thick - self.near)


@dataclass
class Shopfloor:
    """One run through a plan."""

    plan: Reading
    shop: Shop
    chance: Random
    off: dict[str, float] = field(default_factory=dict)
    thick: dict[str, float] = field(default_factory=dict)
    made: dict[str, list[Pass]] = field(default_factory=dict)
    tries: list[int] = field(default_factory=list)
    kerfs: dict[str, float] = field(default_factory=dict)
    first_wall: dict[tuple[str, str], Pass] = field(default_factory=dict)
    lengths: dict[str, float] = field(default_factory=dict)
    read: dict[int, float] = field(default_factory=dict)
    waiting: dict[str, list[str]] = field(default_factory=dict)

    def sigma(self, mm: float) -> float:
        return self.chance.gauss(0, mm / self.plan.mm)

    def wrong(self, check: Json) -> float:
        """How far a reading is wrong: by half a step of a rule or tape, or what a caliper errs."""
        if check["tool"] in ("rule", "tape"):
            most = check["resolution"] / 2 * self.shop.rule
        else:
            most = (FEEL if check["tool"] == "fit" else self.shop.caliper) / self.plan.mm
        return self.chance.uniform(-most, most)

    def run(self) -> None:
        plan = self.plan
        self.waiting = {mark: list(pieces) for mark, pieces in plan.pieces.items()}
        for mark, check in plan.milled.items():
            self.thick[mark] = plan.meant[mark] + self.milled(check)
        for cutter in plan.cutters:
            most = self.shop.caliper / plan.mm
            self.kerfs[cutter] = self.chance.uniform(-most, most)
        last = 0
        for step in plan.steps:
            setup = plan.setups.get(step["setup"])
            if setup is None:
                continue
            if setup["number"] != last:
                for change in setup["changes"]:
                    self.off[change["knob"]] = self.sigma(self.shop.scale)
                last = setup["number"]
            if step["kind"] in SCRAP:
                self.try_out(step, setup)
            else:
                self.cut(step, setup)

    def milled(self, check: Json | None) -> float:
        while True:
            off = self.sigma(self.shop.thick)
            if (
                check is None
                or check["low"] <= off + check["target"] + self.wrong(check) <= (check["high"])
            ):
                return off

    def make(self, step: Json, setup: Json, cut: Json) -> Pass:
        guide, kerf, depth = setup["guide"] or 0.0, setup["kerf"], setup["depth"]
        knob = self.plan.knob(setup)
        near = guide + self.off.get(knob, 0.0) + self.sigma(self.shop.repeat)
        far = near + kerf + self.kerfs[setup["cutter"]]
        deep = depth + self.off.get("height", 0.0) + self.sigma(self.shop.repeat)
        return Pass(
            cut["down"], cut["against"], step["kind"], near, far, deep,
            (guide, guide + kerf, depth), step["number"],
        )  # fmt: skip

    def try_out(self, step: Json, setup: Json) -> None:
        """Every check of a test cut, until its reading lies in the window."""
        for check in self.plan.checks.get(step["number"], ()):
            tries = 0
            while tries < MOST_TRIES:
                tries += 1
                cuts = [self.make(step, setup, cut) for cut in step["cuts"]]
                scrap = step["cuts"][0]["mark"]
                found = self.measure(check, cuts, scrap) + self.wrong(check)
                more = sum(self.read[n] - self.plan.target[n] for n in check["after"])
                if check["low"] <= found - more <= check["high"]:
                    break
                move = (check["target"] + more - found) / check["per_unit"]
                self.off[check["knob"]] += move + self.sigma(self.shop.move)
            self.tries.append(tries)
            self.read[check["n"]] = found
            if _kind(check["measure"]) in ("to-channel", "to-housing"):
                self.first_wall[scrap, _kind(check["measure"])] = cuts[0]

    def measure(self, check: Json, cuts: Sequence[Pass], scrap: str) -> float:
        """What there is to be read on the test piece."""
        what = _kind(check["measure"])
        thick = self.thick[self.plan.stick.get(scrap, scrap)]
        first = cuts[0]
        second = cuts[1] if len(cuts) > 1 else first
        if what in _AT_ONCE:
            return _AT_ONCE[what](first)
        if what == "channel-width" and check["per_unit"] < 0:
            return thick - first.near - second.near
        if what == "channel-width":
            return first.far - self.first_wall[scrap, "to-channel"].near
        if what == "housing-width":
            return first.far - self.first_wall[scrap, "to-housing"].near
        if what == "tenon":
            return first.near + second.near - thick
        if what == "tongue" and first.down in FACES:
            return thick - first.depth - second.depth
        if what == "tongue":
            return first.near + second.near - thick
        if what == "under-housing":
            return thick - first.depth
        if what == "bevel":  # so much thicker than the edge as it is meant to be
            return float(check["planned"]) + first.near - first.names[0]
        if what == "shoulders":
            other = next(cut for cut in cuts if cut.against != first.against)
            return self.lengths[scrap] - first.far - other.far
        raise AssertionError(f"{what} is not measured here")

    def cut(self, step: Json, setup: Json) -> None:
        checks = [c for c in self.plan.checks.get(step["number"], ()) if c["knob"] is not None]
        for cut in step["cuts"]:
            made = self.make(step, setup, cut)
            if step["kind"] != "crosscut":
                self.made.setdefault(cut["mark"], []).append(made)
                continue
            for check in checks:
                tries = 1
                while tries < MOST_TRIES:
                    found = made.near + self.wrong(check)
                    if check["low"] <= found <= check["high"]:
                        break
                    move = (check["target"] - found) / check["per_unit"]
                    self.off[check["knob"]] += move + self.sigma(self.shop.move)
                    made = self.make(step, setup, cut)
                    tries += 1
                self.tries.append(tries)
            checks = []
            self.lengths[self.waiting[cut["mark"]].pop(0)] = made.near

    # What came out.

    def passes(self, mark: str) -> Iterator[Pass]:
        yield from self.made.get(self.plan.stick.get(mark, ""), ())
        yield from self.made.get(mark, ())

    def thickness(self, mark: str) -> float:
        return self.thick[self.plan.stick.get(mark, mark)]

    def wall(self, mark: str, z: float, ats: Sequence[str]) -> float | None:
        """Where a wall is that is meant to be at `z` from the face."""
        meant, thick = self.plan.meant[self.plan.stick[mark]], self.thickness(mark)
        if abs(z) < HAIR:
            return 0.0
        if abs(z - meant) < HAIR:
            return thick
        for made in self.passes(mark):
            if made.against in FACES and made.down in ats:
                named, found = made.walls(thick, meant)
                for name, value in zip(named, found, strict=True):
                    if abs(name - z) < HAIR:
                        return value
        for made in self.passes(mark):
            if made.down in FACES and made.against in ats:
                name = made.names[2] if made.down == "face" else meant - made.names[2]
                if abs(name - z) < HAIR:
                    return made.depth if made.down == "face" else thick - made.depth
        return None

    def deep(self, mark: str, at: str, depth: float) -> float | None:
        for made in self.passes(mark):
            if made.down == at and abs(made.names[2] - depth) < HAIR and made.against in FACES:
                return made.depth
        return None

    def shoulder(self, mark: str, end: str, length: float) -> float | None:
        for made in self.passes(mark):
            if made.against == end and made.down in FACES and abs(made.names[1] - length) < HAIR:
                return made.far
        return None

    def width(self, mark: str) -> float | None:
        return next((made.near for made in self.passes(mark) if made.kind == "rip"), None)

    def bench(self, check: Json, sigma: float) -> float:
        """What is put right at the bench until its reading lies in the window."""
        low, high = check["low"], check["high"]
        while True:
            value = float(check["target"]) + self.sigma(sigma)
            if low <= value + self.wrong(check) <= high:
                return value


_AT_ONCE: Mapping[str, Callable[[Pass], float]] = {
    **dict.fromkeys(
        ("channel-wall", "to-channel", "to-far-cheek", "tenon-width", "lip", "to-housing",
         "to-mitre"), lambda made: made.near,
    ),
    **dict.fromkeys(("rebate-width", "to-shoulder"), lambda made: made.far),
    **dict.fromkeys(
        ("channel-depth", "shoulder-depth", "edge-shoulder-depth", "mitre-depth", "rebate-reach",
         "flat-depth"), lambda made: made.depth,
    ),
}  # fmt: skip


class Reading:
    """A plan's JSON, its lengths as decimals."""

    def __init__(self, plan: Json) -> None:
        self.plan = plan
        self.mm = 25.4 if plan["unit"] == "in" else 1.0
        self.rides = plan["shop"]["jig_rides"]
        self.setups = {
            each["number"]: _figures(each, "guide", "kerf", "depth") for each in plan["setups"]
        }
        self.steps = plan["steps"]
        self.cutters = {each["cutter"] for each in plan["setups"]}
        self.meant = {each["mark"]: _number(each["size"]["thickness"]) for each in plan["sticks"]}
        self.stick = {
            piece["mark"]: stick["mark"] for stick in plan["sticks"] for piece in stick["pieces"]
        }
        self.pieces = {
            stick["mark"]: [piece["mark"] for piece in stick["pieces"]] for stick in plan["sticks"]
        }
        self.checks: dict[int, list[Any]] = {}
        self.by_measure: dict[str, list[Any]] = {}
        self.target: list[float] = []
        for n, check in enumerate(plan["checkpoints"]):
            told = _figures(check, "target", "low", "high", "per_unit", "planned", "resolution")
            told["n"] = n
            self.target.append(told["target"])
            self.checks.setdefault(check["at_step"], []).append(told)
            self.by_measure.setdefault(_kind(check["measure"]), []).append(told)
        self.milled: dict[str, Any] = dict.fromkeys(self.meant)
        for check in self.by_measure.get("stock", ()):
            self.milled |= dict.fromkeys(check["marks"], check)
        self.parts = {part["mark"]: _read_part(part) for part in plan["parts"]}

    def knob(self, setup: Json) -> str:
        knob = KNOBS[setup["carrier"]]
        return "fence" if knob == "jig" and self.rides == "fence" else knob


def _kind(measure: str) -> str:
    """What is measured, wherever."""
    return measure.partition(":")[0].partition("/")[0]


def _figures(each: Json, *keys: str) -> dict[str, Any]:
    return {**each, **{key: _number(each[key]) for key in keys}}


def _number(text: str | None) -> Any:
    return None if text is None else float(Fraction(text))


def _read_part(part: Json) -> dict[str, Any]:
    """A part with the spans of what it lacks as decimals."""
    features = [{**each, "spans": _read_box(each)} for each in part["features"]]
    return {**part, "features": features, "meant": _figures(part["size"], *part["size"])}


def _read_box(feature: Json) -> list[tuple[float, float]]:
    if feature.get("prism"):
        prism = feature["prism"]
        along = tuple(float(Fraction(each)) for each in prism["along"])
        spans = dict.fromkeys("xyz", along)
        for n, axis in enumerate(prism["axes"]):
            found = [float(Fraction(corner[n])) for corner in prism["corners"]]
            spans[axis] = (min(found), max(found))
        return [(spans[a][0], spans[a][1]) for a in "xyz"]
    return [(float(Fraction(a)), float(Fraction(b))) for a, b in feature["box"]]


def _box(feature: Json) -> list[tuple[float, float]]:
    found: list[tuple[float, float]] = feature["spans"]
    return found


# What is looked at.

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
                tongue[f["at"] == "back"] = _box(f)[2][f["at"] == "face"]
        walls = [floor.wall(bar["mark"], z, (down,)) for z in _box(slot)[2]]
        walls += [floor.wall(across["mark"], z, ("end-A", "end-B")) for z in tongue]
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
    span, tenon = _box(channel)[2], [0.0, bar["meant"]["thickness"]]
    for f in bar["features"]:
        if f["at"] == end and f["kind"] in ("cheek", "mitre"):
            low, high = _box(f)[2]
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
        {_box(f)[0][1] - _box(f)[0][0] for f in bar["features"]
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
        span = _box(slots[0])[0]
        there = f"end-{slots[0]['at']}"
        deep = floor.deep(across["mark"], there, span[1] - span[0])
        if deep is None:
            deep = floor.shoulder(across["mark"], there, span[1] - span[0])
        edge = _edge(floor, bar, end)
        if deep is not None and edge is not None:
            yield "stile-proud", of, deep - edge
        return
    groove = next(f for f in across["features"] if f["kind"] == "groove")
    low, high = _box(groove)[1]
    deep = floor.deep(across["mark"], groove["at"], high - low)
    if deep is not None:
        yield "tenon-off-bottom", of, deep - long


def _edge(floor: Shopfloor, bar: Json, end: str) -> float | None:
    """How wide the tenon came out."""
    ripped = floor.width(bar["mark"])
    own = [f for f in bar["features"] if f["at"] == end and f["kind"] == "edge-cheek"]
    if own:
        cut = _box(own[0])[1][1]
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
    low, high = _box(groove)[1]
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
                walls = [floor.wall(member, z, (groove["at"],)) for z in _box(groove)[2]]
                if walls[0] is not None and walls[1] is not None:
                    yield "panel-in-groove", (member, mark), walls[1] - walls[0] - edge
        boards = [mark for mark in marks if parts[mark]["role"] == "board"]
        for one, other in pairwise(boards):
            rebates = [f for f in parts[one]["features"] if f["at"] == "outside-edge"]
            groove = next((f for f in parts[other]["features"] if f["kind"] == "groove"), None)
            if len(rebates) != 2 or groove is None:
                continue
            low = min(_box(f)[2][1] for f in rebates)
            high = max(_box(f)[2][0] for f in rebates)
            walls = [floor.wall(one, z, ("outside-edge",)) for z in (low, high)]
            walls += [floor.wall(other, z, (groove["at"],)) for z in _box(groove)[2]]
            if None not in walls:
                a, b, c, d = (wall for wall in walls if wall is not None)
                yield "tongue-in-groove", (other, one), (d - c) - (b - a)


def leaves(floor: Shopfloor) -> Iterator[Value]:
    """What is measured at the bench of a leaf whole, and put right there."""
    plan = floor.plan
    seasons = {each["door"]: each for each in plan.plan["seasons"]}
    for what, name in (("gap", "gap-open"), ("lap", "lap-covers"), ("diagonals", "square")):
        for check in plan.by_measure.get(what, ()):
            for mark in check["marks"]:
                value = abs(floor.bench(check, 0.4)) if what == "diagonals" else (
                    floor.bench(check, 0.4)
                )  # fmt: skip
                gap = seasons.get(mark, {}).get("gap")
                if what == "gap" and gap:
                    gaps = [float(Fraction(each)) for each in gap["gaps"]]
                    value -= gaps[1] - min(gaps)
                yield name, (mark,), value
    for door in plan.plan["doors"]:
        yield from _panels(floor, door, seasons.get(door["mark"], {}))


def _panels(floor: Shopfloor, door: Json, season: Json) -> Iterator[Value]:
    """Of a leaf with one light: its panel between the shoulders as they came out, the dry frame
    put right where a rule finds it off."""
    plan, parts = floor.plan, floor.plan.parts
    roles: dict[str, list[str]] = {}
    for place in door["places"]:
        roles.setdefault(parts[place["mark"]]["role"], []).append(place["mark"])
    alone = len(roles.get("panel", ())) == 1 and not {"mid rail", "mullion"} & roles.keys()
    light = {
        way: next((c for c in plan.by_measure.get(f"opening-{way}", ())
                   if door["mark"] in c["marks"]), None)
        for way in ("width", "height")
    }  # fmt: skip
    if not alone or light["width"] is None or light["height"] is None:
        return
    if any(f["unproven_by_saw"] for mark in roles["rail"] for f in parts[mark]["features"]):
        return
    panel, rail, stile = roles["panel"][0], roles["rail"][0], roles["stile"][0]
    wide = floor.lengths[rail] - sum(
        found or 0.0 for end in "AB"
        for found in (_longest(floor, parts[rail], end),)
    )  # fmt: skip
    while not light["width"]["low"] <= wide + floor.wrong(light["width"]) <= light["width"]["high"]:
        wide = light["width"]["target"] + floor.sigma(0.1)
    high = floor.bench(light["height"], 0.4)
    groove = next((f for f in parts[stile]["features"] if f["kind"] == "groove"), None)
    if groove is None:
        return
    low, deep = _box(groove)[1]
    depths = [floor.deep(mark, "inside-edge", deep - low) for mark in roles["stile"]]
    ends = [floor.deep(mark, "inside-edge", deep - low) for mark in roles["rail"]]
    width = floor.width(panel)
    check = next((c for c in plan.by_measure.get("panel-width", ()) if panel in c["marks"]), None)
    if check is not None and width is not None:
        while not check["low"] <= width + floor.wrong(check) <= check["high"]:
            width = check["target"] + floor.sigma(0.1)
    if width is None or None in depths or None in ends:
        return
    year = next((p for p in season.get("panels", ()) if p["part"] == panel), None)
    grown = shrunk = 1.0
    if year:
        widths = [float(Fraction(each)) for each in year["widths"]]
        grown, shrunk = max(widths) / widths[1], min(widths) / widths[1]
    of = (*roles["stile"], panel)
    yield "panel-free-across", of, wide + sum(d or 0.0 for d in depths) - width * grown
    yield "panel-held-across", of, (width * shrunk - wide) / 2
    of, long = (*roles["rail"], panel), floor.lengths[panel]
    yield "panel-free-along", of, high + sum(d or 0.0 for d in ends) - long
    yield "panel-held-along", of, (long - high) / 2


def _longest(floor: Shopfloor, bar: Json, end: str) -> float | None:
    cheeks = sorted(
        {_box(f)[0][1] - _box(f)[0][0] for f in bar["features"]
         if f["at"] == end and f["kind"] == "cheek"}, reverse=True,
    )  # fmt: skip
    found = (floor.shoulder(bar["mark"], f"end-{end}", length) for length in cheeks)
    return next((each for each in found if each is not None), None)


# Counting.


@dataclass
class Count:
    """Of one requirement: how many came out, how many inside, and what the plan says."""

    what: str
    told: float | None
    holds: bool
    seen: int = 0
    inside: int = 0


@dataclass
class Tally:
    """What became of many runs of one plan in one shop."""

    counts: dict[int, Count] = field(default_factory=dict)
    tries: int = 0
    checks: int = 0
    leaves: int = 0


def simulated(plan: Json, shop: Shop, leaves_wanted: int, chance: Random) -> Tally:
    """The plan followed until so many leaves are made."""
    reading, tally = Reading(plan), Tally()
    asked = plan["requirements"]
    for n, each in enumerate(asked):
        told = each["first_try"]
        tally.counts[n] = Count(
            each["what"], None if told is None else float(Fraction(told)), _holds(each)
        )
    of = [(each["what"], frozenset(each["of"]), _ends_of(each)) for each in asked]
    known: dict[tuple[str, tuple[str, ...]], list[int]] = {}
    while tally.leaves < leaves_wanted:
        floor = Shopfloor(reading, shop, chance)
        floor.run()
        tally.leaves += len(plan["doors"])
        tally.tries += sum(floor.tries)
        tally.checks += len(floor.tries)
        for what, marks, value in (*joints(floor), *edges(floor), *leaves(floor)):
            key = (what, marks)
            if key not in known:
                known[key] = [
                    n for n, (name, there, _) in enumerate(of)
                    if name == what and set(marks) <= there
                ]  # fmt: skip
            for n in known[key]:
                low, high = of[n][2]
                tally.counts[n].seen += 1
                tally.counts[n].inside += low - HAIR <= value <= high + HAIR
    return tally


def _ends_of(each: Json) -> tuple[float, float]:
    least, most = _number(each["least"]), _number(each["most"])
    return (-1e9 if least is None else least, 1e9 if most is None else most)


def _holds(each: Json) -> bool:
    least, most = _ends_of(each)
    worst = float(Fraction(each["worst_least"])), float(Fraction(each["worst_most"]))
    return worst[0] >= least and worst[1] <= most


def read(plan: Plan) -> Json:
    found: Json = json.loads(to_json(plan))
    return found


def random_plans(seed: int) -> Iterator[tuple[str, Json]]:
    """Plans of random jobs that a small shop makes, without end."""
    number = seed
    while True:
        made = outcome(pair("ordinary", number))
        if made.plan is not None and made.plan["requirements"]:
            yield f"random {number}", made.plan
        number += 1


def main(leaves_wanted: int, seed: int) -> int:
    from tests.proof.test_intent import EXAMPLES, example

    plans = [(path.parent.name, read(example(path))) for path in EXAMPLES]
    plans = [(name, plan) for name, plan in plans if plan["requirements"]]
    drawn = random_plans(seed)
    plans += [next(drawn) for _ in range(10)]
    each = -(-leaves_wanted // len(plans))
    broken = 0
    for shop in SHOPS:
        print(f"{shop.name}: {each} leaves of each of {len(plans)} jobs")  # noqa: T201
        for name, plan in plans:
            tally = simulated(plan, shop, each, Random(f"{seed} {shop.name} {name}"))
            rate = tally.tries / max(1, tally.checks)
            fits = "; ".join(
                f"{c.what} {c.inside / c.seen:.3f} (plan {c.told:.3f})"
                for c in tally.counts.values() if c.told is not None and c.seen
            )  # fmt: skip
            musts = [c for c in tally.counts.values() if c.told is None and c.seen]
            held = sum(c.seen - c.inside for c in musts if c.holds)
            loose = sum(c.seen - c.inside for c in musts if not c.holds)
            broken += held if shop.name == "ordinary" else 0
            print(  # noqa: T201
                f"  {name:16} {rate:.2f} tries a check; {fits}; musts that hold broken {held}, "
                f"others {loose} of {sum(c.seen for c in musts if not c.holds)}"
            )
    return 1 if broken else 0


if __name__ == "__main__":
    sys.exit(main(int(sys.argv[1]), int(sys.argv[2])))
