"""A shop in which everything may be off: what each cut leaves then, worked through as the person
goes about it, in plain numbers.

A knob stands where the plan sets it; the test cut is made and measured, each a little off; and the
knob is moved by the printed rule, so that the reading is what it is said to be. Then the good wood
is cut. `Run.asked` remembers which errors had a say in what was looked at.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from fractions import Fraction
from functools import cached_property
from typing import Literal

from msgspec import Struct

from sequencer.plan import SCRAP_STEPS, Checkpoint, Cut, Part, Plan, Setup, Step
from sequencer.proof.dials import SPACER, guide_reading

NONE = Fraction(0)
HEIGHT = "height"
FLAT = ("face", "back")

Error = tuple[str, str, int]
"""`read` and `wrong` of the check with the number: by how much a reading is off what the plan
makes, and off the truth; `aim`, by how much what the plan makes is off what is aimed at; `pass`
along `guide` or `height` of the cut with a number of its own; `thick` of a strip; `set` of a knob,
since a setup; `kerf` of a cutter."""


class Done(Struct, frozen=True):
    """One pass, its number told among all of the plan."""

    step: Step
    setup: Setup
    cut: Cut
    number: int

    @property
    def kind(self) -> tuple[object, ...]:
        """What passes have in common that are made alike."""
        return (self.setup.number, self.cut.down, self.cut.against, self.step.kind)


class Wall(Struct, frozen=True):
    """The pass that leaves a wall, `by` which side of its kerf; `face`: as far from a piece's face
    as that, else from its back."""

    made: Done
    by: Literal["near", "far", "deep"]
    face: bool


class Ground:
    """A plan by what is done to each piece, and what is tried before: all that no error changes."""

    def __init__(self, plan: Plan) -> None:
        self.plan = plan
        self.parts: Mapping[str, Part] = {part.mark: part for part in plan.parts}
        self.strip = {piece.mark: stick.mark for stick in plan.sticks for piece in stick.pieces}
        self.thickness = {stick.mark: stick.size.thickness for stick in plan.sticks}
        self.knobs = {setup.number: guide_reading(setup, plan.shop)[0] for setup in plan.setups}
        self.walls: dict[tuple[str, Fraction, tuple[str, ...], bool], Wall | None] = {}
        self.done: dict[str, list[Done]] = {}
        self.tried: dict[tuple[int, str], list[Done]] = {}
        self.lengths: dict[str, Done] = {}
        self.numbered: dict[int, Done] = {}
        self._follow()

    def _follow(self) -> None:
        setups = {setup.number: setup for setup in self.plan.setups}
        left = {stick.mark: [piece.mark for piece in stick.pieces] for stick in self.plan.sticks}
        for step in self.plan.steps:
            for cut in step.cuts if step.setup is not None else ():
                made = Done(step, setups[step.setup or 0], cut, len(self.numbered))
                self.numbered[made.number] = made
                if step.kind in SCRAP_STEPS:
                    self.tried.setdefault((step.number, cut.mark), []).append(made)
                elif cut.keeps is not None and cut.against == "end-A" and left.get(cut.mark):
                    self.lengths[left[cut.mark].pop(0)] = made
                else:
                    self.done.setdefault(cut.mark, []).append(made)

    @cached_property
    def since(self) -> Mapping[tuple[int, str], int]:
        """For setup and knob, the setup that it was last set for."""
        found: dict[tuple[int, str], int] = {}
        last: dict[str, int] = {}
        for setup in self.plan.setups:
            last.update((change.knob, setup.number) for change in setup.changes)
            found.update(((setup.number, knob), first) for knob, first in last.items())
        return found

    @cached_property
    def corrected(self) -> Mapping[tuple[str, int], list[int]]:
        """For a knob and the setup it was set for, the checks by which it is corrected."""
        found: dict[tuple[str, int], list[int]] = {}
        for number, check in enumerate(self.plan.checkpoints):
            if check.knob is not None and check.setup is not None:
                key = (check.knob, self.since.get((check.setup, check.knob), 0))
                found.setdefault(key, []).append(number)
        return found

    def check_before(self, made: Done, knob: str) -> int | None:
        """The last check by which a knob was corrected before a pass was made, or by that pass."""
        key = (knob, self.since.get((made.setup.number, knob), 0))
        last: int | None = None
        for number in self.corrected.get(key, ()):
            at = self.plan.checkpoints[number].at_step
            if at <= made.step.number and (
                last is None or at > self.plan.checkpoints[last].at_step
            ):
                last = number
        return last

    @cached_property
    def planed(self) -> Mapping[str, Fraction]:
        """By strip, what is planed off its width."""
        found: dict[str, Fraction] = {}
        for step in self.plan.steps:
            for taken in step.removes if step.kind == "plane" else ():
                low, high = taken.box[1]
                found[taken.mark] = found.get(taken.mark, NONE) + high - low
        return found

    def of(self, mark: str) -> Iterator[Done]:
        yield from self.done.get(self.strip.get(mark, ""), ())
        yield from self.done.get(mark, ())

    def wall(
        self, mark: str, z: Fraction, ats: tuple[str, ...], *, trench: bool = False
    ) -> Wall | None:
        """What leaves a wall that is meant to be at `z` from a piece's face, cut with one of `ats`
        down or at the guide; of a `trench`, its bottom."""
        key = (mark, z, ats, trench)
        if key not in self.walls:
            self.walls[key] = self._wall(mark, z, ats, trench)
        return self.walls[key]

    def _wall(self, mark: str, z: Fraction, ats: tuple[str, ...], trench: bool) -> Wall | None:
        meant = self.parts[mark].size.thickness
        made = [
            each
            for each in self.of(mark)
            if not each.setup.tilt and trench == (each.step.kind == "housing")
        ]
        for each in made:
            guide, cut = each.setup.guide, each.cut
            if guide is None or cut.down not in ats or cut.against not in FLAT:
                continue
            from_guide = z if cut.against == "face" else meant - z
            if from_guide in (guide, guide + each.setup.kerf):
                return Wall(each, "near" if from_guide == guide else "far", cut.against == "face")
        for each in made:
            cut = each.cut
            from_down = z if cut.down == "face" else meant - z
            if cut.down in FLAT and cut.against in ats and each.setup.depth == from_down:
                return Wall(each, "deep", cut.down == "face")
        return None

    def cut_for(self, check: Checkpoint) -> list[Done]:
        if check.scrap is not None:
            return self.tried.get((check.at_step, check.scrap), [])
        there = [self.lengths.get(mark) for mark in check.marks]
        there += [made for mark in check.marks for made in self.done.get(mark, ())]
        return [made for made in there if made and made.step.number == check.at_step][:1]


class Run:
    """One way in which everything may come out."""

    def __init__(self, ground: Ground, errors: Mapping[Error, Fraction]) -> None:
        self.ground = ground
        self.errors = errors
        self.asked: dict[Error, None] = {}
        self._knobs: dict[int, Fraction] = {}
        self._trying: set[int] = set()

    def off(self, kind: str, of: str, number: int = 0) -> Fraction:
        error = (kind, of, number)
        self.asked[error] = None
        return self.errors.get(error, NONE)

    # One pass.

    def near(self, made: Done) -> Fraction:
        """From the guide to the kerf."""
        stands = self.knob(made, self.ground.knobs[made.setup.number])
        if made.setup.spacer:
            stands -= self.knob(made, SPACER)
        guide = made.setup.guide or NONE
        return _together(guide, stands, self.off("pass", "guide", made.number))

    def far(self, made: Done) -> Fraction:
        """From the guide to the kerf's far side."""
        kerf = made.setup.kerf
        return _together(self.near(made), kerf, self.off("kerf", made.setup.cutter))

    def deep(self, made: Done) -> Fraction:
        stands = self.knob(made, HEIGHT)
        return _together(made.setup.depth, stands, self.off("pass", "height", made.number))

    def thick(self, mark: str) -> Fraction:
        """Of a piece, or of a strip."""
        strip = self.ground.strip.get(mark, mark)
        return _together(self.ground.thickness[strip], self.off("thick", strip))

    def knob(self, made: Done, knob: str) -> Fraction:
        """How far a knob stands off in a pass, once it was corrected by its check."""
        key = (knob, self.ground.since.get((made.setup.number, knob), 0))
        number = self.ground.check_before(made, knob)
        if number is None:
            return self.off("set", *key)
        if number in self._trying:
            return NONE  # as it stands before it is corrected
        if number not in self._knobs:
            self._trying.add(number)
            check = self.ground.plan.checkpoints[number]
            found = self.measured(check)
            self._trying.discard(number)
            if found is None or not check.per_unit:
                return self.off("set", *key)
            read, wrong = self.off("read", "", number), self.off("wrong", "", number)
            wanted = _together(check.exact, read, -wrong if wrong else NONE, self.came_out(check))
            self._knobs[number] = NONE if wanted == found else (wanted - found) / check.per_unit
        return self._knobs[number]

    def came_out(self, check: Checkpoint) -> Fraction:
        """By how much more or less a check is good, for what those were read that it refers to."""
        found = NONE
        for other, share in check.refers:
            mate = self.ground.plan.checkpoints[other]
            came = self.off("aim", "", other) + self.came_out(mate)
            if mate.knob is None:  # the thickness of a strip, read by itself
                came += self.off("thick", mate.marks[0]) + self.off("wrong", "", other)
            else:
                came += self.off("read", "", other)
            found += share * came
        return found

    # What is measured of a test cut.

    def measured(self, check: Checkpoint) -> Fraction | None:
        made = self.ground.cut_for(check)
        take = MEASURED.get(check.measure.what.value)
        return take(self, check, made) if made and take is not None else None

    # What is left of a piece.

    def wall(
        self, mark: str, z: Fraction, ats: tuple[str, ...], *, trench: bool = False
    ) -> Fraction | None:
        """Where a wall of a piece comes to lie that is meant to be at `z` from its face (see
        `Ground.wall`). `None` where no pass leaves it."""
        if z in (NONE, self.ground.parts[mark].size.thickness):
            return self.thick(mark) if z else NONE
        found = self.ground.wall(mark, z, ats, trench=trench)
        if found is None:
            return None
        here = {"near": self.near, "far": self.far, "deep": self.deep}[found.by](found.made)
        return here if found.face else self.thick(mark) - here

    def bottom(self, mark: str, at: str, depth: Fraction) -> Fraction | None:
        """How deep a cut is with an edge or end down."""
        for each in self.ground.of(mark):
            if each.cut.down == at and each.cut.against in FLAT and each.setup.depth == depth:
                return self.deep(each)
        return None

    def shoulder(self, mark: str, end: str, length: Fraction) -> Fraction | None:
        """How far from an end a shoulder is."""
        for each in self.ground.of(mark):
            cut, guide = each.cut, each.setup.guide
            across = cut.against == end and cut.down in FLAT and cut.keeps is None
            if across and guide is not None and guide + each.setup.kerf == length:
                return self.far(each)
        return None

    def length(self, mark: str) -> Fraction | None:
        made = self.ground.lengths.get(mark)
        return None if made is None else self.near(made)

    def width(self, mark: str) -> Fraction | None:
        """As it was ripped, less what is planed off."""
        made = next((each for each in self.ground.of(mark) if each.step.kind == "rip"), None)
        if made is None:
            return None
        return self.near(made) - self.ground.planed.get(self.ground.strip.get(mark, mark), NONE)


