"""What is measured: a kind from a closed list, where on the piece, and which of several.

Logic compares kinds and places; the words are the wording room's.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from enum import Enum
from fractions import Fraction

from msgspec import Struct

from sequencer.facts import Length
from sequencer.records import replace


class What(Enum):
    """The kinds, by their ids."""

    # Of channels, the place being a slot or a groove.
    CHANNEL_WIDTH = "channel-width"
    CHANNEL_DEPTH = "channel-depth"
    CHANNEL_WALL = "channel-wall"
    TO_CHANNEL = "to-channel"
    # Of tenons, housings and mitres.
    TENON = "tenon"
    TENON_WIDTH = "tenon-width"
    TO_FAR_CHEEK = "to-far-cheek"
    SHOULDERS = "shoulders"
    TO_SHOULDER = "to-shoulder"
    SHOULDER_DEPTH = "shoulder-depth"
    EDGE_SHOULDER_DEPTH = "edge-shoulder-depth"
    TO_HOUSING = "to-housing"
    HOUSING_WIDTH = "housing-width"
    UNDER_HOUSING = "under-housing"
    TO_MITRE = "to-mitre"
    MITRE_DEPTH = "mitre-depth"
    # Of rebates and bevels.
    TONGUE = "tongue"
    LIP = "lip"
    REBATE_REACH = "rebate-reach"
    REBATE_WIDTH = "rebate-width"
    FLAT_DEPTH = "flat-depth"
    BEVEL = "bevel"
    # Of stock and pieces.
    STOCK = "stock"
    LENGTH = "length"
    PANEL_WIDTH = "panel-width"
    SLAB_WIDTH = "slab-width"
    PANE_WIDTH = "pane-width"
    PANE_HEIGHT = "pane-height"
    # Of a shaped rail and its panel.
    SPAN = "span"
    ARCH = "arch"
    EDGE_HEIGHT = "edge-height"
    SHAPED_GROOVE_PLACE = "shaped-groove-place"
    SHAPED_GROOVE_WIDTH = "shaped-groove-width"
    SHAPED_GROOVE_DEPTH = "shaped-groove-depth"
    PANEL_ARCH = "panel-arch"
    PANEL_TOP = "panel-top"
    # Of a leaf.
    OPENING_WIDTH = "opening-width"
    OPENING_HEIGHT = "opening-height"
    EACH_WIDTH = "each-width"
    EACH_HEIGHT = "each-height"
    LIGHT_WIDTH = "light-width"
    LIGHT_HEIGHT = "light-height"
    DIAGONALS = "diagonals"
    DIAGONAL = "diagonal"
    BOARD_GAP = "board-gap"
    GAP = "gap"
    LAP = "lap"
    MEETING_WIDTH = "meeting-width"
    MEETING_DEPTH = "meeting-depth"


_NOWHERE = ("",)
_CHANNELS = ("slot", "groove")
_SIDES = ("face", "back", "show", "marked")
_LOOKING_IN = {"face": "show", "back": "marked"}
_ALONG = ("middle", "either", "left", "right")
_FROM = ("from-either", "from-left", "from-right")
_SHOWN = ("face", "back", "marked")

_PLACES: Mapping[What, tuple[str, ...]] = {
    What.CHANNEL_WIDTH: _CHANNELS,
    What.CHANNEL_DEPTH: _CHANNELS,
    What.CHANNEL_WALL: _CHANNELS,
    What.TO_CHANNEL: _CHANNELS,
    What.TO_FAR_CHEEK: _SIDES,
    What.SHOULDERS: _NOWHERE + _SIDES,
    What.TO_SHOULDER: _NOWHERE + _SIDES,
    What.UNDER_HOUSING: _SIDES,
    What.EDGE_HEIGHT: _ALONG + _FROM,
    What.PANEL_TOP: _ALONG + _FROM,
    What.OPENING_HEIGHT: (*_NOWHERE, "stiles", "middle", "left", "right"),
    What.LIGHT_HEIGHT: (*_NOWHERE, "lowest", "highest"),
    What.DIAGONAL: ("inside", "outside", "slab"),
    What.GAP: ("meeting", "lock"),
    What.LAP: ("top", "bottom", "hinge", "lock", "meeting"),
    What.MEETING_WIDTH: _SHOWN,
    What.MEETING_DEPTH: _SHOWN,
}
"""Where each kind can be. A plan says `face` and `back` of a piece that is cut, as its frame does;
`show` and `marked` are the same two as told of a piece whose marked face looks in."""

TO_NEAR = frozenset({
    What.CHANNEL_WALL, What.TO_CHANNEL, What.TO_FAR_CHEEK, What.TENON_WIDTH, What.LIP, What.BEVEL,
    What.TO_HOUSING, What.TO_MITRE, What.LENGTH,
})  # fmt: skip
"""Read from the guide to the kerf's near side."""
TO_FAR = frozenset({What.REBATE_WIDTH, What.TO_SHOULDER})
"""To its far side."""
STANDING = frozenset({
    What.CHANNEL_WALL, What.TO_CHANNEL, What.TO_FAR_CHEEK, What.TENON, What.TENON_WIDTH,
    What.SHOULDERS, What.TO_HOUSING, What.UNDER_HOUSING, What.TONGUE, What.LIP, What.BEVEL,
})  # fmt: skip
"""What a cut leaves standing: where that is too much, the same place is cut again. Of all else that
is tried, which a cut takes away, where it is too little."""
DEEPENED = frozenset({What.CHANNEL_DEPTH, What.SHOULDER_DEPTH, What.EDGE_SHOULDER_DEPTH})
"""Depths of one cut: where one is too little, the same piece is cut again, deeper."""
BETWEEN = {What.CHANNEL_WIDTH: What.TO_CHANNEL, What.HOUSING_WIDTH: What.TO_HOUSING}
"""What is measured between two settings, from the near wall of the first to the far wall of the
other, and by which check the first is known."""

