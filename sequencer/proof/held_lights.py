"""What is asked of panels, boards and panes: free and held, in thickness and over the year."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from fractions import Fraction
from itertools import pairwise

from sequencer.lengths import Unit
from sequencer.plan import Feature, PanelSeason, Part
from sequencer.proof.held import SLIDES, Asked, Leaf, Look, added, fixed, less, span_of, times
from sequencer.proof.shopfloor import NONE, Run
from sequencer.proof.standing import Piece

TAKEN: Mapping[Unit, Fraction] = {"in": Fraction(3, 64), "mm": Fraction(6, 5)}
"""What windows may take of a planned hold in a groove; ours."""


def holds(planned: Fraction, unit: Unit) -> Fraction:
    return max(NONE, planned - TAKEN[unit])


class Lights(Leaf):
    """What is asked of all that fills a leaf's lights."""

    def fills(self) -> Iterator[Asked]:
        for panel in self.frame("panel"):
            yield from self.edges(panel)
            yield from self.across(panel)
            yield from self.along(panel)
        for board in self.frame("board"):
            yield from self.edges(board)
        yield from self.boards()
        for pane in self.door.panes:
            for axis, name in ((0, "pane-width"), (1, "pane-height")):
                number = self.check(name, pane.mark)
                sides = self.beside(pane.box[0], pane.box[1], axis)
                there = sides and self.room(sides, axis)
                if number is None or sides is None or there is None:
                    continue
                light, room = there
                size = self.reads(number)
                of = (sides[0].part.mark, sides[1].part.mark, pane.mark)
                yield Asked("pane-free", of, NONE, None, (less(room, size),))
                yield Asked("pane-held", of, NONE, None, (less(size, light, half=True),))

    def edges(self, fill: Piece) -> Iterator[Asked]:
        mark = fill.part.mark
        edge = self.thick(mark)
        if fill.features("bevel"):
            cuts = [m for m in self.ground.of(mark) if m.setup.tilt and m.cut.against == "back"]
            checks = [
                check for check in self.plan.checkpoints
                if check.measure.what.value == "bevel" and cuts
                and check.setup == cuts[0].setup.number
            ]  # fmt: skip
            if not checks:
                return
            short = (cuts[0].setup.guide or NONE) - checks[0].exact
            edge = less(lambda run: run.near(cuts[0]), fixed(short))
        for member in self.frame():
            for groove in member.features("groove"):
                if _covers(member, groove, fill):
                    low, high = self.walls(member.part, span_of(groove), groove.at)
                    room = less(high, low, edge)
                    slides = (NONE, self.limits[SLIDES])
                    of = (member.part.mark, mark)
                    yield Asked("panel-in-groove", of, *slides, (room,), fit=True)

    def across(self, panel: Piece) -> Iterator[Asked]:
        if panel.y[1] - panel.y[0] != panel.part.size.length:
            return
        sides = self.beside(panel.x, panel.y, 0)
        there = sides and self.room(sides, 0)
        if sides is None or there is None:
            return
        light, room = there
        mark, wide = panel.part.mark, panel.part.size.width
        number = self.check("panel-width", mark)
        width: Look = (lambda run: run.width(mark)) if number is None else self.reads(number)
        year = self.year(mark)
        grown, shrunk = (max(year.widths), min(year.widths)) if year else (wide, wide)
        of = (sides[0].part.mark, sides[1].part.mark, mark)
        free = less(room, times(width, grown / wide))
        yield Asked("panel-free-across", of, NONE, None, (free,))
        held = less(times(width, shrunk / wide), light, half=True)
        least = holds(year.engagement, self.plan.unit) if year else NONE
        yield Asked("panel-held-across", of, least, None, (held,))

    def year(self, mark: str) -> PanelSeason | None:
        panels = self.season.panels if self.season is not None else ()
        return next((panel for panel in panels if panel.part == mark), None)

    def along(self, panel: Piece) -> Iterator[Asked]:
        if any(f.unproven_by_saw for f in panel.part.features):
            return
        ends = self.beside(panel.x, panel.y, 1)
        there = ends and self.room(ends, 1)
        if ends is None or there is None:
            return
        light, room = there
        mark = panel.part.mark
        length: Look = lambda run: run.length(mark)  # noqa: E731
        of = (ends[0].part.mark, ends[1].part.mark, mark)
        yield Asked("panel-free-along", of, NONE, None, (less(room, length),))
        yield Asked("panel-held-along", of, NONE, None, (less(length, light, half=True),))

    def room(self, sides: tuple[Piece, Piece], axis: int) -> tuple[Look, Look] | None:
        """How wide the light is between two members, and how wide with the grooves or rebates of
        both."""
        light = self.light(*sides, axis)
        first, second = (self.groove(side.part) for side in sides)
        if light is None or first is None or second is None:
            return None
        return light, added(light, first, second)

    def groove(self, part: Part) -> Look | None:
        """How deep a piece's groove or rebate is."""
        for f in part.features:
            if f.kind in ("groove", "rebate"):
                at, deep = f.at, f.box[1][1] - f.box[1][0]
                found = self.bottom(part.mark, at, deep)
                return found if found(Run(self.ground, {})) is not None else None
        return None

    def beside(
        self, x: tuple[Fraction, Fraction], y: tuple[Fraction, Fraction], axis: int
    ) -> tuple[Piece, Piece] | None:
        """The members at both sides of what lies there, along an axis."""
        roles = ("stile", "mullion") if axis == 0 else ("rail", "mid rail")
        mine, cross = (x, y) if axis == 0 else (y, x)
        centre, middle = sum(mine) / 2, sum(cross) / 2
        before: list[tuple[Fraction, Piece]] = []
        after: list[tuple[Fraction, Piece]] = []
        for member in self.frame(*roles):
            along, over = (member.x, member.y) if axis == 0 else (member.y, member.x)
            if over[0] < middle < over[1]:
                if along[1] <= centre:
                    before.append((along[1], member))
                elif along[0] >= centre:
                    after.append((along[0], member))
        if not before or not after:
            return None
        return max(before, key=lambda e: e[0])[1], min(after, key=lambda e: e[0])[1]

    def light(self, low: Piece, high: Piece, axis: int) -> Look | None:
        """How far two members are apart: as a rule finds between these two in the dry frame, or the
        shoulders leave them. Along a shaped edge they are apart as where it is lowest."""
        size = high.x[0] - low.x[1] if axis == 0 else high.y[0] - low.y[1]
        way = ("width", "height")[axis]
        texts = {f"each-{way}"}
        ends = self.leaf.stiles if axis == 0 else self.leaf.rails
        if ends == (low, high):
            texts |= {f"opening-{way}{place}" for place in ("", "/stiles", "/left", "/right")}
        for number, sides in enumerate(self.leaf.between(), 1):
            if sides[2 * axis : 2 * axis + 2] == (low, high):
                texts |= {f"light-{way}{place}:{number}" for place in ("", "/lowest")}
        looks = [
            self.reads(number)
            for number, check in enumerate(self.plan.checkpoints)
            if str(check.measure) in texts
            and self.door.mark in check.marks
            and check.exact == size  # at one of left and right it is higher
        ]
        for bar in self.frame("rail", "mid rail") if axis == 0 else ():
            look = self.shoulders(bar.part, size)
            if look is not None:
                looks.append(look)
                break
        return self.narrow(looks)

    def shoulders(self, bar: Part, size: Fraction) -> Look | None:
        longest = {
            end: max(
                (f.box[0][1] - f.box[0][0] for f in bar.features
                 if f.kind == "cheek" and f.at == end), default=None,
            )
            for end in ("A", "B")
        }  # fmt: skip
        a, b = longest["A"], longest["B"]
        if a is None or b is None or bar.size.length - a - b != size:
            return None
        look = less(
            lambda run: run.length(bar.mark),
            lambda run: run.shoulder(bar.mark, "end-A", a),
            lambda run: run.shoulder(bar.mark, "end-B", b),
        )
        return look if look(Run(self.ground, {})) is not None else None

    def boards(self) -> Iterator[Asked]:
        for one, other in pairwise(self.frame("board")):
            rebates = [f for f in one.part.features if f.at == "outside-edge"]
            grooves = other.features("groove")
            if len(rebates) != 2 or not grooves:
                continue
            tongue = (
                min(span_of(f)[1] for f in rebates), max(span_of(f)[0] for f in rebates),
            )  # fmt: skip
            room = self.walls(other.part, span_of(grooves[0]), grooves[0].at)
            held = self.walls(one.part, tongue, "outside-edge")
            air = less(added(room[1], held[0]), room[0], held[1])
            slides = (NONE, self.limits[SLIDES])
            of = (other.part.mark, one.part.mark)
            yield Asked("tongue-in-groove", of, *slides, (air,), fit=True)
        for year in self.season.boards if self.season is not None else ():
            number = self.check("board-gap", *year.parts)
            if number is None:
                continue
            target = self.plan.checkpoints[number].exact
            gap = less(self.reads(number), fixed(target))
            free = added(fixed(min(year.leave)), gap)
            yield Asked("boards-free", year.parts, NONE, None, (free,))
            first = self.ground.parts[year.parts[0]]
            for f in [f for f in first.features if f.kind == "rebate"][:1]:
                deep = f.box[1][1] - f.box[1][0]
                tip = self.bottom(first.mark, f.at, deep)
                held_by = less(added(fixed(min(year.hold)), tip), fixed(deep), gap)
                least = holds(year.engagement, self.plan.unit)
                yield Asked("boards-held", year.parts, least, None, (held_by,))


def _covers(member: Piece, groove: Feature, fill: Piece) -> bool:
    """Whether a groove lies over what fills the light, seen from the front."""
    spans = {}
    for (low, high), axis in zip(groove.box, member.place.axes, strict=True):
        at = member.place.origin["xyz".index(axis[1])]
        spans[axis[1]] = (at + low, at + high) if axis[0] == "+" else (at - high, at - low)
    return all(
        spans[name][0] < there[1] and there[0] < spans[name][1]
        for name, there in (("x", fill.x), ("y", fill.y))
    )
