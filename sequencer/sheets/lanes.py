"""The order in one look: a lane a setting, the setups along it, a mark where it changes; a bracket
above neighbours that do not wait for each other."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction
from itertools import groupby

from sequencer.plan import Plan, Setup
from sequencer.sheets import svg
from sequencer.wording import Room, pictures, saws

WIDTH = Fraction(300)
_LEFT = 116
_LANE = 12
_TOP = 16
_TYPE = 9
_MARK = 3
_BRACKET = 7
"""What brackets take above the numbers."""


def lanes(plan: Plan, room: Room, width: Fraction = WIDTH) -> str:
    """The drawing; empty where there is no setup."""
    setups = plan.setups
    knobs = [
        knob.name
        for knob in plan.ordering.knobs
        if any(change.knob == knob.name for setup in setups for change in setup.changes)
    ]
    if not setups or not knobs:
        return ""
    step = (width - _LEFT - 8) / len(setups)
    joined = bracketed(setups)
    top = _TOP + _BRACKET if joined else _TOP
    shapes = [_bracket(_LEFT + first * step, _LEFT + last * step, step) for first, last in joined]
    every = next(n for n in (1, 2, 5, 10, 20, 50, 100) if n * step >= 11)
    for at, setup in enumerate(setups):
        if setup.number == 1 or setup.number % every == 0:
            x = _LEFT + at * step
            shapes.append(svg.text(x, top - 7, str(setup.number), _TYPE, anchor="middle"))
    counts = []
    for row, knob in enumerate(knobs):
        y = Fraction(top + row * _LANE + _LANE // 2)
        changed = [at for at, setup in enumerate(setups) if knob in {c.knob for c in setup.changes}]
        counts.append(f"{saws.knob(knob, room)}, {len(changed)}×")
        shapes.append(svg.text(_LEFT - 14, y + 3, counts[-1], _TYPE, anchor="end"))
        start = _LEFT + changed[0] * step
        shapes.append(svg.line(start, y, width - 4, y, width=Fraction(3, 2)))
        shapes += [_diamond(_LEFT + at * step, y) for at in changed]
    height = Fraction(top + len(knobs) * _LANE + 2)
    says = room.counted(pictures.CHANGES, len(setups), counts=tuple(counts))
    return svg.drawing(width, height, shapes, says)


def bracketed(setups: Sequence[Setup]) -> tuple[tuple[int, int], ...]:
    """The first and last place of each row of neighbours in one layer: any order of them waits for
    what this one waits for. Those of a layer that stand apart may not simply change places."""
    found = []
    for layer, row in groupby(enumerate(setups), key=lambda each: each[1].layer):
        places = [at for at, _ in row]
        if layer and len(places) > 1:
            found.append((places[0], places[-1]))
    return tuple(found)


def _bracket(first: Fraction, last: Fraction, step: Fraction) -> str:
    out = min(step / 3, Fraction(7))
    left, right = first - out, last + out
    return svg.path([(left, 8), (left, 3), (right, 3), (right, 8)])


def _diamond(x: Fraction, y: Fraction) -> str:
    points = [(x, y - _MARK - 1), (x + _MARK, y), (x, y + _MARK + 1), (x - _MARK, y)]
    return svg.path(points, fill=svg.INK, stroke=0, closed=True)
