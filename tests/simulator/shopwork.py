"""What a simulated shop does at the saw and the bench: sets, tries, reads, corrects, cuts.

All of it reads `plan.json`; sizes are plain decimals.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from fractions import Fraction
from random import Random
from typing import Any

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
                    block = change["knob"] == "spacer"
                    self.off[change["knob"]] = (
                        self.block() if block else self.sigma(self.shop.scale)
                    )
                last = setup["number"]
            if step["kind"] in SCRAP:
                self.try_out(step, setup)
            else:
                self.cut(step, setup)

    def block(self) -> float:
        """How far a block is off what it was measured as."""
        most = self.shop.caliper / self.plan.mm
        return self.chance.uniform(-most, most)

    def milled(self, check: Json | None) -> float:
        while True:
            off = self.sigma(self.shop.thick)
            if check is None:
                return off
            found = off + check["planned"] + self.wrong(check)
            if check["low"] <= found <= check["high"]:
                self.read[check["n"]] = found
                return off

    def make(self, step: Json, setup: Json, cut: Json) -> Pass:
        guide, kerf, depth = setup["guide"] or 0.0, setup["kerf"], setup["depth"]
        knob = self.plan.knob(setup)
        near = guide + self.off.get(knob, 0.0) + self.sigma(self.shop.repeat)
        if float(Fraction(setup["spacer"])):
            near -= self.off.get("spacer", 0.0)
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
                more = sum(
                    float(Fraction(share)) * (self.read[n] - self.plan.target[n])
                    for n, share in zip(check["after"], check["shares"], strict=True)
                )
                if check["low"] <= found - more <= check["high"]:
                    break
                move = (check["target"] + more - found) / check["per_unit"]
                self.off[check["knob"]] += move + self.sigma(self.shop.move)
            self.tries.append(tries)
            self.read[check["n"]] = found
            wall = scrap, _place(check["measure"])
            if _kind(check["measure"]) in ("to-channel", "to-housing"):
                self.first_wall[wall] = cuts[0]
            elif _kind(check["measure"]) == "channel-depth":  # where its place is known already
                self.first_wall.setdefault(wall, cuts[0])

    def measure(self, check: Json, cuts: Sequence[Pass], scrap: str) -> float:
        """What there is to be read on the test piece."""
        what = _kind(check["measure"])
        thick = self.thick[self.plan.stick.get(scrap, scrap)]
        first = cuts[0]
        second = cuts[1] if len(cuts) > 1 else first
        if what in _AT_ONCE:
            return _AT_ONCE[what](first)
        if what == "channel-width" and {cut.against for cut in cuts} == set(FACES):
            return thick - first.near - second.near
        if what == "channel-width":
            return first.far - self.first_wall[scrap, _place(check["measure"])].near
        if what == "housing-width":
            return first.far - self.first_wall[scrap, _place(check["measure"])].near
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
            made, checks = self.looked(made, cut, step, setup, checks), []
            if step["kind"] == "crosscut":
                self.lengths[self.waiting[cut["mark"]].pop(0)] = made.near
            else:
                self.made.setdefault(cut["mark"], []).append(made)

    def looked(
        self, made: Pass, cut: Json, step: Json, setup: Json, checks: Sequence[Json]
    ) -> Pass:
        """The first piece, measured before the others are cut: cut again, or made again, until it
        is good."""
        for check in checks:
            tries = 1
            while tries < MOST_TRIES:
                found = self.measure(check, [made], cut["mark"]) + self.wrong(check)
                if check["low"] <= found <= check["high"]:
                    break
                move = (check["target"] - found) / check["per_unit"]
                self.off[check["knob"]] += move + self.sigma(self.shop.move)
                made = self.make(step, setup, cut)
                tries += 1
            self.tries.append(tries)
            self.read[check["n"]] = found
        return made

    # What came out.

    def passes(self, mark: str) -> Iterator[Pass]:
        yield from self.made.get(self.plan.stick.get(mark, ""), ())
        yield from self.made.get(mark, ())

    def thickness(self, mark: str) -> float:
        return self.thick[self.plan.stick.get(mark, mark)]

    def wall(
        self, mark: str, z: float, ats: Sequence[str], *, trench: bool = False
    ) -> float | None:
        """Where a wall is that is meant to be at `z` from the face, or the bottom of a trench."""
        meant, thick = self.plan.meant[self.plan.stick[mark]], self.thickness(mark)
        if abs(z) < HAIR:
            return 0.0
        if abs(z - meant) < HAIR:
            return thick
        for made in self.passes(mark):
            if trench != (made.kind == "housing"):
                continue
            if made.against in FACES and made.down in ats:
                named, found = made.walls(thick, meant)
                for name, value in zip(named, found, strict=True):
                    if abs(name - z) < HAIR:
                        return value
        for made in self.passes(mark):
            if made.down in FACES and made.against in ats and trench == (made.kind == "housing"):
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
         "to-mitre", "length"), lambda made: made.near,
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
        self.meant = {each["mark"]: number(each["size"]["thickness"]) for each in plan["sticks"]}
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
        self.seasons = {each["door"]: each for each in plan["seasons"]}
        self.spans = {door["mark"]: self._standing(door) for door in plan["doors"]}

    def _standing(self, door: Json) -> dict[str, tuple[Any, Any]]:
        """To the right and up, what each piece of a leaf takes up."""
        found: dict[str, tuple[Any, Any]] = {}
        for place in door["places"]:
            size = self.parts[place["mark"]]["meant"]
            spans: dict[str, tuple[float, float]] = {}
            for axis, name in zip(place["axes"], ("length", "width", "thickness"), strict=True):
                at = number(place["origin"]["xyz".index(axis[1])])
                ends = (at, at + size[name]) if axis[0] == "+" else (at - size[name], at)
                spans[axis[1]] = ends
            found[place["mark"]] = (spans["x"], spans["y"])
        return found

    def between(self, bar: str) -> float | None:
        """From shoulder to shoulder, as it is meant."""
        part = self.parts[bar]
        longest = [
            max((box(f)[0][1] - box(f)[0][0] for f in part["features"]
                 if f["kind"] == "cheek" and f["at"] == end), default=None)
            for end in "AB"
        ]  # fmt: skip
        if longest[0] is None or longest[1] is None:
            return None
        return float(part["meant"]["length"]) - longest[0] - longest[1]

    def knob(self, setup: Json) -> str:
        knob = KNOBS[setup["carrier"]]
        return "fence" if knob == "jig" and self.rides == "fence" else knob


def _place(measure: str) -> str:
    """Slot or groove, and so on; one kind has none."""
    return measure.partition("/")[2]


def _kind(measure: str) -> str:
    """What is measured, wherever."""
    return measure.partition(":")[0].partition("/")[0]


def _figures(each: Json, *keys: str) -> dict[str, Any]:
    return {**each, **{key: number(each[key]) for key in keys}}


def number(text: str | None) -> Any:
    return None if text is None else float(Fraction(text))


def _read_part(part: Json) -> dict[str, Any]:
    """A part with the spans of what it lacks as decimals."""
    features = [{**each, "spans": read_box(each)} for each in part["features"]]
    return {**part, "features": features, "meant": _figures(part["size"], *part["size"])}


def read_box(feature: Json) -> list[tuple[float, float]]:
    if feature.get("prism"):
        prism = feature["prism"]
        along = tuple(float(Fraction(each)) for each in prism["along"])
        spans = dict.fromkeys("xyz", along)
        for n, axis in enumerate(prism["axes"]):
            found = [float(Fraction(corner[n])) for corner in prism["corners"]]
            spans[axis] = (min(found), max(found))
        return [(spans[a][0], spans[a][1]) for a in "xyz"]
    return [(float(Fraction(a)), float(Fraction(b))) for a, b in feature["box"]]


def box(feature: Json) -> list[tuple[float, float]]:
    found: list[tuple[float, float]] = feature["spans"]
    return found
