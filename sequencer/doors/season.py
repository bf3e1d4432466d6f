"""A leaf over the year: its panel in the grooves, and the gap on its free side."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from fractions import Fraction

from sequencer.doors.fills import Filled
from sequencer.doors.leaf import Light
from sequencer.facts import Fact, notes
from sequencer.job.defaults import lengths
from sequencer.job.play import frame_moves, panel_moves, stiles_across, with_play
from sequencer.job.schema import Door
from sequencer.lengths import Unit
from sequencer.movement import LINEAR, Moves, Year
from sequencer.plan import GapSeason, PanelSeason, Part, Season, SlabSeason


def leaf_season(
    spec: Door, mark: str, filled: Filled, lights: Sequence[Light], unit: Unit
) -> Season | None:
    """The year of one leaf; `None` where the job says nothing of it. A play that differs from the
    computed one was fitted to a frame that measured otherwise: its panel stands in that frame's
    opening. A free side that laps over its case has no gap to close."""
    year = spec.year
    if year is None:
        return None
    wider = 2 * (with_play(spec, unit).panel.play_side - spec.panel.play_side)
    in_panel, in_frame = panel_moves(spec), frame_moves(spec)
    panels = [
        _panel(spec, part, light.width + wider, in_panel)
        for part, light in zip(filled.parts, lights, strict=False)
        if in_panel is not None and part.role == "panel"
    ]
    return Season(
        door=mark,
        sawn=spec.sawn,
        moisture=(year.driest, year.today, year.wettest),
        source=year.source,
        gap=None if in_frame is None or spec.gaps.free < 0 else _gap(spec, in_frame, unit),
        notes=tuple(_notes(spec, year, in_panel, in_frame)),
        panels=tuple(panels),
        boards=filled.boards,
        slab=_slab(spec, filled, in_frame),
    )


def _panel(spec: Door, panel: Part, sight: Fraction, moved: Moves) -> PanelSeason:
    today, depth = panel.size.width, spec.groove.depth
    driest, wettest = today * moved.driest, today * moved.wettest
    reach = ((driest - sight) / 2, (today - sight) / 2, (wettest - sight) / 2)
    return PanelSeason(
        part=panel.mark,
        species=moved.species,
        sight=sight,
        depth=depth,
        engagement=spec.panel.engagement,
        widths=(driest, today, wettest),
        leave=(depth - reach[0], depth - reach[1], depth - reach[2]),
        reach=reach,
    )


def _slab(spec: Door, filled: Filled, moved: Moves | None) -> SlabSeason | None:
    if spec.slab is None or moved is None:
        return None
    (part,) = filled.parts
    today = part.size.width
    widths = (today * moved.driest, today, today * moved.wettest)
    return SlabSeason(part.mark, moved.species, widths)


def _gap(spec: Door, moved: Moves, unit: Unit) -> GapSeason:
    gap, stiles = spec.gaps.free, stiles_across(spec)
    side = spec.free_side
    return GapSeason(
        side=side,
        species=moved.species,
        stiles=stiles,
        air=lengths(unit)[f"limits.{side}_air"],
        gaps=(gap - stiles * (moved.driest - 1), gap, gap - stiles * (moved.wettest - 1)),
    )


def _notes(
    spec: Door, year: Year, in_panel: Moves | None, in_frame: Moves | None
) -> Iterator[Fact]:
    """What the figures rest on, or where there are none. Equal ones are said once a plan."""
    woods = {spec.species: in_frame}
    empty = spec.glazed or spec.slab is not None
    if not empty:
        woods = {spec.panel.species: in_panel, **woods}
    for name, moved in woods.items():
        if moved is None:
            inside = name == spec.panel.species and not empty
            panel = (notes.PANEL_KEEPS_PLAY(),) if inside else ()
            gap = (notes.GAP_AS_STATED(),) if name == spec.species else ()
            yield notes.UNKNOWN_WOOD(wood=name, so=(*panel, *gap))
        elif len(moved.species) > 1:
            yield notes.MOVES_MOST(wood=name, species=moved.species)
    if year.today > max(year.wettest, year.driest):
        yield notes.WETTER_TODAY(today=year.today, wettest=year.wettest)
    if not all(LINEAR[0] <= m <= LINEAR[1] for m in (year.today, year.driest, year.wettest)):
        yield notes.OUTSIDE_LINEAR()
