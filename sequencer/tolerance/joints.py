"""What is required of a frame's joints: air between slot and tenon, faces in line, ends proud,
tenons clear of what lies before them."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from msgspec import Struct

from sequencer.plan import Door, Feature, Part, Plan, Span
from sequencer.tolerance.cases import ZERO, Case, Limits, known
from sequencer.tolerance.floor import Floor
from sequencer.tolerance.forms import NONE, Form
from sequencer.trade import requirements as asked
from sequencer.trade.fits import Datum

_DOWN = {"A": "end-A", "B": "end-B"}
_BARS = ("rail", "mid rail", "mullion")
_HOUSED = ("end-A", "end-B")


class Walls(Struct, frozen=True):
    """A range through the thickness, and how far its two walls are off; `None` where a wall is the
    piece's own face or is not known."""

    mark: str
    span: Span
    low: Form | None
    high: Form | None

    @property
    def width(self) -> Fraction:
        return self.span[1] - self.span[0]


def joint_cases(plan: Plan, door: Door, floor: Floor) -> Iterator[Case]:
    """Of every end of every rail and bar of a leaf."""
    parts = floor.parts
    for place in door.places:
        bar = parts.get(place.mark)
        if bar is None or bar.role not in _BARS:
            continue
        for end in ("A", "B"):
            there = [f for f in bar.features if f.at == end and f.mate is not None]
            across = next((parts.get(f.mate_mark) for f in there), None)
            if across is not None:
                yield from _Joint(plan, floor, bar, end, across).cases()