def _together(length: Fraction, *more: Fraction) -> Fraction:
    """Their sum. Nearly all of what is off is nothing, and is not added."""
    for each in more:
        if each is not NONE:
            length += each
    return length


Take = Callable[[Run, Checkpoint, list[Done]], Fraction | None]


def _near(run: Run, _: Checkpoint, made: list[Done]) -> Fraction | None:
    return run.near(made[0])


def _far(run: Run, _: Checkpoint, made: list[Done]) -> Fraction | None:
    return run.far(made[0])


def _deep(run: Run, _: Checkpoint, made: list[Done]) -> Fraction | None:
    return run.deep(made[0])


def _bevel(run: Run, check: Checkpoint, made: list[Done]) -> Fraction | None:
    """As much thicker as the blade stands farther from the back."""
    return check.exact + run.near(made[0]) - (made[0].setup.guide or NONE)


def _channel(run: Run, check: Checkpoint, made: list[Done]) -> Fraction | None:
    """From wall to wall: between two passes of the piece turned round, or from the wall that was
    cut before."""
    sides = {each.cut.against for each in made}
    if len(sides) == 2:
        return run.thick(check.scrap or "") - sum(run.near(each) for each in made[:2])
    return _beside(run, check, made, "to-channel")


def _housing(run: Run, check: Checkpoint, made: list[Done]) -> Fraction | None:
    return _beside(run, check, made, "to-housing")


