"""Where the blade, the carrier and the piece of one setup lie in its picture, and at what scale."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction
from math import ceil

from msgspec import Struct

from sequencer.instructions.figures import Scale
from sequencer.job.schema import Side
from sequencer.plan import Hold, Marked, Setup, Waste
from sequencer.sheets.axis import END, GAP, Axis, axis
from sequencer.sheets.section import Rect, Section
from sequencer.sheets.type import wide
from sequencer.wording import pictures

WIDTH = Fraction(196)
LOW, HIGH = Fraction(94), Fraction(110)
"""Heights of the picture: a piece that lies, a piece that stands."""

TYPE = 9
"""Points. What a person sets stands beside the picture, larger."""

TOP = 26  # two rows of dimensions above the piece
ROW = 12  # under the table, for what holds the piece
FOOT = 16 + ROW  # under the table
_THICK, _THIN = Fraction(15), Fraction(3)  # of a block between jig and piece
LEANS = 12  # more under the table, for the words of a leaning blade
_GUIDE = 34  # fence, jig or stop, with its name inside
_NARROW = 26  # of each of two, where two dimensions stand on the other side
_COLUMN = 37  # a vertical dimension with its words, where these are no wider than usual
BESIDE = 5  # between a vertical dimension and its words
_MOST = {"in": Fraction(60), "mm": Fraction(12, 5)}  # points a unit
_CLEAR = Fraction(4)  # points a kerf must take to be seen
_TRIES = 4  # at a smaller scale, where the cut itself takes more than there is room for
_TIGHT = 7  # points round the cut then
_MARGIN = 10  # points drawn round a cut where the piece is broken


class SawView(Struct, frozen=True):
    """What one picture shows. Where an end is squared `by_eye` there is no guide: `drawn_guide` is
    where the kerf is drawn then. `again` is the pass after turning the piece round, in the
    first pass's view."""

    setup: Setup
    section: Section
    again: tuple[Rect, ...]
    by_eye: bool
    drawn_guide: Fraction
    deck: Fraction
    guide_name: str
    mark: str
    behind: Fraction
    """Thickness of a jig between fence and piece, 0 where there is none."""
    near: str = ""
    """The side of the piece that looks at the person, in words."""
    marked: Marked = "face"
    side: Side = "right"
    """Of the blade, where the guiding surface stands."""
    leans: str = ""
    """How far the blade leans and which way, in words; empty where it stands upright."""
    hold: Hold | None = None
    waste: Waste | None = None
    clear: Fraction = Fraction(0)
    """How near to the blade no hand may come."""
    knob: str = ""
    """What sets the guide, by whose scale its distance is told; empty for a scale like the rest."""


class Frame(Struct, frozen=True):
    """Where things lie: `right` is the guiding surface, `table` and `deck_top` are their tops."""

    us: Axis
    vs: Axis
    right: Fraction
    table: Fraction
    deck_top: Fraction
    scale: Fraction

    def x(self, u: Fraction) -> Fraction:
        return self.right - self.us.at(u)

    def y(self, v: Fraction) -> Fraction:
        return self.deck_top - self.vs.at(v)


def place(view: SawView, scale: Scale) -> Frame:
    setup, section = view.setup, view.section
    guides = guide_wide(view) * (2 if view.behind else 1)
    room_u = WIDTH - guides - sum(column_wide(said) for said in told_upright(view, scale)) - 12
    lies = section.sides[2] in ("face", "back")
    table = (LOW if lies else HIGH) - FOOT
    room_v = table - TOP
    whole = min(room_u / section.across, room_v / max(setup.height, view.deck + section.upright))
    if whole * setup.kerf >= _CLEAR:
        drawn = min(whole, _MOST[scale.unit])
    else:
        tall = room_v / max(setup.height, view.deck + section.upright)
        if not lies:
            tall = (room_v - _MARGIN - GAP - END) / setup.height
        across = max(room_u - 3 * _MARGIN - 2 * GAP - END, _CLEAR) / setup.kerf
        drawn = min(tall, across, _MOST[scale.unit] * Fraction(3, 4))
    us = _across(view, room_u, drawn)
    if us.length > room_u:
        us = _across(view, room_u, drawn, _TIGHT)
    for _ in range(_TRIES):
        if us.length <= room_u:
            break
        drawn *= room_u / us.length
        us = _across(view, room_u, drawn, _TIGHT)
    margin = Fraction(_MARGIN) / drawn
    depth = min(setup.depth, section.upright)
    needed = [(Fraction(0), depth + margin)]
    vs = axis(section.upright, room_v - view.deck * drawn, drawn, needed)
    right = WIDTH - guides
    return Frame(us, vs, right, table, table - view.deck * drawn, drawn)


def _across(view: SawView, room: Fraction, points: Fraction, around_cut: int = _MARGIN) -> Axis:
    """The axis from the guiding surface at a scale: the cut, and what lies round it, whole."""
    section = view.section
    margin = Fraction(around_cut) / points
    near, far = section.cut[0]
    leans = section.lean * section.cut[1][1]
    near, far = min(near, near - leans), max(far, far - leans)
    around = [(near - margin, near), (near, far + margin), *(rect[0] for rect in view.again)]
    return axis(section.across, room, points, around, min(around_cut, END))


def guide_wide(view: SawView) -> int:
    """How wide fence, jig or stop is drawn, each."""
    return _NARROW if view.behind and two_depths(view) else _GUIDE


def block_wide(view: SawView, frame: Frame) -> Fraction:
    """How wide a block between jig and piece is drawn, in the place of the jig; 0 without one."""
    spacer = view.setup.spacer
    return min(max(spacer * frame.scale, _THIN), _THICK) if spacer else spacer


def told_upright(view: SawView, scale: Scale) -> list[list[str]]:
    """The words of the dimensions beside the piece, a line each, the nearest to it first: its depth
    above the deck, where that differs, and its height above the table."""
    told = [(pictures.HEIGHT, scale.dial(view.setup.height_shown, "height"))]
    if two_depths(view):
        told.insert(0, (pictures.DEPTH, scale.figure(view.setup.depth)))
    return [
        [scale.room.text(name), value.plain, *([f"({value.decimal})"] if value.decimal else [])]
        for name, value in told
    ]


def words_wide(words: str) -> Fraction:
    """Points that the words of a picture take in the sheets' face."""
    return Fraction(ceil(wide(words, TYPE) * 10), 10)


def column_wide(said: Sequence[str]) -> Fraction:
    """What a vertical dimension takes with its words."""
    return max(Fraction(_COLUMN), max(map(words_wide, said)) + BESIDE + 2)


def two_depths(view: SawView) -> bool:
    """Whether a deck makes the depth of cut differ from the height above the table."""
    return view.deck > 0 and view.setup.depth < view.section.upright


def blade_top(view: SawView, frame: Frame) -> Fraction:
    """The blade's top: at its true place beside the piece, also where the piece is broken."""
    over = view.setup.height - view.deck
    if over <= view.section.upright:
        return frame.y(over)
    return frame.y(view.section.upright) - (over - view.section.upright) * frame.scale