class _Joint(Struct, frozen=True):
    plan: Plan
    floor: Floor
    bar: Part
    end: str
    across: Part

    @property
    def of(self) -> tuple[str, str]:
        return self.across.mark, self.bar.mark

    def cases(self) -> Iterator[Case]:
        there = [f for f in self.bar.features if f.at == self.end]
        slots = [f for f in there if f.kind == "slot"]
        if slots:
            yield from self.straddling(slots[0])
            return
        channel = self.channel()
        if channel is None:
            return
        thickness = self.across.size.thickness
        if channel.span[1] == thickness:
            yield from self.halved(channel)
            return
        tenon = self.tenon()
        yield from self.fit(channel, tenon)
        slot = any(f.kind == "slot" for f in self.across.features if self.mated(f))
        yield from self.lengths(through=slot)

    def mated(self, feature: Feature) -> bool:
        return feature.mate == f"{self.bar.mark}/{self.end}"

    def channel(self) -> Walls | None:
        """What the bar's end goes into: the slot made for it, else the groove."""
        features = self.across.features
        found = [f for f in features if f.kind == "slot" and self.mated(f)]
        found = found or [f for f in features if f.kind == "groove"]
        return self.walls(self.across, found[0].box[2], _down(found[0].at)) if found else None

    def tenon(self) -> Walls:
        """What is left of the bar between its cheeks, or behind its mitre."""
        thickness = self.bar.size.thickness
        low, high = ZERO, thickness
        for f in self.bar.features:
            if f.at == self.end and f.kind in ("cheek", "mitre"):
                if f.box[2][0] == 0:
                    low = f.box[2][1]
                else:
                    high = f.box[2][0]
        return self.walls(self.bar, (low, high), _DOWN[self.end])

    def walls(self, part: Part, span: Span, *ats: str, housed: bool = False) -> Walls:
        found = []
        for z in span:
            form = self.floor.plane(part.mark, z, ats, housed=housed)
            if z == 0:
                form = NONE
            elif z == part.size.thickness:
                form = self.floor.thick(part.mark)
            found.append(form)
        return Walls(part.mark, span, found[0], found[1])

    def straddling(self, slot: Feature) -> Iterator[Case]:
        """The bar's slot over the tongue that housings leave."""
        low, high = ZERO, self.across.size.thickness
        for f in self.across.features:
            if f.kind == "housing" and self.mated(f):
                if f.at == "face":
                    low = f.box[2][1]
                else:
                    high = f.box[2][0]
        tongue = self.walls(self.across, (low, high), *_HOUSED, housed=True)
        yield from self.fit(self.walls(self.bar, slot.box[2], _DOWN[self.end]), tongue)

    def fit(self, channel: Walls, tenon: Walls) -> Iterator[Case]:
        walls = known(channel.low, channel.high, tenon.low, tenon.high)
        if walls is None:
            return
        low, high, front, back = walls
        yield Case(
            "tenon-in-slot",
            self.of,
            channel.width - tenon.width,
            (high - low) - (back - front),
            Limits(ZERO, _of(self.plan, asked.JOINT_AIR), asked.JOINT_AIR.source, fit=True),
        )
        inside = (low + high - front - back) * Fraction(1, 2)
        centre = (sum(channel.span, ZERO) - sum(tenon.span, ZERO)) / 2
        if tenon.mark == self.across.mark:  # the bar is slotted: seen from the other piece
            inside, centre = inside * -1, -centre
        yield from self.faces(centre, inside)

    def faces(self, centre: Fraction, off: Form) -> Iterator[Case]:
        """How far the bar's face and back stand behind the crosspiece's."""
        most = _of(self.plan, asked.PLANED)
        limits = Limits(-most, most, asked.PLANED.source)
        yield Case("faces-in-line", self.of, centre, off, limits)
        floor, bar, across = self.floor, self.bar, self.across
        thicker = bar.size.thickness - across.size.thickness
        if thicker == 0:
            off = off + floor.thick(bar.mark) - floor.thick(across.mark)
            yield Case("backs-in-line", self.of, centre, off, limits)

    def halved(self, lap: Walls) -> Iterator[Case]:
        """Two halves that lie on each other: the crosspiece's, open to the back, the bar's to the
        face."""
        tenon = self.tenon()
        walls = known(lap.low, tenon.low)
        if walls is None or tenon.span[1] != self.bar.size.thickness:
            return
        centre, off = lap.span[0] - tenon.span[0], walls[0] - walls[1]
        most = _of(self.plan, asked.FLUSH)
        limits = Limits(-most, most, asked.FLUSH.source, fit=True)
        yield Case("halves-flush", self.of, centre, off, limits)
        yield from self.faces(centre, off)
        yield from self.lengths(through=True)

    def lengths(self, *, through: bool) -> Iterator[Case]:
        """Ends that stand proud until they are planed; a tenon that is as long as its groove is
        deep, for a shorter one leaves a hole where the groove runs out, and is pared where it keeps
        its shoulder open."""
        tenon = self.reach()
        if tenon is None:
            return
        long, off = tenon
        if through:
            wide = self.floor.width(self.across.mark)
            if wide is not None and long > self.across.size.width:
                proud = long - self.across.size.width
                yield Case("rail-proud", self.of, proud, off - wide, _not_under())
            yield from self.seated()
            return
        depth = next((f for f in self.across.features if f.kind == "groove"), None)
        if depth is None:
            return
        deep = depth.box[1][1] - depth.box[1][0]
        form = self.floor.depth(self.across.mark, _down(depth.at), deep)
        if form is not None:
            pared = Limits(-_of(self.plan, asked.PARED), None, asked.PARED.source)
            yield Case("tenon-off-bottom", self.of, deep - long, form - off, pared)

    def reach(self) -> tuple[Fraction, Form] | None:
        """How long the tenon is from its shoulder."""
        end = _DOWN[self.end]
        lengths = [
            f.box[0][1] - f.box[0][0]
            for f in self.bar.features
            if f.at == self.end and f.kind == "cheek"
        ]
        for long in sorted(lengths, reverse=True):
            form = self.floor.shoulder(self.bar.mark, end, long)
            if form is not None:
                return long, form
        return None

    def seated(self) -> Iterator[Case]:
        """With the tenon's edge on the slot's bottom the crosspiece's end still stands proud."""
        slot = next((f for f in self.across.features if f.kind == "slot" and self.mated(f)), None)
        edge = self.edge()
        if slot is None or edge is None:
            return
        deep = slot.box[0][1] - slot.box[0][0]
        form = self.floor.depth(self.across.mark, _DOWN[slot.at], deep)
        if form is None:
            form = self._halved_depth(slot, deep)
        if form is not None and deep > edge[0]:
            yield Case("stile-proud", self.of, deep - edge[0], form - edge[1], _not_under())

    def _halved_depth(self, slot: Feature, deep: Fraction) -> Form | None:
        """Of a half, the shoulder's distance from the end."""
        return self.floor.shoulder(self.across.mark, _DOWN[slot.at], deep)

    def edge(self) -> tuple[Fraction, Form] | None:
        """How wide the tenon is from the bar's outside edge: by a cut of its own, or less the
        groove whose pass trims it."""
        floor, mark, wide = self.floor, self.bar.mark, self.bar.size.width
        own = [
            f.box[1][1] - f.box[1][0]
            for f in self.bar.features
            if f.at == self.end and f.kind == "edge-cheek"
        ]
        ripped = floor.width(mark)
        for made in floor.cuts(mark) if own else ():
            end = made.cut.down == _DOWN[self.end] and made.cut.against == "outside-edge"
            if end and made.setup.guide == wide - own[0]:
                return wide - own[0], floor.guided(made)
            swept = made.cut.down == "inside-edge" and made.cut.against == _DOWN[self.end]
            if swept and made.cut.sweep and made.setup.depth == own[0] and ripped is not None:
                return wide - own[0], ripped - floor.deep(made)
        grooves = [f for f in self.bar.features if f.kind == "groove" and f.at == "inside-edge"]
        if own or not grooves or ripped is None:
            return None
        deep = grooves[0].box[1][1] - grooves[0].box[1][0]
        form = floor.depth(mark, "inside-edge", deep)
        return None if form is None else (wide - deep, ripped - form)


def _not_under() -> Limits:
    return Limits(ZERO, None, asked.NOUGHT.source)


def _of(plan: Plan, datum: Datum) -> Fraction:
    return datum.of(plan.unit)


def _down(at: str) -> str:
    return _DOWN.get(at, at)
