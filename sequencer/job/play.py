"""The play of a panel whose year is known, and the least gap beside stiles that move.

The frame's opening keeps its width over the year, since rails are long along the grain; the panel
swells and shrinks between the stiles, and the stiles swell away from the hinges. A groove deepens a
little as its stile swells, which is left out: it only adds air.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from fractions import Fraction

from sequencer.job.bars import widest_light
from sequencer.job.checked import Checked, round_up
from sequencer.job.facts import GROWTH, lengths
from sequencer.job.kinds import Boarded
from sequencer.job.schema import Door
from sequencer.lengths import Unit
from sequencer.movement import Moves, moves
from sequencer.trade.fits import PANEL_AIR, WIDTH_STEP

STATED = "panel.play_side"
BY_THUMB = Moves((), 1 - GROWTH, 1 + GROWTH)
"""Where the job does not say how the wood will move: by the rule that stiles are allowed for."""


def settled(door: Door, unit: Unit) -> Door:
    """The door with the play that its panel's movement asks for; as it is where the job states the
    play, says nothing of the year, or names a wood that the tables do not know. A solid door gets
    the gap on its free side that its own movement asks for."""
    if door.slab is not None:
        return _slab_settled(door, unit)
    moved = panel_moves(door)
    if moved is None or STATED in door.places:
        return door
    span = GroovedSpan.of(door, unit)
    play = span.play(span.widest_panel(moved))
    return replace(door, panel=replace(door.panel, play_side=play))


def _slab_settled(door: Door, unit: Unit) -> Door:
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


@dataclass(frozen=True, slots=True)
class GroovedSpan:
    """A panel's room across the grain: `sight` between the stiles, and a groove `depth` deep at
    either side of it; `engagement` is to stay in each groove in the driest season."""

    sight: Fraction
    depth: Fraction
    engagement: Fraction
    unit: Unit

    @staticmethod
    def of(door: Door, unit: Unit) -> GroovedSpan:
        checked = Checked(door, unit)
        sight = widest_light(door, checked.width) if door.bars else checked.sight_width
        return GroovedSpan(sight, door.groove.depth, door.panel.engagement, unit)

    @property
    def step(self) -> Fraction:
        return WIDTH_STEP.of(self.unit)

    @property
    def most(self) -> Fraction:
        """The width that a panel may have at its widest."""
        return self.sight + 2 * (self.depth - PANEL_AIR.of(self.unit))

    @property
    def least(self) -> Fraction:
        """The width that it must have at its narrowest."""
        return self.sight + 2 * self.engagement

    def play(self, width: Fraction) -> Fraction:
        """At each side, of a panel that is `width` wide."""
        return (self.sight - width) / 2 + self.depth

    def widest_panel(self, moved: Moves) -> Fraction:
        """The widest that does not bind at its widest, today, on an easily set step."""
        return self.most / moved.widest // self.step * self.step

    def narrowest_panel(self, moved: Moves) -> Fraction:
        """The narrowest that stays in its grooves, today."""
        return self.least / moved.narrowest

    def holds(self, moved: Moves) -> bool:
        """Whether some width neither binds nor leaves its groove."""
        return self.widest_panel(moved) >= self.narrowest_panel(moved)

    def deep_enough(self, moved: Moves) -> Fraction:
        """The least groove depth with which a panel holds."""
        width = -(-self.narrowest_panel(moved) // self.step) * self.step
        air = PANEL_AIR.of(self.unit)
        return round_up((width * moved.widest - self.sight) / 2 + air, self.unit)

    def panels(self, moved: Moves, between: Fraction, least_sight: Fraction) -> int | None:
        """How many panels, with muntins `between` them, are narrow enough to hold; `None` where
        their sight would be under `least_sight` first."""
        count = 2
        while (sight := (self.sight - (count - 1) * between) / count) >= least_sight:
            if replace(self, sight=sight).holds(moved):
                return count
            count += 1
        return None


def least_gap(door: Door, air: Fraction, moved: Moves, unit: Unit) -> Fraction:
    """The gap at the free side, today, that leaves `air` when the stiles are at their widest."""
    return round_up(air + stiles_across(door) * (moved.widest - 1), unit)