def _beside(run: Run, check: Checkpoint, made: list[Done], first: str) -> Fraction | None:
    before = [
        other
        for other in run.ground.plan.checkpoints
        if (other.measure.what.value, other.scrap) == (first, check.scrap)
        and other.at_step <= check.at_step
    ]
    walls = run.ground.cut_for(before[-1]) if before else []
    return run.far(made[0]) - run.near(walls[0]) if walls else None


def _between(run: Run, check: Checkpoint, made: list[Done]) -> Fraction | None:
    """What two passes leave standing, from both sides."""
    thick = run.thick(check.scrap or "")
    if made[0].cut.down in FLAT:
        return thick - sum(run.deep(each) for each in made[:2])
    return sum((run.near(each) for each in made[:2]), NONE) - thick


def _under(run: Run, check: Checkpoint, made: list[Done]) -> Fraction | None:
    return run.thick(check.scrap or "") - run.deep(made[0])


def _shoulders(run: Run, check: Checkpoint, made: list[Done]) -> Fraction | None:
    whole = run.length(check.scrap or "")
    ends = {each.cut.against: each for each in reversed(made)}
    if whole is None or len(ends) != 2:
        return None
    return whole - sum(run.far(each) for each in ends.values())


MEASURED: Mapping[str, Take] = {
    **dict.fromkeys(
        ("channel-wall", "to-channel", "to-far-cheek", "tenon-width", "lip", "to-housing",
         "to-mitre", "length"), _near,
    ),
    **dict.fromkeys(("rebate-width", "to-shoulder"), _far),
    **dict.fromkeys(
        ("channel-depth", "shoulder-depth", "edge-shoulder-depth", "mitre-depth", "rebate-reach",
         "flat-depth"), _deep,
    ),
    "bevel": _bevel,
    "channel-width": _channel,
    "housing-width": _housing,
    "tenon": _between,
    "tongue": _between,
    "under-housing": _under,
    "shoulders": _shoulders,
}  # fmt: skip
"""By the kinds' own ids."""
