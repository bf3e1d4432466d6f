"""What is asked of a frame's joints: air, faces in line, ends proud, tenons off the bottom."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from fractions import Fraction

from sequencer.plan import Feature, Part
from sequencer.proof.held import (
    AIR,
    DOWN,
    FLUSH,
    PARED,
    PLANED,
    Asked,
    Leaf,
    Look,
    added,
    less,
    span_of,
)
from sequencer.proof.shopfloor import NONE, Run


class Joints(Leaf):
    """What is asked of a leaf's joints."""

    def joints(self) -> Iterator[Asked]:
        for bar in self.frame("rail", "mid rail", "mullion"):
            for end in ("A", "B"):
                mine = [f for f in bar.part.features if f.at == end and f.mate]
                across = next((self.ground.parts.get(f.mate_mark) for f in mine), None)
                if across is not None:
                    yield from self.joint(bar.part, end, mine, across)

    def joint(self, bar: Part, end: str, mine: Sequence[Feature], across: Part) -> Iterator[Asked]:
        of = (across.mark, bar.mark)
        inside = [f for f in across.features if f.mate == f"{bar.mark}/{end}"]
        if any(f.kind == "slot" for f in mine):
            slot = next(f for f in mine if f.kind == "slot")
            fronts = [f.box[2][1] for f in inside if f.kind == "housing" and f.at == "face"]
            backs = [f.box[2][0] for f in inside if f.kind == "housing" and f.at == "back"]
            tongue = (max(fronts, default=NONE), min(backs, default=across.size.thickness))
            room = self.walls(bar, span_of(slot), DOWN[end])
            held = self.walls(across, tongue, "end-A", "end-B", trench=True)
            yield from self.air(of, room, held, forward=False, bar=bar, across=across)
            return
        slots = [f for f in inside if f.kind == "slot"]
        grooves = [f for f in across.features if f.kind == "groove"]
        for channel in (slots or grooves)[:1]:
            room = self.walls(across, span_of(channel), DOWN.get(channel.at, channel.at))
            held = self.walls(bar, self.left(bar, end), DOWN[end])
            if span_of(channel)[1] < across.size.thickness:
                yield from self.air(of, room, held, forward=True, bar=bar, across=across)
            elif self.left(bar, end)[1] == bar.size.thickness:
                offset = less(room[0], held[0])
                flush = self.limit(FLUSH)
                yield Asked("halves-flush", of, *flush, (offset,), fit=True)
                yield from self.level(of, offset, bar, across)
            yield from self.ends(bar, end, across, slots, grooves)

    def left(self, bar: Part, end: str) -> tuple[Fraction, Fraction]:
        """What cheeks, or a mitre and a cheek, leave of a bar's end."""
        spans = [span_of(f) for f in bar.features if f.at == end and f.kind in ("cheek", "mitre")]
        front = max((high for low, high in spans if low == 0), default=NONE)
        back = min((low for low, _ in spans if low > 0), default=bar.size.thickness)
        return front, back

    def air(
        self,
        of: tuple[str, str],
        room: tuple[Look, Look],
        held: tuple[Look, Look],
        *,
        forward: bool,
        bar: Part,
        across: Part,
    ) -> Iterator[Asked]:
        air = less(added(room[1], held[0]), room[0], held[1])
        yield Asked("tenon-in-slot", of, NONE, self.limits[AIR], (air,), fit=True)
        one, other = (room, held) if forward else (held, room)
        yield from self.level(of, less(added(*one), *other, half=True), bar, across)

    def level(self, of: tuple[str, str], offset: Look, bar: Part, across: Part) -> Iterator[Asked]:
        planed = self.limit(PLANED)
        yield Asked("faces-in-line", of, *planed, (offset,))
        if bar.size.thickness == across.size.thickness:
            mine, its = self.thick(bar.mark), self.thick(across.mark)
            yield Asked("backs-in-line", of, *planed, (less(added(offset, mine), its),))

    def ends(
        self,
        bar: Part,
        end: str,
        across: Part,
        slots: Sequence[Feature],
        grooves: Sequence[Feature],
    ) -> Iterator[Asked]:
        long = self.tenon_length(bar, end)
        if long is None:
            return
        of = (across.mark, bar.mark)
        if slots:
            if long[0] > across.size.width:
                proud = less(long[1], lambda run: run.width(across.mark))
                yield Asked("rail-proud", of, NONE, None, (proud,))
            deep = slots[0].box[0][1] - slots[0].box[0][0]
            wide = self.tenon_width(bar, end)
            if wide is not None and deep > wide[0]:
                at = DOWN[slots[0].at]

                def bottom(run: Run) -> Fraction | None:
                    found = run.bottom(across.mark, at, deep)
                    return run.shoulder(across.mark, at, deep) if found is None else found

                yield Asked("stile-proud", of, NONE, None, (less(bottom, wide[1]),))
        elif grooves:
            deep = grooves[0].box[1][1] - grooves[0].box[1][0]
            at = grooves[0].at
            off = less(lambda run: run.bottom(across.mark, at, deep), long[1])
            yield Asked("tenon-off-bottom", of, -self.limits[PARED], None, (off,))

    def tenon_length(self, bar: Part, end: str) -> tuple[Fraction, Look] | None:
        lengths = {
            f.box[0][1] - f.box[0][0] for f in bar.features if f.at == end and f.kind == "cheek"
        }
        for long in sorted(lengths, reverse=True):
            found = self.shouldered(bar.mark, DOWN[end], long)
            if found(Run(self.ground, {})) is not None:
                return long, found
        return None

    def tenon_width(self, bar: Part, end: str) -> tuple[Fraction, Look] | None:
        cut = [f for f in bar.features if f.at == end and f.kind == "edge-cheek"]
        grooves = [f for f in bar.features if f.kind == "groove" and f.at == "inside-edge"]
        if cut:
            return self.cut_edge(bar, end, cut[0].box[1][1] - cut[0].box[1][0])
        if not grooves:
            return None
        deep = grooves[0].box[1][1] - grooves[0].box[1][0]
        trimmed = less(self.ripped(bar.mark), self.bottom(bar.mark, "inside-edge", deep))
        return bar.size.width - deep, trimmed

    def cut_edge(self, bar: Part, end: str, off: Fraction) -> tuple[Fraction, Look] | None:
        """Of a tenon whose edge is cut off by itself: kept at the guide, or nibbled away."""
        wide = bar.size.width - off
        for made in self.ground.of(bar.mark):
            how, at = made.cut, DOWN[end]
            kept = (how.down, how.against) == (at, "outside-edge") and made.setup.guide == wide
            if kept:
                return wide, self.pass_of(made)
            nibbled = (how.down, how.against, how.sweep) == ("inside-edge", at, True)
            if nibbled and made.setup.depth == off:
                return wide, less(self.ripped(bar.mark), self.pass_of(made, deep=True))
        return None
