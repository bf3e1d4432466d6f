"""The year of a leaf on the sheets: the gap to leave today, and driest, today and wettest drawn."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from fractions import Fraction

from sequencer.plan import PanelSeason, Plan, Season
from sequencer.sheets import svg, words
from sequencer.sheets.figures import Scale
from sequencer.trade.moisture import percent

_NAMES = ("driest", "today", "wettest")
_TYPE = 11
_CELL = Fraction(164)  # points, one season; three fill the page's width
_SOLID = Fraction(24)  # of the stile behind the groove
_DEEP = Fraction(56)  # the groove's depth
_THICK = Fraction(12)  # the panel's edge
_CHEEK = Fraction(9)


@dataclass(frozen=True, slots=True)
class SeasonLine:
    """Leaves whose year is alike: their marks, what to leave today, the picture, and what the
    figures rest on."""

    marks: tuple[str, ...]
    leave: str
    drawing: str
    basis: str


def seasons(plan: Plan, scale: Scale) -> tuple[SeasonLine, ...]:
    """Leaves whose panels and gaps are alike together."""
    found: dict[Season, list[str]] = {}
    for season in plan.seasons:
        panel = season.panel and replace(season.panel, part="")
        found.setdefault(replace(season, door="", panel=panel), []).append(season.door)
    return tuple(
        SeasonLine(tuple(marks), _leave(season, scale), _drawing(season, scale), _basis(season))
        for season, marks in found.items()
    )


def at_glue_up(plan: Plan, marks: Sequence[str], scale: Scale) -> tuple[str, ...]:
    """What to leave beside the panels of these leaves, equal ones together."""
    found: dict[str, list[str]] = {}
    for season in plan.seasons:
        if season.door in marks and season.panel is not None:
            found.setdefault(scale.length(season.panel.leave[1]), []).append(season.panel.part)
    lines = [
        f"Leave {gap} at each side of {words.spoken(parts)} today." for gap, parts in found.items()
    ]
    pin = "A pin at the middle of the top and bottom rail keeps a panel centred."
    return (*lines, pin) if lines else ()


def at_hanging(plan: Plan, marks: Sequence[str], scale: Scale) -> tuple[str, ...]:
    """What the free side's gap becomes, equal ones together."""
    found: dict[str, list[str]] = {}
    for season in plan.seasons:
        if season.door in marks and season.gap is not None:
            driest, _, wettest = (scale.decimal(gap) for gap in season.gap.gaps)
            unit = scale.unit
            said = (
                f"{season.gap.side} gap {wettest} {unit} when wettest, {driest} {unit} when driest"
            )
            found.setdefault(said, []).append(season.door)
    return tuple(f"{words.spoken(leaves)}: {said}." for said, leaves in found.items())


def _leave(season: Season, scale: Scale) -> str:
    said = []
    if season.panel is not None:
        said.append(f"leave {scale.length(season.panel.leave[1])} at each side of the panel")
    if season.gap is not None:
        said.append(f"{season.gap.side} gap {scale.length(season.gap.gaps[1])}")
    return "; ".join(said)


def _basis(season: Season) -> str:
    driest, today, wettest = (percent(moisture) for moisture in season.moisture)
    woods = [
        each.species[0] if len(each.species) == 1 else f"any {each.species[0].split(',')[0]}"
        for each in (season.panel, season.gap)
        if each is not None
    ]
    wood = words.spoken(list(dict.fromkeys(woods))) or "wood not in the tables"
    room = f"{driest} to {wettest} % over the year ({season.source})"
    return f"{wood}, {season.sawn} sawn, {today} % today, {room}; Wood Handbook, Eq. 13-2 and 13-3"


def _drawing(season: Season, scale: Scale) -> str:
    """One groove of the panel across the grain, three times, and under it the gap at the free side;
    the groove's depth to scale along the panel, nothing else."""
    shapes: list[str] = []
    height = Fraction(0)
    for number, name in enumerate(_NAMES):
        x = number * (_CELL + 14)
        title = f"{name}, {percent(season.moisture[number])} %"
        y = Fraction(_TYPE)
        shapes.append(svg.text(x, y, title, _TYPE, bold=True))
        y += 6
        if season.panel is not None:
            shapes += _groove(season.panel, number, x, y)
            y += 2 * _CHEEK + _THICK + _TYPE + 2
            gap, reach = season.panel.leave[number], season.panel.reach[number]
            said = f"gap {scale.decimal(gap)}, reach {scale.decimal(reach)}"
            shapes.append(svg.text(x, y, said, _TYPE))
        if season.gap is not None:
            y += _TYPE + 3
            said = f"{season.gap.side} gap {scale.decimal(season.gap.gaps[number])}"
            shapes.append(svg.text(x, y, said, _TYPE))
        height = y + 4
    says = "The panel's edge in its groove in the driest season, today and in the wettest"
    return svg.drawing(3 * _CELL + 28, height, shapes, says)


def _groove(panel: PanelSeason, number: int, x: Fraction, y: Fraction) -> list[str]:
    """The stile with its groove at the left, the panel's edge in it."""
    points = _DEEP / panel.depth
    bottom, deep = x + _SOLID, x + _SOLID + _DEEP
    tip = bottom + panel.leave[number] * points
    down = [y, y + _CHEEK, y + _CHEEK + _THICK, y + 2 * _CHEEK + _THICK]
    stile = [
        (x, down[0]), (deep, down[0]), (deep, down[1]), (bottom, down[1]),
        (bottom, down[2]), (deep, down[2]), (deep, down[3]), (x, down[3]),
    ]  # fmt: skip
    return [
        svg.path(stile, fill=svg.WOOD, closed=True),
        svg.rect(
            tip, y + _CHEEK + 1, x + _CELL - tip, _THICK - 2, fill="#fff", stroke=Fraction(3, 2)
        ),
    ]
