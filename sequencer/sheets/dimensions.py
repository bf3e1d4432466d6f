"""The dimensions in a setup's picture: guide, kerf, height and depth, beside what they measure."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction

from sequencer.instructions.figures import Scale
from sequencer.sheets import svg
from sequencer.sheets.placing import (
    BESIDE,
    TOP,
    TYPE,
    WIDTH,
    Frame,
    SawView,
    blade_top,
    block_wide,
    column_wide,
    told_upright,
    two_depths,
    words_wide,
)
from sequencer.wording import pictures

_THIN = Fraction(1, 2)


def across(view: SawView, frame: Frame, scale: Scale) -> list[str]:
    """Guide and kerf, above the piece."""
    near = frame.x(view.drawn_guide)
    far = near - view.setup.kerf * frame.scale
    top = _reached(view, frame)
    row = 21
    words, x, anchor = _kerf_words(view, frame, scale, far, near)
    kerf = [
        svg.line(far, row - 7, far, top, width=_THIN),
        svg.line(near, row - 7, near, top, width=_THIN),
        svg.arrow(far - 12, row - 4, far, row - 4),
        svg.arrow(near + 12, row - 4, near, row - 4),
        svg.text(x, row, words, TYPE, anchor=anchor),
    ]
    return kerf if view.by_eye else [*_guide_dimension(view, frame, scale, near), *kerf]


def _kerf_words(
    view: SawView, frame: Frame, scale: Scale, far: Fraction, near: Fraction
) -> tuple[str, Fraction, svg.Anchor]:
    """What the kerf is called, where that begins or ends: to the left of its arrows, else to the
    right of them, up to the guiding surface; else shorter, to the left."""
    figure = scale.figure(view.setup.kerf)
    choices = [
        scale.room.text(pictures.KERF, width=length)
        for length in (figure.text, figure.decimal or figure.plain)
    ]
    low, high = far - 15, near + 15
    end = WIDTH - 1 if view.by_eye else frame.right - 3
    for words in choices:
        wide = words_wide(words)
        if wide < low:
            return words, low, "end"
        if high + wide < end:
            return words, high, "start"
    return figure.decimal or figure.plain, low, "end"


def _reached(view: SawView, frame: Frame) -> Fraction:
    """How far down the thin lines go: to the blade's top, or to the deck where the blade leans and
    both are measured there."""
    return frame.deck_top if view.section.lean else blade_top(view, frame)


def _guide_dimension(view: SawView, frame: Frame, scale: Scale, near: Fraction) -> list[str]:
    """From the guiding surface, which may have a block before it, to the near side of the kerf: the
    words between the arrows where they go, else to the left of them; the decimal alone where both
    would not go, without a word where that would not go either."""
    right, row = frame.right + block_wide(view, frame), 10
    top = _reached(view, frame)
    ends = [
        svg.line(right, row - 7, right, frame.y(view.section.upright), width=_THIN),
        svg.line(near, row - 7, near, top, width=_THIN),
    ]
    number = view.drawn_guide + view.setup.spacer + view.setup.off(view.knob)
    figure = scale.dial(number, view.knob)
    choices = [
        scale.room.text(pictures.DISTANCE, length=length)
        for length in (figure.text, figure.decimal or figure.plain)
    ]
    inside = [words for words in choices if svg.text_width(words, TYPE) + 24 < right - near]
    if inside:
        middle, half = (right + near) / 2, svg.text_width(inside[0], TYPE) / 2
        return [
            *ends,
            svg.arrow(middle - half, row - 4, near, row - 4),
            svg.arrow(middle + half, row - 4, right, row - 4),
            svg.text(middle, row, inside[0], TYPE, anchor="middle"),
        ]
    beside = [words for words in choices if svg.text_width(words, TYPE) < near - 15]
    return [
        *ends,
        svg.arrow(near - 12, row - 4, near, row - 4),
        svg.arrow(right + 12, row - 4, right, row - 4),
        svg.text(near - 15, row, [*beside, figure.decimal or figure.plain][0], TYPE, anchor="end"),
    ]


def upright(view: SawView, frame: Frame, scale: Scale) -> list[str]:
    """Height above the table, and depth above the deck where the two differ."""
    top = blade_top(view, frame)
    blade = frame.x(view.drawn_guide - view.section.lean * (view.setup.height - view.deck))
    blade -= view.setup.kerf * frame.scale
    shapes: list[str] = []
    x = frame.x(view.section.across) - 14
    feet = [frame.deck_top, frame.table] if two_depths(view) else [frame.table]
    for said, foot in zip(told_upright(view, scale), feet, strict=True):
        shapes += _tall(x, top, foot, frame.table, said)
        level = svg.line(x - 4, top, blade, top, width=_THIN, dash="5 3")
        x -= column_wide(said)
    return [level, *shapes]


def _tall(
    x: Fraction, top: Fraction, bottom: Fraction, table: Fraction, said: Sequence[str]
) -> list[str]:
    """A dimension line with its words to the left, a line of text for each."""
    wide = max(map(words_wide, said))
    high = (TYPE + 1) * len(said)
    middle = (top + bottom) / 2
    first = max(middle - Fraction(high, 2), Fraction(TOP))
    first = min(first, table - high - 3)
    if bottom - top > 12:
        shapes = [svg.arrow(x, middle, x, top), svg.arrow(x, middle, x, bottom)]
    else:
        shapes = [svg.line(x, top, x, bottom), svg.arrow(x, top - 12, x, top)]
    right = max(wide, x - BESIDE)
    for row, each in enumerate(said):
        base = first + (TYPE + 1) * (row + 1) - 2
        shapes.append(svg.text(right, base, each, TYPE, anchor="end"))
    return [svg.rect(right - wide, first, wide, high, fill="#fff", stroke=0), *shapes]
