"""The year of a leaf on the sheets: the gap to leave today, and driest, today and wettest drawn."""

from __future__ import annotations

from fractions import Fraction

from msgspec import Struct

from sequencer.instructions.figures import Scale
from sequencer.plan import BoardSeason, PanelSeason, Plan, Season
from sequencer.records import replace
from sequencer.sheets import svg
from sequencer.trade.moisture import percent
from sequencer.wording import Room, papers, pictures

_NAMES = ("season.driest", "season.today", "season.wettest")
_TYPE = 11
_CELL = Fraction(164)  # points, one season; three fill the page's width
_SOLID = Fraction(24)  # of the stile behind the groove
_DEEP = Fraction(56)  # the groove's depth
_THICK = Fraction(12)  # the panel's edge
_CHEEK = Fraction(9)


class SeasonLine(Struct, frozen=True):
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
        found.setdefault(_nameless(season), []).append(season.door)
    return tuple(
        SeasonLine(
            tuple(marks), _leave(season, scale), _drawing(season, scale), _basis(season, scale.room)
        )
        for season, marks in found.items()
    )


def _nameless(season: Season) -> Season:
    """The season without marks, lights that are alike once."""
    return replace(
        season,
        door="",
        panels=tuple(dict.fromkeys(replace(each, part="") for each in season.panels)),
        boards=tuple(dict.fromkeys(replace(each, parts=()) for each in season.boards)),
        slab=season.slab and replace(season.slab, part=""),
    )


def _leave(season: Season, scale: Scale) -> str:
    room = scale.room
    told: list[str] = []
    gaps = dict.fromkeys(scale.told(panel.leave[1]) for panel in season.panels)
    told += (room.text(papers.LEAVE_PANEL, gap=gap) for gap in gaps)
    gaps = dict.fromkeys(scale.told(boards.leave[1]) for boards in season.boards)
    told += (room.text(papers.LEAVE_BOARDS, gap=gap) for gap in gaps)
    if season.gap is not None:
        side, gap = room.term(f"gap.{season.gap.side}"), scale.told(season.gap.gaps[1])
        told.append(room.text(papers.FREE_GAP, side=side, gap=gap))
    return "; ".join(told)


def _basis(season: Season, room: Room) -> str:
    driest, today, wettest = (percent(moisture) for moisture in season.moisture)
    woods = [
        each.species[0]
        if len(each.species) == 1
        else room.text(papers.ANY, species=each.species[0].split(",")[0])
        for each in (*season.panels, *season.boards, season.slab, season.gap)
        if each is not None
    ]
    return room.text(
        papers.BASIS,
        wood=room.listed(list(dict.fromkeys(woods))) or room.text(papers.NOT_KNOWN),
        sawn=room.term(f"sawn.{season.sawn}"),
        today=today,
        driest=driest,
        wettest=wettest,
        source=room.say(season.source),
    )


def _drawing(season: Season, scale: Scale) -> str:
    """A groove with what stands in it, across the grain, three times: of every panel and every set
    of boards; under it the width of a slab and the gap at the free side. A groove's depth is to
    scale along what is in it, nothing else."""
    room = scale.room
    shapes: list[str] = []
    height = Fraction(0)
    for number, name in enumerate(_NAMES):
        x = number * (_CELL + 14)
        title = room.text(
            pictures.SEASON, season=room.term(name), moisture=percent(season.moisture[number])
        )
        y = Fraction(_TYPE)
        shapes.append(svg.text(x, y, title, _TYPE, bold=True))
        y += 6
        for panel in season.panels:
            shapes += _groove(panel, number, x, y)
            y += 2 * _CHEEK + _THICK + _TYPE + 2
            gap, reach = panel.leave[number], panel.reach[number]
            held = room.text(pictures.GAP_REACH, gap=scale.decimal(gap), reach=scale.decimal(reach))
            shapes.append(svg.text(x, y, held, _TYPE))
            y += 4
        for boards in season.boards:
            shapes += _tongue(boards, number, x, y)
            y += 2 * _CHEEK + _THICK + _TYPE + 2
            gap, hold = boards.leave[number], boards.hold[number]
            held = room.text(
                pictures.GAP_TONGUE, gap=scale.decimal(gap), tongue=scale.decimal(hold)
            )
            shapes.append(svg.text(x, y, held, _TYPE))
            y += 4
        if season.slab is not None:
            y += _TYPE + 3
            width = scale.decimal(season.slab.widths[number])
            shapes.append(svg.text(x, y, room.text(pictures.WIDTH, width=width), _TYPE))
        if season.gap is not None:
            y += _TYPE + 3
            free = room.text(
                pictures.FREE_GAP,
                side=room.term(f"gap.{season.gap.side}"),
                gap=scale.decimal(season.gap.gaps[number]),
            )
            shapes.append(svg.text(x, y, free, _TYPE))
        height = y + 4
    return svg.drawing(3 * _CELL + 28, height, shapes, room.text(pictures.SEASONS))


def _tongue(boards: BoardSeason, number: int, x: Fraction, y: Fraction) -> list[str]:
    """Two boards beside each other: the groove at the left, the tongue from the right."""
    points = _DEEP / boards.tongue
    bottom, deep = x + _SOLID, x + _SOLID + _DEEP
    tip = deep - boards.hold[number] * points
    shoulder = deep + boards.leave[number] * points
    down = [y, y + _CHEEK, y + _CHEEK + _THICK, y + 2 * _CHEEK + _THICK]
    grooved = [
        (x, down[0]), (deep, down[0]), (deep, down[1]), (bottom, down[1]),
        (bottom, down[2]), (deep, down[2]), (deep, down[3]), (x, down[3]),
    ]  # fmt: skip
    end = x + _CELL
    upper, lower = down[1] + 1, down[2] - 1
    tongued = [
        (end, down[0]), (shoulder, down[0]), (shoulder, upper), (tip, upper),
        (tip, lower), (shoulder, lower), (shoulder, down[3]), (end, down[3]),
    ]  # fmt: skip
    return [
        svg.path(grooved, fill=svg.WOOD, closed=True),
        svg.path(tongued, fill="#fff", closed=True),
    ]


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
