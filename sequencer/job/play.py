"""What moves in a door, in which room: its panel's play and its free side's least gap follow."""

from __future__ import annotations

from fractions import Fraction

from sequencer.job.bars import lights, widest_light
from sequencer.job.checked import Checked
from sequencer.job.defaults import GROWTH, lengths
from sequencer.job.kinds import Boarded
from sequencer.job.schema import Door
from sequencer.lengths import Unit, round_up
from sequencer.movement import Moves, moves
from sequencer.movement.boarded import BoardedSpan
from sequencer.movement.grooved import GroovedSpan
from sequencer.records import replace

STATED = "panel.play_side"
BY_THUMB = Moves((), 1 - GROWTH, 1 + GROWTH)
"""Where the job does not say how the wood will move: by the rule that stiles are allowed for."""


def with_play(door: Door, unit: Unit) -> Door:
    """The door with the play that its panel's movement asks for; as it is where the job states the
    play, says nothing of the year, or names a wood that the tables do not know. A solid door gets
    the gap on its free side that its own movement asks for."""
    if door.slab is not None:
        return _slab_with_gap(door, unit)
    door = _pair_with_gap(door, unit)
    moved = panel_moves(door)
    if moved is None or STATED in door.places:
        return door
    span = panel_span(door, unit)
    play = span.play(span.widest_panel(moved))
    return replace(door, panel=replace(door.panel, play_side=play))


def _pair_with_gap(door: Door, unit: Unit) -> Door:
    """A pair with the usual gap between its leaves or, where that would close, the least that does
    not."""
    if door.leaves == 1 or "gaps.meeting" in door.places:
        return door
    air = lengths(unit)["limits.meeting_air"]
    moved = frame_moves(door)
    if moved is None:
        least = round_up(air + GROWTH * stiles_across(door), unit)
    else:
        least = least_gap(door, air, moved, unit)
    gap = max(least, lengths(unit)["gaps.lock"])
    return replace(door, gaps=replace(door.gaps, meeting=gap))


def _slab_with_gap(door: Door, unit: Unit) -> Door:
    """With the usual gap or, where that would close, the least that does not."""
    moved = frame_moves(door) or BY_THUMB
    side = door.free_side
    gaps = door.gaps
    gap = gaps.lock if door.leaves == 1 else gaps.meeting
    if f"gaps.{side}" in door.places or (gap is not None and gap < 0):
        return door
    air = lengths(unit)[f"limits.{side}_air"]
    # What the gap takes, the slabs are narrower by.
    room = door.opening.width - door.leaves * gaps.hinge
    least = round_up((air + room * (moved.widest - 1)) / moved.widest, unit)
    if least > lengths(unit)["limits.most_gap"]:
        return door
    least = max(least, lengths(unit)["gaps.lock"])
    if door.leaves == 1:
        return replace(door, gaps=replace(gaps, lock=least))
    return replace(door, gaps=replace(gaps, meeting=least))


def fill_moves(door: Door) -> Moves | None:
    """How the wood of what stands in the frame moves; `None` where the job says nothing of the
    year, the tables know no such wood, or there is none."""
    if door.year is None or door.glazed or door.slab is not None:
        return None
    return moves(door.panel.species, door.sawn, door.year)


def panel_moves(door: Door) -> Moves | None:
    """The same for panels alone: boards have their own gaps."""
    return None if isinstance(door.fill, Boarded) else fill_moves(door)


def frame_moves(door: Door) -> Moves | None:
    return None if door.year is None else moves(door.species, door.sawn, door.year)


def stiles_across(door: Door) -> Fraction:
    """The width of all wood that swells toward the free side, of a pair that of both leaves:
    stiles, or a solid door's whole width."""
    if door.slab is not None:
        return door.leaves * Checked(door, "in").width
    return door.leaves * (door.hinge_stile + door.free_stile)


def moving_wood(door: Door) -> str:
    """What that is, as a term."""
    if door.slab is not None:
        return "one-slab" if door.leaves == 1 else "two-slabs"
    return "two-stiles" if door.leaves == 1 else "four-stiles"


def panel_span(door: Door, unit: Unit) -> GroovedSpan:
    """The room of the door's widest panel."""
    sight = widest_light(door, Checked(door, unit).width)
    return GroovedSpan(sight, door.groove.depth, door.panel.engagement, unit)


def board_span(door: Door, unit: Unit) -> BoardedSpan:
    """The room of the door's boards; it is filled with them."""
    boarded = door.fill
    assert isinstance(boarded, Boarded)
    found = {light.width for light in lights(door, Checked(door, unit).width)}
    limits = lengths(unit)
    return BoardedSpan(
        lights=tuple(sorted(found)),
        depth=door.groove.depth,
        engagement=door.panel.engagement,
        most=boarded.width,
        tongue=boarded.tongue,
        tongues=(limits["limits.least_tongue"], limits["limits.most_tongue"]),
        least=limits["limits.least_board"],
        moves=fill_moves(door) or BY_THUMB,
        unit=unit,
    )


def least_gap(door: Door, air: Fraction, moved: Moves, unit: Unit) -> Fraction:
    """The gap at the free side, today, that leaves `air` when the stiles are at their widest."""
    return round_up(air + stiles_across(door) * (moved.widest - 1), unit)
