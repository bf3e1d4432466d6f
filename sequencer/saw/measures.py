"""What is measured: a kind from a closed list, where on the piece, and which of several.

Logic compares kinds and places. The text form is what `plan.json` and the saved settings hold, and
for the time being what a person reads, too.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from enum import Enum
from functools import cache


class What(Enum):
    """The kinds, each with its text form; `{place}` and `{which}` stand for what it is told by."""

    # Of channels, the place being a slot or a groove.
    CHANNEL_WIDTH = "{place} width"
    CHANNEL_DEPTH = "{place} depth"
    CHANNEL_WALL = "wall beside the {place}"
    TO_CHANNEL = "from the face side to the {place}"
    # Of tenons, housings and mitres.
    TENON = "tenon thickness"
    TENON_WIDTH = "tenon width"
    TO_FAR_CHEEK = "from the {place} to the far cheek"
    SHOULDERS = "shoulder to shoulder{place}"
    TO_SHOULDER = "from the end to the shoulder{place}"
    SHOULDER_DEPTH = "shoulder depth"
    EDGE_SHOULDER_DEPTH = "edge shoulder depth"
    TO_HOUSING = "from the end to the housing"
    HOUSING_WIDTH = "housing width"
    UNDER_HOUSING = "left under the {place}"
    TO_MITRE = "from the end to the mitre, along the outside edge"
    MITRE_DEPTH = "mitre depth"
    # Of rebates and bevels.
    TONGUE = "tongue thickness"
    LIP = "lip beside the rebate"
    REBATE_REACH = "how far the rebate reaches in"
    REBATE_WIDTH = "width of the rebate"
    FLAT_DEPTH = "depth of the cut"
    BEVEL = "thickness {which} from the edge"
    # Of stock and pieces.
    STOCK = "thickness, thinnest to thickest"
    LENGTH = "length of the first piece"
    PANEL_WIDTH = "panel width, today"
    SLAB_WIDTH = "width of the slab, today"
    PANE_WIDTH = "width of the pane {which}"
    PANE_HEIGHT = "height of the pane {which}"
    # Of a shaped rail and its panel.
    SPAN = "span between the shoulders"
    ARCH = "radius of the arch"
    EDGE_HEIGHT = "height of the edge {place}"
    SHAPED_GROOVE_PLACE = "from the marked face to the groove"
    SHAPED_GROOVE_WIDTH = "groove width along the shape"
    SHAPED_GROOVE_DEPTH = "groove depth along the shape"
    PANEL_ARCH = "radius of the panel's top"
    PANEL_TOP = "down from the panel's upper end, {place}"
    # Of a leaf.
    OPENING_WIDTH = "opening between the stiles"
    OPENING_HEIGHT = "opening between the rails{place}"
    EACH_WIDTH = "width of each light"
    EACH_HEIGHT = "height of each light"
    LIGHT_WIDTH = "width of light {which}"
    LIGHT_HEIGHT = "height of light {which}{place}"
    DIAGONALS = "difference of the diagonals"
    DIAGONAL = "diagonal {place}"
    BOARD_GAP = "gap between boards, today"
    GAP = "gap {place}"
    LAP = "lap over the case at the {place}"
    MEETING_WIDTH = "width of the rebate in the {place}"
    MEETING_DEPTH = "depth of the rebate in the {place}"


def _along(end: str) -> Mapping[str, str]:
    ends = {"either": f"either {end}", "left": f"the left {end}", "right": f"the right {end}"}
    at = {name: f"at {words}" for name, words in ends.items()}
    off = {f"from {name}": f"{{which}} from {words}" for name, words in ends.items()}
    return {"middle": "in the middle", **at, **off}


_NOWHERE = {"": ""}
_CHANNELS = {"slot": "slot", "groove": "groove"}
_SIDES = {"face": "face", "back": "back"}
_ON_SIDES = {**_NOWHERE, "face": ", on the face", "back": ", on the back"}
_SHOWN = {"face": "show face", "back": "back", "marked": "marked face"}

_PLACES: Mapping[What, Mapping[str, str]] = {
    What.CHANNEL_WIDTH: _CHANNELS,
    What.CHANNEL_DEPTH: _CHANNELS,
    What.CHANNEL_WALL: _CHANNELS,
    What.TO_CHANNEL: _CHANNELS,
    What.TO_FAR_CHEEK: _SIDES,
    What.SHOULDERS: _ON_SIDES,
    What.TO_SHOULDER: _ON_SIDES,
    What.UNDER_HOUSING: _SIDES,
    What.EDGE_HEIGHT: _along("shoulder"),
    What.PANEL_TOP: _along("long edge"),
    What.OPENING_HEIGHT: {
        **_NOWHERE,
        "stiles": ", at both stiles",
        "middle": ", in the middle",
        "left": ", at the left stile",
        "right": ", at the right stile",
    },
    What.LIGHT_HEIGHT: {**_NOWHERE, "highest": ", where it is highest"},
    What.DIAGONAL: {
        "inside": "inside the frame",
        "outside": "over the stiles' ends",
        "slab": "of the slab",
    },
    What.GAP: {"meeting": "between the leaves", "lock": "on the lock side"},
    What.LAP: {
        "top": "top",
        "bottom": "bottom",
        "hinge": "hinge side",
        "lock": "lock side",
        "meeting": "meeting side",
    },
    What.MEETING_WIDTH: _SHOWN,
    What.MEETING_DEPTH: _SHOWN,
}
"""Where each kind can be, and how that is written."""


@dataclass(frozen=True, slots=True)
class Measure:
    """`place` is one of its kind's places; `which` tells one of several apart, by a number, a mark
    or a distance, and says nothing to logic."""

    what: What
    place: str = ""
    which: str = ""

    def __str__(self) -> str:
        return _form(self.what, self.place).replace("{which}", self.which)

    @staticmethod
    def parse(text: str) -> Measure:
        """The measure again. Raises `ValueError` where the text is none.

        >>> Measure.parse("slot width"), str(Measure(What.LIGHT_HEIGHT, "highest", "1"))
        (Measure(what=<What.CHANNEL_WIDTH: '{place} width'>, place='slot', which=''), \
'height of light 1, where it is highest')
        """
        for form, what, place in _forms():
            before, several, after = form.partition("{which}")
            if text == form:
                return Measure(what, place)
            if several and text.startswith(before) and text.removeprefix(before).endswith(after):
                which = text.removeprefix(before).removesuffix(after)
                if which:
                    return Measure(what, place, which)
        raise ValueError(f"{text} is nothing that is measured")


def places(what: What) -> tuple[str, ...]:
    """The places that a kind can be at."""
    return tuple(_PLACES.get(what, _NOWHERE))


def _form(what: What, place: str) -> str:
    return what.value.replace("{place}", _PLACES.get(what, _NOWHERE)[place])


@cache
def _forms() -> tuple[tuple[str, What, str], ...]:
    """All forms, the longest first: one may begin and end as a shorter one does."""

    def each() -> Iterator[tuple[str, What, str]]:
        for what in What:
            for place in places(what):
                yield _form(what, place), what, place

    return tuple(sorted(each(), key=lambda entry: ("{which}" in entry[0], -len(entry[0]))))
