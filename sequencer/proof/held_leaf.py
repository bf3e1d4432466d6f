"""What is asked of the leaves of a plan, one after the other."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise

from sequencer.plan import Plan
from sequencer.proof.held import SQUARE, Asked, Look, Narrow, added, fixed, less
from sequencer.proof.held_joints import Joints
from sequencer.proof.held_lights import Lights
from sequencer.proof.shopfloor import NONE, Ground, Run
from sequencer.proof.standing import Standing


def asked(plan: Plan, ground: Ground, narrow: Narrow) -> Iterator[Asked]:
    """All of a plan, leaf by leaf."""
    seasons = {season.door: season for season in plan.seasons}
    for door in plan.doors:
        leaf = Standing.of(plan, door)
        made = Whole(plan, ground, leaf, seasons.get(door.mark), narrow)
        yield from made.joints()
        yield from made.fills()
        yield from made.whole()


class Whole(Joints, Lights):
    """What is asked of a leaf."""

    def whole(self) -> Iterator[Asked]:
        mark = self.door.mark
        gap = self.season.gap if self.season is not None else None
        marks = {mark, *(place.mark for place in self.door.places)}
        square: int | None = None
        for number, check in enumerate(self.plan.checkpoints):
            name = check.measure.what.value
            if name == "diagonals" and marks & set(check.marks):
                square = number
            if mark not in check.marks:
                continue
            if name == "gap":
                closes = NONE if gap is None else gap.gaps[1] - min(gap.gaps)
                left = less(self.reads(number), fixed(closes))
                yield Asked("gap-open", (mark,), NONE, None, (left,))
            elif name == "lap":
                yield Asked("lap-covers", (mark,), NONE, None, (self.reads(number),))
        if square is not None:
            most = self.limits[SQUARE]
            yield Asked("square", (mark,), None, most, (self.reads(square),))
        yield from self.height()

    def height(self) -> Iterator[Asked]:
        gaps = [self.door.gaps.get(side, NONE) for side in ("top", "bottom")]
        if min(gaps) < 0:
            return
        opening = self.door.size[1] + sum(gaps)
        ways: list[Look] = []
        upright = self.frame("stile", "slab")
        first = upright[0].part.mark if upright else ""
        if upright and all(piece.part.mark in self.ground.lengths for piece in upright):
            ways.append(less(fixed(opening), lambda run: run.length(first)))
        inside = min((stile.x[1] for stile in self.frame("stile")), default=NONE)
        rails = sorted(
            (r for r in self.frame("rail", "mid rail") if r.x[0] <= inside < r.x[1]),
            key=lambda rail: rail.y,
        )
        lights = [self.light(low, high, 1) for low, high in pairwise(rails)]
        run = Run(self.ground, {})
        known = all(run.width(rail.part.mark) is not None for rail in rails)
        if len(rails) > 1 and None not in lights and known:
            gap = self.season.gap if self.season is not None else None
            grown = NONE
            if gap is not None and gap.stiles:
                wide = sum((rail.part.size.width for rail in rails), NONE)
                grown = wide * (gap.gaps[1] - min(gap.gaps)) / gap.stiles
            widths = [self.ripped(rail.part.mark) for rail in rails]
            high = added(*(light for light in lights if light is not None), *widths)
            ways.append(less(fixed(opening - grown), high))
        if ways:
            yield Asked("height-in-opening", (self.door.mark,), NONE, None, tuple(ways))