FELT: Mapping[What, int] = {
    What.CHANNEL_WIDTH: 1, What.HOUSING_WIDTH: 1, What.TENON: -1, What.TONGUE: -1, What.BEVEL: -1,
}  # fmt: skip
"""Fits that are felt by hand: whether one that is too tight wants more of the measure or less."""

AGAINST = frozenset({*FELT, What.SHAPED_GROOVE_WIDTH, What.BOARD_GAP})
"""What is tried against something: a mate, a panel, a spacer."""

_BY_MARK = {What.PANE_WIDTH, What.PANE_HEIGHT, What.LIGHT_WIDTH, What.LIGHT_HEIGHT}
_LENGTH = re.compile(r"(\d+(?:/\d+)?) (in|mm)")


class Measure(Struct, frozen=True):
    """`place` is one of its kind's places; `which` tells one of several apart, by a mark, a number
    or a distance, and says nothing to logic.

    Text: the kind, the place behind a stroke, which one behind a colon: `channel-width/slot`,
    `light-height/highest:1`, `edge-height/from-left:5/2 in`.
    """

    what: What
    place: str = ""
    which: str | Length = ""

    def __str__(self) -> str:
        at = f"/{self.place}" if self.place else ""
        return f"{self.what.value}{at}:{self.which}" if self.which else f"{self.what.value}{at}"

    @property
    def looking_in(self) -> Measure:
        """The same as told of a piece whose marked face looks in: its face is the one that shows,
        its back the marked one.

        >>> str(Measure(What.SHOULDERS, "back").looking_in), str(Measure(What.TENON).looking_in)
        ('shoulders/marked', 'tenon')
        """
        if "show" not in places(self.what) or self.place not in _LOOKING_IN:
            return self
        return replace(self, place=_LOOKING_IN[self.place])

    @staticmethod
    def parse(text: str) -> Measure:
        """The measure again. Raises `ValueError` where the text is none.

        >>> Measure.parse("channel-width/slot").place, Measure.parse("pane-width:G1").which
        ('slot', 'G1')
        """
        head, colon, which = text.partition(":")
        name, stroke, place = head.partition("/")
        try:
            what = What(name)
        except ValueError:
            raise ValueError(f"{text} is nothing that is measured") from None
        one = _one(what, place)
        fits = place in places(what) and bool(place) == bool(stroke) and bool(which) == bool(colon)
        if not fits or (one is None) != (not which):
            raise ValueError(f"{text} is nothing that is measured")
        if one is not Length:
            return Measure(what, place, which)
        found = _LENGTH.fullmatch(which)
        if found is None:
            raise ValueError(f"{text} is measured at no length")
        return Measure(what, place, Length(Fraction(found[1]), "in" if found[2] == "in" else "mm"))


def places(what: What) -> tuple[str, ...]:
    """The places that a kind can be at."""
    return _PLACES.get(what, _NOWHERE)


def _one(what: What, place: str) -> type | None:
    """What tells one of several apart there; `None` where there is only one."""
    if what is What.BEVEL or place in _FROM:
        return Length
    return str if what in _BY_MARK else None
