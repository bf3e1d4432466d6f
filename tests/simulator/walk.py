"""Following the printed order: every step, every pass, every physical piece, scrap among them.

What stands at the saw is read from what each setup says to change and from the printed steps that
put guard and knife on or take them off, never from the order as it was solved.
"""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from typing import Any

from tests.simulator.cleared import Blade, cleared
from tests.simulator.passing import Freed, Pass, Where
from tests.simulator.scale import Json, Scale, grains_of
from tests.simulator.wood import (
    SIDES,
    Box,
    Wood,
    fallen,
    hull,
    meet,
    merged,
    shifted,
    turned,
    volume,
    without,
)

TRIALS = ("test cut", "check cut")


def passes(plan: Json) -> Iterator[Pass]:
    """Every pass in the printed order. Raises `KeyError` where a cut names none that is there."""
    floor = _Floor(plan)
    for step in plan["steps"]:
        yield from floor.done(step)


class _Floor:
    def __init__(self, plan: Json) -> None:
        self.plan = plan
        self.scale = Scale(grains_of(plan), plan["unit"])
        self.setups = {setup["number"]: setup for setup in plan["setups"]}
        self.entered: int | None = None
        self.standing: dict[str, str] = {}
        self.guard: str | None = None
        self.waiting = {stick["mark"]: list(stick["pieces"]) for stick in plan["sticks"]}
        sizes = {stick["mark"]: stick["blank"] for stick in plan["sticks"]}
        on_sticks = {piece["mark"] for each in self.waiting.values() for piece in each}
        sizes |= {p["mark"]: p["size"] for p in plan["parts"] if p["mark"] not in on_sticks}
        self.wood: dict[str, Wood] = {mark: (self.block(size),) for mark, size in sizes.items()}
        self.ticks: dict[int, set[str]] = {}
        for warning in plan["warnings"]:
            for number in warning["setups"]:
                self.ticks.setdefault(number, set()).add(warning["tick"]["id"])
        self.always = {caution["rule"] for caution in plan["standing"]}

    def block(self, size: Json) -> Box:
        of = self.scale.of
        return (0, of(size["length"]), 0, of(size["width"]), 0, of(size["thickness"]))

    def done(self, step: Json) -> Iterator[Pass]:
        number = step["setup"]
        if number is not None and number != self.entered:
            self.entered = number
            for change in self.setups[number]["changes"]:
                self.standing[change["knob"]] = change["number"] or change["after"]
        if step["kind"] == "refit guard":
            self.guard = "fitted"
        elif step["kind"] == "remove guard":
            self.guard = self.setups[number]["guard"]
        elif self.guard not in (None, "fitted") and number is not None:
            # From knife to cover and back a setup's own line does; the guard has a printed step.
            told = self.standing.get("guard", self.guard)
            self.guard = self.guard if told == "fitted" else told
        for cut in step["cuts"]:
            yield self.passed(step, cut)
        for taken in step["removes"]:
            self.benched(taken)

    def benched(self, taken: Json) -> None:
        """What a bench step takes, where it is a box; a shaped edge is bounded by leaving it on."""
        spans = taken.get("box")
        if spans is None or taken["mark"] not in self.wood:
            return
        of = self.scale.of
        x, y, z = ((of(low), of(high)) for low, high in spans)
        left = without(self.wood[taken["mark"]], [(*x, *y, *z)])
        if left:
            self.wood[taken["mark"]] = fallen(left)[0]

    def passed(self, step: Json, cut: Json) -> Pass:
        setup = self.setups[step["setup"]]
        wood = self.wood[cut["mark"]]
        box = hull(wood)
        start = self.start(cut, box)
        blade = self.blade(setup, cut, start)
        taken = cleared(box, blade)
        left = merged(without(wood, taken))
        kept, freed = _kept(left, cut, blade, box)
        made = Pass(
            scale=self.scale,
            shop=self.plan["shop"],
            setup=setup,
            step=step["number"],
            scrap=step["kind"] in TRIALS,
            mark=cut["mark"],
            cut=cut,
            blade=blade,
            cutter=self.plan["shop"]["cutters"][setup["cutter"]],
            standing=dict(self.standing),
            guard=self.guard,
            wood=wood,
            box=box,
            kept=kept,
            freed=freed,
            removed=volume(left) < volume(wood),
            backed=_backed(left, blade, taken, box),
            start=start,
            rules=frozenset(each["rule"] for each in setup["cautions"]) | self.always,
            words=frozenset(each["word"] for each in setup["cautions"]),
            ticks=frozenset(self.ticks.get(setup["number"], ())),
            holding=tuple(_holding(setup["cautions"])),
        )
        self.leave(made)
        return made

    def start(self, cut: Json, box: Box) -> int:
        """Where a stick's first piece begins, on the stick as it is."""
        waiting = self.waiting.get(cut["mark"])
        return self.scale.of(waiting[0]["from"]) if waiting and cut["against"] is None else box[0]

    def blade(self, setup: Json, cut: Json, start: int) -> Blade:
        of = self.scale.of
        squared = cut["against"] is None
        kerf = of(setup["kerf"])
        back = cut.get("back")
        return Blade(
            down=cut["down"],
            against=cut["against"] or "end-A",
            guide=start - kerf if squared else of(setup["guide"]),
            kerf=kerf,
            depth=of(setup["height"]) - of(self.plan["shop"]["decks"].get(setup["carrier"], "0")),
            tilt=Fraction(setup["tilt"]),
            sweep=cut["sweep"],
            back=None if back is None else of(back),
            slanted=setup["carrier"] == "mitre-sled",
        )

    def leave(self, made: Pass) -> None:
        """What lies there after the pass: a piece off its stick, or the piece with less on it."""
        waiting = self.waiting.get(made.mark)
        parted = made.on_sled and made.through and not made.squared
        if not (parted and waiting):
            self.wood[made.mark] = made.kept
            return
        piece = waiting.pop(0)
        ends = hull(made.kept)
        wood = shifted(made.kept, -ends[0])
        if piece["end_a"] == "right":
            wood = turned(wood, ends[1] - ends[0])
        self.wood[piece["mark"]] = wood
        rest = [each.wood for each in made.freed if each.where == "far"]
        self.wood[made.mark] = max(rest, key=volume) if rest else ()


