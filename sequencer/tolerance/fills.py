"""What is required of panels, boards and panes: in their grooves, free and held, all year."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from itertools import pairwise

from sequencer.plan import Feature, Pane, PanelSeason, Part
from sequencer.saw.measures import What as Measured
from sequencer.tolerance.cases import ZERO, Case, Limits, known
from sequencer.tolerance.forms import Form
from sequencer.tolerance.standing import Piece, Standing
from sequencer.trade import requirements as asked
from sequencer.trade.fits import PANEL_LOSS

HALF = Fraction(1, 2)


class Fills(Standing):
    """What fills the lights of one leaf."""

    def cases(self) -> Iterator[Case]:
        for piece in self.pieces:
            if piece.part.role == "panel":
                yield from self.edges(piece)
                yield from self.across(piece)
                yield from self.along(piece)
            elif piece.part.role == "board":
                yield from self.edges(piece)
        yield from self.boards()
        for pane in self.door.panes:
            yield from self.pane(pane)

    # Through the thickness.

    def edges(self, piece: Piece) -> Iterator[Case]:
        """Its edge in every groove that it stands in."""
        edge = self.edge(piece.part)
        if edge is None:
            return
        thick, off = edge
        for member, groove in self.round(piece):
            low, high = groove.box[2]
            wide = self.groove_width(member.part, groove)
            if wide is not None:
                of_both = (member.part.mark, piece.part.mark)
                yield Case("panel-in-groove", of_both, high - low - thick, wide - off, self.loose)

    @property
    def loose(self) -> Limits:
        most = asked.PANEL_AIR.of(self.plan.unit)
        return Limits(ZERO, most, asked.PANEL_AIR.source, fit=True)

    def edge(self, part: Part) -> tuple[Fraction, Form] | None:
        """How thick it is in the groove: its whole thickness, or a bevel's where it is measured."""
        if not any(f.kind == "bevel" for f in part.features):
            return part.size.thickness, self.floor.thick(part.mark)
        for made in self.floor.cuts(part.mark):
            if made.setup.tilt and made.cut.against == "back":
                for check in self.plan.checkpoints:
                    if check.measure.what is Measured.BEVEL and check.setup == made.setup.number:
                        return check.exact, self.floor.guided(made)
        return None

    def round(self, piece: Piece) -> Iterator[tuple[Piece, Feature]]:
        """The grooves that its edges lie in."""
        for member in self.members:
            for groove in member.part.features:
                if groove.kind == "groove" and member.meets(piece, groove.box):
                    yield member, groove

    def across(self, piece: Piece) -> Iterator[Case]:
        """Across the grain, in the wettest and in the driest season."""
        sides = self.beside(piece.x, piece.y, upright=True)
        form = self.width_of(piece)
        if sides is None or form is None or piece.y[1] - piece.y[0] != piece.part.size.length:
            return
        light = self.light_width(*sides)
        bottoms = self.bottoms(sides)
        if light is None or bottoms is None:
            return
        wide, sight = piece.part.size.width, sides[1].x[0] - sides[0].x[1]
        deep, deeper = bottoms
        year = self.year(piece.part.mark)
        grown, shrunk = (max(year.widths), min(year.widths)) if year else (wide, wide)
        marks = (sides[0].part.mark, sides[1].part.mark, piece.part.mark)
        free = light + deeper - form * (grown / wide)
        source = asked.YEAR if year else asked.NOUGHT.source
        limits = Limits(ZERO, None, asked.NOUGHT.source)
        yield Case("panel-free-across", marks, sight + deep - grown, free, limits)
        held = Limits(self.holds(year.engagement) if year else ZERO, None, source)
        in_groove = (form * (shrunk / wide) - light) * HALF
        yield Case("panel-held-across", marks, (shrunk - sight) / 2, in_groove, held)

    def holds(self, engagement: Fraction) -> Fraction:
        """What is left of a planned hold when every window is used up."""
        return max(ZERO, engagement - PANEL_LOSS.of(self.plan.unit))

    def year(self, mark: str) -> PanelSeason | None:
        panels = self.season.panels if self.season is not None else ()
        return next((panel for panel in panels if panel.part == mark), None)

    def along(self, piece: Piece) -> Iterator[Case]:
        """Along the grain, where it keeps its length."""
        ends = self.beside(piece.x, piece.y, upright=False)
        form = self.floor.length(piece.part.mark)
        shaped = any(f.unproven_by_saw for f in piece.part.features)
        if ends is None or form is None or shaped:
            return
        light = self.light_height(*ends)
        bottoms = self.bottoms(ends)
        if light is None or bottoms is None:
            return
        long, sight = piece.part.size.length, ends[1].y[0] - ends[0].y[1]
        deep, deeper = bottoms
        marks = (ends[0].part.mark, ends[1].part.mark, piece.part.mark)
        limits = Limits(ZERO, None, asked.NOUGHT.source)
        yield Case("panel-free-along", marks, sight + deep - long, light + deeper - form, limits)
        yield Case("panel-held-along", marks, (long - sight) / 2, (form - light) * HALF, limits)

    # Boards and panes.

    def boards(self) -> Iterator[Case]:
        """Tongues in the neighbours' grooves: by thickness, and over the year."""
        standing = [piece for piece in self.pieces if piece.part.role == "board"]
        for one, other in pairwise(standing):
            tongue = [f for f in one.part.features if f.at == "outside-edge"]
            groove = [f for f in other.part.features if f.kind == "groove"]
            if len(tongue) == 2 and groove:
                yield from self.tongued(one.part, tongue, other.part, groove[0])
        for year in self.season.boards if self.season is not None else ():
            gap = self.measured(Measured.BOARD_GAP, *year.parts)
            if gap is None:
                continue
            limits = Limits(ZERO, None, asked.NOUGHT.source)
            yield Case("boards-free", year.parts, min(year.leave), gap, limits)
            tongue_form = self.tongue_length(year.parts[0])
            if tongue_form is not None:
                held = Limits(self.holds(year.engagement), None, asked.YEAR)
                yield Case("boards-held", year.parts, min(year.hold), tongue_form - gap, held)

    def tongued(
        self, one: Part, rebates: list[Feature], other: Part, groove: Feature
    ) -> Iterator[Case]:
        low = min(f.box[2][1] for f in rebates)
        high = max(f.box[2][0] for f in rebates)
        walls = known(
            *(self.floor.plane(one.mark, z, ("outside-edge",)) for z in (low, high)),
            *(self.floor.plane(other.mark, z, (groove.at,)) for z in groove.box[2]),
        )
        if walls is not None:
            air = groove.box[2][1] - groove.box[2][0] - (high - low)
            off = (walls[3] - walls[2]) - (walls[1] - walls[0])
            yield Case("tongue-in-groove", (other.mark, one.mark), air, off, self.loose)

    def tongue_length(self, mark: str) -> Form | None:
        part = self.floor.parts[mark]
        for f in part.features:
            if f.kind == "rebate":
                return self.floor.depth(mark, f.at, f.box[1][1] - f.box[1][0])
        return None

    def pane(self, pane: Pane) -> Iterator[Case]:
        """A pane between the rebates, either way, wherever it stands there."""
        x, y = pane.box[0], pane.box[1]
        for span, upright, what in (
            (x, True, Measured.PANE_WIDTH),
            (y, False, Measured.PANE_HEIGHT),
        ):
            sides = self.beside(x, y, upright=upright)
            form = self.measured(what, pane.mark)
            if sides is None or form is None:
                continue
            inner = (sides[0].x[1], sides[1].x[0]) if upright else (sides[0].y[1], sides[1].y[0])
            light = self.light_width(*sides) if upright else self.light_height(*sides)
            bottoms = self.bottoms(sides)
            if light is None or bottoms is None:
                continue
            size, sight = span[1] - span[0], inner[1] - inner[0]
            deep, deeper = bottoms
            marks = (sides[0].part.mark, sides[1].part.mark, pane.mark)
            limits = Limits(ZERO, None, asked.NOUGHT.source)
            yield Case("pane-free", marks, sight + deep - size, light + deeper - form, limits)
            yield Case("pane-held", marks, (size - sight) / 2, (form - light) * HALF, limits)
