"""What fills a frame, what divides it, how its top is shaped, and the door without a frame."""

from __future__ import annotations

from collections.abc import Mapping
from fractions import Fraction
from typing import Literal

from msgspec import Struct

CORNER_JOINTS: Mapping[str, str] = {
    "bridle": "bridle.Bridle",
    "mitred bridle": "mitred.MitredBridle",
    "stub tenon": "stub.StubTenon",
    "half-lap": "half_lap.HalfLap",
}
BAR_JOINTS: Mapping[str, str] = {"stub tenon": "stub.StubBar", "T-bridle": "t_bridle.TBridle"}
"""What the job file calls the joints of a frame's corners, and of what divides it; each with its
module and class in the package `joints`, which stands above this one and takes them from here."""


class Raised(Struct, frozen=True):
    """A raised panel, `Panel.thickness` thick in its field: all four edges bevelled over a width
    of `bevel`, the field standing `step` above the bevel's inner end. Its edge is as thin as lets
    the bevel slide into the groove as far as it is to reach."""

    bevel: Fraction
    step: Fraction


class Boarded(Struct, frozen=True):
    """Tongue-and-groove boards, upright, as thick as the groove takes. `width` is the most that a
    board may show; all are equally wide. `tongue` is how long the tongue is, `None`: as long as
    the wood's movement asks for."""

    width: Fraction
    tongue: Fraction | None


class Glazed(Struct, frozen=True):
    """A pane in a rebate, held by loose stops. `thickness` is the pane's as measured; it is ordered
    under the rebate's size by `under` in both dimensions."""

    thickness: Fraction
    under: Fraction


Fill = Raised | Boarded | Glazed


class Slab(Struct, frozen=True):
    """A solid door of upright boards, glued up from as many as `boards` (`None`: as many as the
    stock's widths ask for)."""

    boards: int | None


class Bar(Struct, frozen=True):
    """A mid rail, between the stiles, or a mullion, upright between two rails. `at` is the middle
    of it, a mid rail's from the door's bottom edge, a mullion's from its left edge (`None`: lights
    of equal size). `row` is the row that a mullion divides, 1 at the top (`None`: all)."""

    kind: Literal["mid rail", "mullion"]
    width: Fraction
    at: Fraction | None
    row: int | None = None

    def called(self, fill: Fill | None) -> str:
        """A mullion's name between panels is muntin."""
        return "muntin" if self.kind == "mullion" and not isinstance(fill, Glazed) else self.kind


class Shape(Struct, frozen=True):
    """The top rail's lower edge: an arch, or a slope that is highest (`peak`) or lowest (`valley`)
    on the leaf's free side, so that a pair makes a peak or a valley. `rise` is how much higher the
    light is where it is highest."""

    kind: Literal["arch", "peak", "valley"]
    rise: Fraction


class Hardware(Struct, frozen=True):
    """What is bought for each leaf, in the user's words. `hinges` is how many, `None`: by the
    leaf's height. Of a pair, one leaf takes the catch."""

    hinge: str = "hinge"
    hinges: int | None = None
    pull: str = "knob"
    catch: str | None = None
