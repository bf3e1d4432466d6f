"""A shaped top rail and the panel below it: what the bench takes off, and the marks to lay out.

The saw leaves rail and panel as rectangles. The bench shapes the rail between its shoulders, then
cuts the groove that follows its edge, and shapes the panel's top to stand in that groove.
"""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction
from itertools import pairwise

from sequencer.doors.curve import Curve, Rounding
from sequencer.doors.fills import Filled
from sequencer.doors.layout import Mark, Shaped
from sequencer.doors.leaf import Light
from sequencer.doors.measure import ZERO, Frame
from sequencer.job.schema import Door
from sequencer.joints import JointSizes
from sequencer.lengths import Unit
from sequencer.plan import Feature, Part, Place, Prism, Removal, Span
from sequencer.records import replace
from sequencer.trade.fits import WIDTH_STEP

Point = tuple[Fraction, Fraction]


def panel_light(spec: Door, frame: Frame, light: Light, unit: Unit) -> Light:
    """The light as the panel below a shaped rail is made for it: so high that its blank reaches to
    the panel's highest point."""
    curve = frame.curve
    if curve is None:
        return light
    reach, _ = _reaches(spec)
    most = max(height for _, height in _panel_line(spec, curve, unit))
    return replace(light, height=light.height - curve.rise + most - reach)


def shaped(
    spec: Door, frame: Frame, members: Sequence[Part], filled: Filled, sizes: JointSizes, unit: Unit
) -> tuple[tuple[Part, ...], Filled, Shaped | None]:
    """Members and fills with what the bench takes off them, and the marks for it."""
    curve = frame.curve
    if curve is None:
        return tuple(members), filled, None
    rail = members[2]
    edge = _under(curve, frame.left_reach, ZERO, (ZERO, rail.size.thickness))
    groove = _under(curve, frame.left_reach, sizes.groove_depth, sizes.groove)
    panel, place = filled.parts[0], filled.places[0]
    top, marks = _panel_top(spec, frame, curve, panel, place, unit)
    made = Shaped(
        curve=curve,
        rail=rail.mark,
        edge=(Removal(rail.mark, edge.box, edge),),
        groove=(Removal(rail.mark, groove.box, groove),),
        groove_depth=sizes.groove_depth,
        rail_marks=_marks([(at, curve.height(at)) for at in curve.stations()], curve.span),
        panel=panel.mark,
        top=tuple(Removal(panel.mark, prism.box, prism) for prism in top),
        panel_marks=marks,
    )
    grown = _lacking(rail, "inside-edge", (edge, groove))
    fitted = _lacking(panel, "A", top)
    return (
        (*members[:2], grown, *members[3:]),
        replace(filled, parts=(fitted, *filled.parts[1:])),
        made,
    )


def _lacking(part: Part, at: str, prisms: Sequence[Prism]) -> Part:
    features = [
        Feature("shape", at, prism.box, prism=prism, unproven_by_saw=True) for prism in prisms
    ]
    return replace(part, features=(*part.features, *features))


def _under(curve: Curve, start: Fraction, offset: Fraction, through: Span) -> Prism:
    """All of the rail between its shoulders that lies below a line beside the edge."""
    rounding: Rounding = "up" if offset else "nearest"
    line = [(start + at, curve.height(at, offset, rounding)) for at in curve.stations()]
    outline = [(start, ZERO), *line, (start + curve.span, ZERO)]
    return Prism("xy", _without_repeats(outline), through)


def _reaches(spec: Door) -> tuple[Fraction, Fraction]:
    """How far the panel stands in the groove that follows the edge, and in the stiles'."""
    depth = spec.groove.depth
    return depth - spec.panel.play_end, depth - spec.panel.play_side


def _panel_line(spec: Door, curve: Curve, unit: Unit) -> list[Point]:
    """Where the panel's top edge runs: from the left shoulder, and above the rail's lower edge as
    sawn. It ends in the stiles' grooves. A straight one ends at heights that are easily set, a
    little below those that its groove would allow."""
    reach, side = _reaches(spec)
    stations = (-side, *curve.stations()[1:-1], curve.span + side)
    line = [(at, curve.height(at, reach, "down")) for at in stations]
    if curve.highest == "middle":
        return line
    step = WIDTH_STEP.of(unit)
    return [(at, height // step * step) for at, height in line]


def _panel_top(
    spec: Door, frame: Frame, curve: Curve, panel: Part, place: Place, unit: Unit
) -> tuple[tuple[Prism, ...], tuple[Mark, ...]]:
    """What is above the panel's edge, in its frame: x down from its upper end, y from its left
    edge. Where the line touches the end, the waste falls in two."""
    _, side = _reaches(spec)
    above = place.origin[1] - frame.height + frame.top
    line = [(above - height, at + side) for at, height in _panel_line(spec, curve, unit)]
    through = (ZERO, panel.size.thickness)
    waste: list[Prism] = []
    run: list[Point] = []
    for one, other in pairwise(line):
        run = run or [one]
        run.append(other)
        if other[0] <= 0 or other == line[-1]:
            outline = [(ZERO, run[0][1]), *run, (ZERO, run[-1][1])]
            if any(x > 0 for x, _ in run):
                waste.append(Prism("xy", _without_repeats(outline), through))
            run = []
    return tuple(waste), _marks([(y, x) for x, y in line], panel.size.width)


def _marks(line: Sequence[Point], span: Fraction) -> tuple[Mark, ...]:
    """Each from the nearer end; of two that are alike from both ends, one."""
    heights = dict(line)
    found: list[Mark] = []
    for at, height in line:
        alike = heights.get(span - at) == height
        if 2 * at == span:
            found.append(Mark(at, "middle", height))
        elif 2 * at < span:
            found.append(Mark(at, "either" if alike else "left", height))
        elif not alike:
            found.append(Mark(span - at, "right", height))
    return tuple(found)


def _without_repeats(outline: Sequence[Point]) -> tuple[Point, ...]:
    kept = [point for n, point in enumerate(outline) if n == 0 or point != outline[n - 1]]
    return tuple(kept[:-1] if kept[0] == kept[-1] else kept)
