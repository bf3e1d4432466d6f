"""Pieces that are drawn for themselves, with what each lacks in figures.

Only where a table cannot tell: a piece with no more than slots, tenons and a groove is known from
its setups.
"""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction
from math import ceil

from msgspec import Struct

from sequencer.instructions.figures import Scale
from sequencer.instructions.words import marked_faces
from sequencer.plan import Marked, Part, Plan
from sequencer.records import replace
from sequencer.sheets import svg
from sequencer.sheets.features import feature_words
from sequencer.sheets.heights import WIDE
from sequencer.sheets.outline import END, end_drawing, piece_drawing
from sequencer.sheets.rounds.gathered import alike
from sequencer.sheets.stock import lapped
from sequencer.sheets.type import Run, lines
from sequencer.wording import Room

PLAIN = frozenset({"slot", "cheek", "edge-cheek", "groove"})
_GAP = 14  # points beside the views
_WIDTHS = tuple(map(Fraction, (430, 410, 390, 370, 350)))
"""Points that the views may take of a page, as wide as leaves room for the words beside them."""
_SHORT = Fraction(272) - END - _GAP  # of half a page
_NARROW = 80  # points of the least column beside a profile
_SAID, _LINE = 9.5, 11.4  # of what a piece lacks


class PieceLine(Struct, frozen=True):
    """Pieces that are alike: their names with the marks of each, size, pictures, and what they
    lack, a line each. `bench` marks what no saw proved."""

    names: tuple[tuple[str, tuple[str, ...]], ...]
    size: str
    drawing: str
    across: float
    """Points that it takes."""
    profile: str
    lines: tuple[str, ...]
    beside: bool
    """Whether what they lack stands by the profile, beside the drawing."""
    around: bool
    """Whether that begins at the right of the profile."""
    bench: bool
    half: bool
    """Whether they stand beside others in half a page's width."""


def piece_lines(plan: Plan, scale: Scale) -> tuple[PieceLine, ...]:
    """The pieces that need a picture, in the parts' order but narrow pictures last; equal ones of
    one hand together."""
    faces = marked_faces(plan)
    made = [
        _line(parts, faces.get(parts[0].mark, "face"), scale)
        for parts in alike(plan)
        if not _plain(parts[0])
    ]
    made.sort(key=lambda line: line.half)
    if sum(line.half for line in made) % 2:  # one has no neighbour
        made[-1] = replace(made[-1], half=False, around=made[-1].beside)
    return tuple(made)


def _plain(part: Part) -> bool:
    return not any(f.kind not in PLAIN or f.prism or lapped(part, f) for f in part.features)


def _line(parts: Sequence[Part], marked: Marked, scale: Scale) -> PieceLine:
    size, told = parts[0].size, feature_words(parts[0], scale, marked)
    profile = end_drawing(parts[0], scale, marked)
    said: Run = ("; ".join(told), _SAID, False)
    for width in _WIDTHS:
        drawing = piece_drawing(parts[0], scale, marked, width)
        across, high = svg.size_of(drawing)
        half = across <= _SHORT
        room = (WIDE["a4"] / 2 if half else WIDE["a4"]) - across - 2 * _GAP
        taken, around = _high(svg.size_of(profile), said, room)
        if beside := taken <= high + _LINE:
            break
    else:
        drawing = piece_drawing(parts[0], scale, marked, _WIDTHS[0])
        across = svg.size_of(drawing)[0]
    return PieceLine(
        names=tuple(_named(parts, scale.room).items()),
        size=" × ".join(scale.text(v) for v in (size.length, size.width, size.thickness)),
        drawing=drawing,
        across=across,
        profile=profile,
        lines=told,
        beside=beside,
        around=beside and around,
        bench=any(feature.unproven_by_saw for feature in parts[0].features),
        half=half,
    )


def _high(profile: tuple[float, float], said: Run, room: float) -> tuple[float, bool]:
    """How high a profile and words stand in a column so wide, and whether these go round it."""
    across, high = profile
    right = room - across - _GAP
    if right < _NARROW:
        return high + lines([said], room) * _LINE, False
    first = ceil(high / _LINE)
    all_right = lines([said], right)
    rest = max(all_right - first, 0) * right / room
    return max(high, (min(first, all_right) + ceil(rest)) * _LINE), True


def _named(parts: Sequence[Part], room: Room) -> dict[str, tuple[str, ...]]:
    names: dict[str, tuple[str, ...]] = {}
    for part in parts:
        name = room.say(part.name)
        names[name] = (*names.get(name, ()), part.mark)
    return names
