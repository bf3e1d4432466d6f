"""Which pass leaves which surface of a piece, and how far that is off."""

from __future__ import annotations

from collections.abc import Collection, Iterator, Mapping
from dataclasses import dataclass
from fractions import Fraction
from functools import cached_property

from msgspec import Struct

from sequencer.plan import SCRAP_STEPS, Cut, Part, Plan, Setup, Step
from sequencer.saw.fittings import SPACER
from sequencer.tolerance.forms import Form, Source, of

HEIGHT = "height"
FACES = ("face", "back")
ENDS = ("end-A", "end-B")


class Made(Struct, frozen=True):
    """One pass: `number` is its place among the cuts of its step."""

    step: Step
    setup: Setup
    cut: Cut
    number: int

    def off(self, axis: str) -> Form:
        """What it does not repeat, `guide` along the guide's way or `height`."""
        return of(Source("pass", f"{self.step.number}/{self.number}/{axis}"))


@dataclass
class Floor:
    """A plan's settings and passes, to be asked about."""

    plan: Plan

    def __post_init__(self) -> None:
        self.set_at: dict[int, dict[str, int]] = {}
        """For each setup the one that each knob was last set for."""
        self.on_scrap: dict[tuple[int, str], list[Made]] = {}
        """Passes of test cuts, by step and mark."""
        self.passes: dict[str, list[Made]] = {}
        """Those in good wood, by the mark of stick or piece."""
        self.cut_off: dict[str, Made] = {}
        """By a piece's mark, the pass that gave it its length."""
        self._planes: dict[tuple[object, ...], Form | None] = {}
        self._set()
        self._follow()

    @cached_property
    def stick_of(self) -> Mapping[str, str]:
        return {piece.mark: stick.mark for stick in self.plan.sticks for piece in stick.pieces}

    @cached_property
    def parts(self) -> Mapping[str, Part]:
        return {part.mark: part for part in self.plan.parts}

    def _set(self) -> None:
        last: dict[str, int] = {}
        for setup in self.plan.setups:
            last |= {change.knob: setup.number for change in setup.changes}
            self.set_at[setup.number] = dict(last)

    @cached_property
    def tried(self) -> Mapping[tuple[str, int], list[tuple[int, int]]]:
        """For a knob and the setup it was set for, the checks that correct it: at which step, and
        where in the plan's list."""
        found: dict[tuple[str, int], list[tuple[int, int]]] = {}
        for number, check in enumerate(self.plan.checkpoints):
            if check.knob is not None and check.setup is not None:
                since = self.set_at[check.setup].get(check.knob, 0)
                found.setdefault((check.knob, since), []).append((check.at_step, number))
        return found

    def _follow(self) -> None:
        setups = {setup.number: setup for setup in self.plan.setups}
        waiting = {stick.mark: list(stick.pieces) for stick in self.plan.sticks}
        for step in self.plan.steps:
            if step.setup is None:
                continue
            setup = setups[step.setup]
            for number, cut in enumerate(step.cuts):
                made = Made(step, setup, cut, number)
                if step.kind in SCRAP_STEPS:
                    self.on_scrap.setdefault((step.number, cut.mark), []).append(made)
                    continue
                self.passes.setdefault(cut.mark, []).append(made)
                if step.kind == "crosscut" and waiting.get(cut.mark):
                    self.cut_off[waiting[cut.mark].pop(0).mark] = made

    def knob(self, made: Made, knob: str) -> Source:
        """The setting of a knob that a pass is made with: since when it was set, and by which check
        it was corrected last."""
        since = self.set_at[made.setup.number].get(knob, 0)
        before = [
            (at, -number)
            for at, number in self.tried.get((knob, since), ())
            if at <= made.step.number
        ]
        by = -max(before)[1] if before else ""
        return Source("knob", f"{knob}@{since}#{by}")

    def guided(self, made: Made) -> Form:
        """How far the kerf's near side is off, seen from the guide."""
        knob = self.plan.shop.guide_knob(made.setup.carrier)
        form = of(self.knob(made, knob)) + made.off("guide")
        return form - of(self.knob(made, SPACER)) if made.setup.spacer else form

    def beyond(self, made: Made) -> Form:
        """How far its far side is."""
        return self.guided(made) + of(Source("kerf", made.setup.cutter))

    def deep(self, made: Made) -> Form:
        """How far its bottom is, seen from what lies down."""
        return of(self.knob(made, HEIGHT)) + made.off(HEIGHT)

    def thick(self, mark: str) -> Form:
        """How far a piece is off its thickness: as the strip that it comes from."""
        return of(Source("thick", self.stick_of.get(mark, mark)))

    def cuts(self, mark: str) -> Iterator[Made]:
        """In good wood, on its stick before it was cut off, and on the piece."""
        yield from self.passes.get(self.stick_of.get(mark, ""), ())
        yield from self.passes.get(mark, ())

    def plane(
        self, mark: str, z: Fraction, ats: Collection[str], *, housed: bool = False
    ) -> Form | None:
        """How far a wall or bottom at `z` through the thickness is off, seen from the show face,
        of a cut made with one of `ats`, an end or an edge, down or at the guide; where it is
        `housed`, of a housing only. `None` where no pass leaves it."""
        key = (mark, z, housed, *sorted(ats))
        if key not in self._planes:
            self._planes[key] = self._plane(mark, z, ats, housed=housed)
        return self._planes[key]

    def _plane(self, mark: str, z: Fraction, ats: Collection[str], *, housed: bool) -> Form | None:
        thickness, thick = self.parts[mark].size.thickness, self.thick(mark)
        made = [
            each
            for each in self.cuts(mark)
            if not each.setup.tilt and (each.step.kind == "housing") == housed
        ]
        for each in made:
            guide = each.setup.guide
            if guide is None or each.cut.against not in FACES or each.cut.down not in ats:
                continue
            for at, form in (
                (guide, self.guided(each)),
                (guide + each.setup.kerf, self.beyond(each)),
            ):
                if each.cut.against == "face" and at == z:
                    return form
                if each.cut.against == "back" and thickness - at == z:
                    return thick - form
        for each in made:
            if each.cut.down not in FACES or each.cut.against not in ats:
                continue
            if each.cut.down == "face" and each.setup.depth == z:
                return self.deep(each)
            if each.cut.down == "back" and thickness - each.setup.depth == z:
                return thick - self.deep(each)
        return None

    def depth(self, mark: str, at: str, depth: Fraction) -> Form | None:
        """How far the bottom of a cut is off that was made with the edge or end `at` down, a face
        at the guide, and its height set to just this depth: the first of them, or `None`."""
        for each in self.cuts(mark):
            if each.cut.down == at and each.setup.depth == depth and each.cut.against in FACES:
                return self.deep(each)
        return None

    def shoulder(self, mark: str, end: str, length: Fraction) -> Form | None:
        """How far a shoulder is off, so far from the end that lay at the stop."""
        for each in self.cuts(mark):
            guide = each.setup.guide
            if each.cut.against != end or guide is None or each.cut.keeps is not None:
                continue
            if each.cut.down in FACES and guide + each.setup.kerf == length:
                return self.beyond(each)
        return None

    def length(self, mark: str) -> Form | None:
        """How far a piece is off its length."""
        made = self.cut_off.get(mark)
        return None if made is None else self.guided(made)

    def width(self, mark: str) -> Form | None:
        """How far a piece is off the width that it was ripped to."""
        for each in self.cuts(mark):
            if each.step.kind == "rip":
                return self.guided(each)
        return None
