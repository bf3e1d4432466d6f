"""What is seen at a point of a picture, found by brute force: a ray through every solid, by its
exact planes. Shares nothing with the painting but the angles of the camera."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from math import cos, sin

from sequencer.proof.cells import Bit, planes_of
from sequencer.sheets.rounds.camera import Camera

Spot = tuple[float, float, float]


class Eye:
    """The way to the eye, and the page's two ways, in the room."""

    def __init__(self, camera: Camera) -> None:
        s, turn, tilt = camera.side, camera.turn, camera.tilt
        self.right: Spot = (cos(turn), s * sin(turn), 0.0)
        self.toward: Spot = (s * sin(turn) * cos(tilt), -cos(turn) * cos(tilt), sin(tilt))
        (a, b, c), (d, e, f) = self.toward, self.right
        self.up: Spot = (b * f - c * e, c * d - a * f, a * e - b * d)

    def start(self, x: float, y: float) -> Spot:
        """A place that is seen at a point of the page, y down."""
        a, b, c = (x * r - y * u for r, u in zip(self.right, self.up, strict=True))
        return a, b, c

    def nearest(self, bits: Iterable[Bit], x: float, y: float) -> tuple[float, int] | None:
        """How near to the eye what is seen at a point is, and which of the bits; `None` where
        nothing is."""
        best: tuple[float, int] | None = None
        start = self.start(x, y)
        for n, bit in enumerate(bits):
            far = entered(bit, start, self.toward)
            if far is not None and (best is None or far > best[0]):
                best = (far, n)
        return best


def entered(bit: Bit, start: Spot, way: Spot) -> float | None:
    """Where a line leaves a convex bit, going its way; `None` where it misses or grazes it."""
    low, high = -1e12, 1e12
    for a, b, c, d in planes_of(bit):
        rise = a * way[0] + b * way[1] + c * way[2]
        over = float(d) - (a * start[0] + b * start[1] + c * start[2])
        if abs(rise) < 1e-12:
            if over < 0:
                return None
        elif rise > 0:
            high = min(high, over / rise)
        else:
            low = max(low, over / rise)
    return high if high - low > 1e-6 else None


class Back:
    """From the room back to the wood, for whatever turns and shifts wood without mirroring it.

    Raises AssertionError where it is mirrored.
    """

    def __init__(self, into: Callable[[Spot], Spot]) -> None:
        self.origin = into((0.0, 0.0, 0.0))
        tips = [into(tip) for tip in ((1.0, 0.0, 0.0), (0.0, 1.0, 0.0), (0.0, 0.0, 1.0))]
        self.axes = [_less(tip, self.origin) for tip in tips]
        (a, b, c), (d, e, f), (g, h, i) = self.axes
        assert a * (e * i - f * h) - b * (d * i - f * g) + c * (d * h - e * g) > 0
        self.size = sum(x * x for x in self.axes[0])

    def way(self, direction: Spot) -> Spot:
        x, y, z = (
            sum(a * d for a, d in zip(axis, direction, strict=True)) / self.size
            for axis in self.axes
        )
        return x, y, z

    def place(self, spot: Spot) -> Spot:
        return self.way(_less(spot, self.origin))


def _less(a: Spot, b: Spot) -> Spot:
    return a[0] - b[0], a[1] - b[1], a[2] - b[2]
