"""From where a picture is seen: from before the saw and above, at the side of the blade that the
guide does not stand on, by parallel lines."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property
from math import cos, radians, sin

from sequencer.sheets.rounds.surfaces import Spot

_TURN, _TILT = radians(34), radians(28)


@dataclass(frozen=True)
class Camera:
    """`side` is -1 where it looks from the left, 1 from the right."""

    side: int = -1
    turn: float = _TURN
    tilt: float = _TILT

    @property
    def toward(self) -> Spot:
        """The way from any place to the eye."""
        return (
            self.side * sin(self.turn) * cos(self.tilt),
            -cos(self.turn) * cos(self.tilt),
            sin(self.tilt),
        )

    @cached_property
    def _ways(self) -> tuple[float, float, float, float, float]:
        """What x and y put in across the page, and x, y and z up it."""
        s, c, t = sin(self.turn), cos(self.turn), sin(self.tilt)
        return c, self.side * s, self.side * s * t, -c * t, -cos(self.tilt)

    def page(self, spot: Spot) -> tuple[float, float]:
        """A place on the page in mm of the wood, down positive."""
        x, y, z = spot
        a, b, c, d, e = self._ways
        return a * x + b * y, c * x + d * y + e * z