def _kept(left: Wood, cut: Json, blade: Blade, box: Box) -> tuple[Wood, tuple[Freed, ...]]:
    """What the person goes on with, and what came loose: the largest solid on the side that the cut
    keeps, or of all."""
    solids = [(wood, _where(hull(wood), blade, box)) for wood in fallen(left)]
    wanted = {"guide": "guide", "far": "far", "larger": "far"}.get(cut["keeps"] or "")
    kept = next((n for n, (_, where) in enumerate(solids) if wanted in (None, where)), None)
    freed = tuple(Freed(wood, where) for n, (wood, where) in enumerate(solids) if n != kept)
    return (() if kept is None else solids[kept][0]), freed


def _where(solid: Box, blade: Blade, box: Box) -> Where:
    """On which side of the blade a solid lies: as a whole, or where the blade leans, by its middle
    against the blade's at that height."""
    near, far = _distances(solid, blade.against, box)
    if blade.slanted:
        return "far"
    if far <= blade.guide:
        return "guide"
    if near >= blade.farthest:
        return "far"
    if not blade.tilt:
        return "over"
    low, high = _distances(solid, blade.down, box)
    rise = min(Fraction(low + high, 2), Fraction(blade.depth))
    middle = blade.guide + Fraction(blade.kerf, 2) - blade.tilt * rise
    return "guide" if Fraction(near + far, 2) < middle else "far"


def _distances(solid: Box, side: str, box: Box) -> tuple[int, int]:
    """From a side of the piece to where a solid begins and ends."""
    axis, end = SIDES[side]
    low, high = solid[2 * axis], solid[2 * axis + 1]
    whole = box[2 * axis + end]
    return (whole - high, whole - low) if end else (low - whole, high - whole)


def _backed(left: Wood, blade: Blade, taken: list[Box], box: Box) -> int:
    """The thicker of the walls that the kerf leaves, away from it: what can be measured by."""
    axis, _ = SIDES[blade.against]
    walls = 0
    for space in taken:
        near, far = _distances(space, blade.against, box)
        for each in left:
            beside = list(each)
            beside[2 * axis : 2 * axis + 2] = space[2 * axis : 2 * axis + 2]
            b = (beside[0], beside[1], beside[2], beside[3], beside[4], beside[5])
            if meet(b, space) is None:
                continue
            low, high = _distances(each, blade.against, box)
            if high == near or low == far:
                walls = max(walls, high - low)
    return walls


def _holding(cautions: Any) -> Iterator[Json]:
    """The facts, among all that a setup says, of what is held and which side of it."""
    for caution in cautions:
        for name in ("held", "side"):
            fact = caution["with"].get(name)
            if isinstance(fact, dict):
                yield fact
