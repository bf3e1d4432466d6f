"""Tongue-and-groove boards across one light: how wide, how far apart, how long their tongues.

Each board is held at its middle alone, so that it moves to both sides from there: the gap between
two neighbours takes up half of what each of them moves. Tongue and groove are equally deep, so that
the shoulders would meet before a tongue came to the bottom; and air is left between those.
"""

from __future__ import annotations

from fractions import Fraction

from msgspec import Struct

from sequencer.lengths import Unit, round_up
from sequencer.movement import Moves
from sequencer.records import replace
from sequencer.trade.fits import LEAST_AIR, WIDTH_STEP

MOST_BOARDS, MOST_STEPS = 60, 100


class Boarding(Struct, frozen=True):
    """Boards across one light: `inner` and `outer` are face widths, shoulder to edge, `gap` is
    between two of them today, `reach` how far the outer ones go into the stiles' grooves."""

    count: int
    inner: Fraction
    outer: Fraction
    gap: Fraction
    reach: Fraction
    tongue: Fraction
    moves: Moves
    depth: Fraction

    @property
    def pair(self) -> Fraction:
        """Half the widths of the two neighbours that move most, together."""
        return self.outer if self.count == 2 else (self.outer + self.inner) / 2

    def gap_at(self, width: Fraction) -> Fraction:
        """The least gap when a board is `width` times as wide as today."""
        return self.gap - self.pair * (width - 1)

    def hold_at(self, width: Fraction) -> Fraction:
        """How far a tongue is in its groove then."""
        return self.tongue * width - self.gap_at(width)

    def reach_at(self, width: Fraction) -> Fraction:
        """How far an outer board is in the stile's groove then."""
        return self.reach + self.outer / 2 * (width - 1)

    def tongue_for(self, engagement: Fraction) -> Fraction:
        """The shortest tongue that is still held in the driest season."""
        narrowest = self.moves.narrowest
        return (engagement + self.gap_at(narrowest)) / narrowest


class BoardedSpan(Struct, frozen=True):
    """The room of boards: the lights' widths, the stiles' groove `depth` deep, `least` and `most`
    that a board may show, and `engagement` that is to stay in every groove in the driest season.
    `tongue` is its length, where the job states it; `tongues` the least and the most that it may
    be."""

    lights: tuple[Fraction, ...]
    depth: Fraction
    engagement: Fraction
    most: Fraction
    tongue: Fraction | None
    tongues: tuple[Fraction, Fraction]
    least: Fraction
    moves: Moves
    unit: Unit

    @property
    def step(self) -> Fraction:
        return WIDTH_STEP.of(self.unit)

    @property
    def air(self) -> Fraction:
        return LEAST_AIR.of(self.unit)

    def laid(self, light: Fraction) -> Boarding:
        """The boards of one light, their tongues as long as those of all lights together."""
        tongue = self.tongue
        if tongue is None:
            tongue = max(self._needed(each) for each in self.lights)
        return replace(self._spread(light), tongue=tongue)

    def all(self) -> tuple[Boarding, ...]:
        return tuple(self.laid(light) for light in self.lights)

    def _needed(self, light: Fraction) -> Fraction:
        return max(self.tongues[0], self._up(self._spread(light).tongue_for(self.engagement)))

    def _spread(self, light: Fraction) -> Boarding:
        """As many boards as show no more than they may. Inner ones are ripped to an easily set
        width; the two outer ones show what is left, a hair more or less."""
        count = max(2, -(-light // self.most))
        pitch = light / count
        grows = self.moves.widest - 1
        reach = (self.depth - self.air - (pitch + self.depth) / 2 * grows) // self.step * self.step
        gap = self._up(self.air + (pitch + reach) * grows)
        while True:
            inner = round((pitch - gap) / self.step) * self.step
            between = (count - 2) * inner + (count - 1) * gap
            outer = (light + 2 * reach - between) / 2
            made = Boarding(
                int(count), inner, outer, gap, reach, Fraction(0), self.moves, self.depth
            )
            if made.gap_at(self.moves.widest) >= self.air:
                break
            gap += self.step
        while self.depth - made.reach_at(self.moves.widest) < self.air:
            made = replace(made, reach=made.reach - self.step, outer=made.outer - self.step)
        return made

    def _up(self, length: Fraction) -> Fraction:
        return -(-length // self.step) * self.step

    def holds(self) -> bool:
        """Whether no tongue is longer than it may be or leaves its groove, and no outer board
        leaves the stile's."""
        narrowest = self.moves.narrowest
        return all(
            made.tongue <= self.tongues[1]
            and made.hold_at(narrowest) >= self.engagement
            and made.reach_at(narrowest) >= self.engagement
            and min(made.inner, made.outer - made.reach) >= self.least
            for made in self.all()
        )

    def deep_enough(self) -> Fraction | None:
        """The least groove depth in the stiles with which all holds; `None` where none does."""
        depth = round_up(self.depth, self.unit)
        for _ in range(MOST_STEPS):
            depth += self.step
            if replace(self, depth=depth).holds():
                return depth
        return None

    def narrower(self) -> Fraction | None:
        """The greatest width, less than what a board shows now, with which all holds; `None` where
        there is none."""
        counts = sorted({-(-light // self.most) for light in self.lights})
        tried = range(int(max(counts)) + 1, MOST_BOARDS)
        for count in tried:
            width = self._up(max(self.lights) / count)
            if width < self.most and replace(self, most=width).holds():
                return width
        return None
