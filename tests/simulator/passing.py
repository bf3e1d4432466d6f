"""One pass of one piece as it is then: what is set, what stands where, what is held, what falls."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction
from math import isqrt
from typing import Literal

from tests.simulator.cleared import Blade
from tests.simulator.scale import Json, Scale
from tests.simulator.wood import SIDES, Box, Rectangle, Wood, X, Y, Z, breadth, covered, touching

Where = Literal["guide", "far", "over"]
"""Where a freed piece lies: between guide and blade, beyond the blade, or across it."""

AWAY = "away"
BODIES = {
    "rip-fence": "fence",
    "crosscut-sled": "sled",
    "mitre-sled": "sled",
    "tenoning-jig": "jig",
}
RIDING = {
    "rip-fence": "fence",
    "crosscut-sled": "stop",
    "mitre-sled": "mitre stop",
    "tenoning-jig": "jig",
}
"""What each carrier's guide is set with; a jig that rides the fence is set with that."""


@dataclass(frozen=True, slots=True)
class Freed:
    wood: Wood
    where: Where


@dataclass(frozen=True, slots=True)
class Pass:
    """Lengths are in grains. `standing` is what every knob that was set stands at just then;
    `guard` what the printed steps have on the saw, `None` before any said so. `wood` is the piece
    before the pass, `kept` and `freed` what it leaves, `removed` whether it met any wood. `rules`
    and `ticks` are what was told before the step, `holding` how the setup says the piece is held.
    `start` is where the squared end will be."""

    scale: Scale
    shop: Json
    setup: Json
    step: int
    scrap: bool
    mark: str
    cut: Json
    blade: Blade
    cutter: Json
    standing: Mapping[str, str]
    guard: str | None
    wood: Wood
    box: Box
    kept: Wood
    freed: tuple[Freed, ...]
    removed: bool
    backed: int
    start: int
    rules: frozenset[str]
    words: frozenset[str]
    ticks: frozenset[str]
    holding: tuple[Json, ...]

    def figure(self, mm: str, inch: str) -> Fraction:
        return self.scale.figure(mm, inch)

    def confirmed(self, tick: str, *rules: str) -> bool:
        """Whether the box of that name is there to tick, and the setup tells of its danger: by the
        rule that it is named for, or by one of the `rules`."""
        told = {tick.partition("-")[0].upper(), *rules} & self.rules
        return bool(told) and f"caution.tick-{tick}" in self.ticks

    # ---- how it lies
    @property
    def body(self) -> str:
        return BODIES[self.setup["carrier"]]

    @property
    def on_fence(self) -> bool:
        return self.body == "fence"

    @property
    def on_sled(self) -> bool:
        return self.body == "sled"

    @property
    def in_jig(self) -> bool:
        return self.body == "jig"

    @property
    def squared(self) -> bool:
        """Whether an end is sawn off by eye, nothing guiding its length."""
        return self.cut["against"] is None

    @property
    def on_end(self) -> bool:
        return self.blade.down.startswith("end")

    @property
    def on_edge(self) -> bool:
        return self.blade.down.endswith("edge")

    @property
    def upright(self) -> bool:
        return self.on_end or self.on_edge

    @property
    def dado(self) -> bool:
        return bool(self.cutter["kind"] == "dado")

    def extent(self, axis: int) -> int:
        return self.box[2 * axis + 1] - self.box[2 * axis]

    @property
    def height(self) -> int:
        """How far the piece rises from what carries it."""
        return self.extent(SIDES[self.blade.down][0])

    @property
    def across(self) -> int:
        """Its breadth from the guide outward."""
        return self.extent(SIDES[self.blade.against][0])

    @property
    def along(self) -> int:
        """The axis along the guide: of a piece in the jig its length, which stands up."""
        if self.in_jig:
            return X
        return X + Y + Z - SIDES[self.blade.down][0] - SIDES[self.blade.against][0]

    @property
    def through(self) -> bool:
        return self.cut["keeps"] is not None or self.blade.depth >= self.height

    @property
    def rip(self) -> bool:
        return self.on_fence and self.through and not self.upright

    @property
    def beyond(self) -> int:
        """What of its breadth lies past the blade."""
        return self.across - self.blade.farthest

    @property
    def kept_beyond(self) -> bool:
        return bool(self.cut["keeps"] == "far")

    @property
    def held_side(self) -> int:
        """How long the side is that must be held on a sled: the piece that is kept, a stick less
        its offcut, or of what stays whole the longer side."""
        if self.squared:
            return self.box[1] - self.start
        if self.through:
            return self.beyond if self.kept_beyond else self.blade.guide
        return max(self.blade.guide, self.beyond)

    # ---- what bears
    def bears(self, wood: Wood | None = None) -> list[Rectangle]:
        """What of it touches the guide."""
        return touching(self.wood if wood is None else wood, self.blade.against, self.box)

    def stands(self, wood: Wood | None = None) -> list[Rectangle]:
        """What of it touches what carries it."""
        return touching(self.wood if wood is None else wood, self.blade.down, self.box)

    def bearing(self, wood: Wood | None = None) -> int:
        """How much of the guide it touches, along it."""
        place = self._place(self.blade.against, self.along)
        return covered(each[place] for each in self.bears(wood))

    def base(self, wood: Wood | None = None) -> tuple[int, int]:
        """What it stands on: how much along the feed, and how broad from first to last across."""
        axis = SIDES[self.blade.against][0]
        feed = X + Y + Z - SIDES[self.blade.down][0] - axis
        found = self.stands(wood)
        long = covered(each[self._place(self.blade.down, feed)] for each in found)
        return long, breadth(each[self._place(self.blade.down, axis)] for each in found)

    @staticmethod
    def _place(side: str, axis: int) -> int:
        """Which of a side's two axes that is."""
        return [other for other in (X, Y, Z) if other != SIDES[side][0]].index(axis)

    # ---- the blade
    @property
    def exposed(self) -> int:
        """How long the opening of the blade is at the table, 2·√(h(D − h)), rounded up."""
        diameter = self.scale.of(self.cutter["diameter"])
        height = min(self.scale.of(self.setup["height"]), diameter)
        return isqrt(4 * height * (diameter - height)) + 1

    @property
    def above(self) -> int:
        """How far the blade stands out of the piece."""
        return self.blade.depth - self.height

    def says(self) -> str:
        """Where it is, for whoever looks into it."""
        cut = {key: value for key, value in self.cut.items() if value not in (None, False)}
        named = ("carrier", "guard", "height", "depth", "guide", "tilt", "kerf", "cutter")
        setting = {key: self.setup[key] for key in named}
        size = [str(Fraction(self.extent(axis), self.scale.grains)) for axis in (X, Y, Z)]
        return f"step {self.step}, setup {self.setup['number']}: {cut} {size} {setting}"
