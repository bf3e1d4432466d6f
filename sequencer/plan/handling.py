"""What the person does with the hands at a pass, and what falls: facts that sheets, page, picture
and proof read, and none of them works out again.

Sides are those of the kerf: `guide` is between the blade and what guides the piece (fence, stop,
jig), `open` beyond the blade. Where an end is squared by eye the stop has gone, and its side is the
`guide`'s all the same.
"""

from __future__ import annotations

from fractions import Fraction
from typing import Literal

from msgspec import Struct

KerfSide = Literal["guide", "open"]
By = Literal["hand", "clamp", "push-stick", "push-block", "jig-clamp"]
Pressed = Literal["down", "to-fence"]
Parted = Literal["part", "rest"]
Freed = Literal["chips", "offcut", "rest", "strip", "cheek"]
Lands = Literal["table", "deck"]
Ended = Literal["past", "lifted", "still"]


class Hold(Struct, frozen=True):
    """`by` what the piece is held or pushed, at least: where a clamp is at hand it does as well as
    a hand. `side` of the kerf that is held; `None`: the piece stays whole and is held above the
    blade. `reach`: how far from the blade what is held goes on. `captive`: which of the two that a
    through cut parts lies between blade and guide, and is pushed right past or stays at the stop.
    `pressed`: where a hold-down presses, before the blade or above it, never beside it."""

    by: By
    side: KerfSide | None
    reach: Fraction
    captive: Parted | None = None
    pressed: Pressed | None = None


class Waste(Struct, frozen=True):
    """`what` comes loose: nothing but `chips`; an `offcut`; the `rest` of a strip, which is cut
    further; a `strip` along the grain; a `cheek` in the jig. `side` of the kerf that it falls on
    and where it `lands`: on the saw's table, or on the deck of sled or jig. `ended`: the piece is
    pushed right `past` the blade, or `lifted` off (or the blade stopped) before the sled comes
    back, or the blade stands `still` before anything is drawn back. What came loose is left until
    the blade stands still in any case."""

    what: Freed
    side: KerfSide | None
    lands: Lands | None
    ended: Ended
