"""What the doors are held to: the first page's line, and the table of every requirement."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from math import ceil, floor

from msgspec import Struct

from sequencer.instructions.figures import PLACES, Scale, fixed
from sequencer.plan import Plan, Requirement, Share
from sequencer.wording import Room, tolerances
from sequencer.wording.room import capitalised

TOLD = 2
"""What takes most is told, and what takes next."""


class RequiredLine(Struct, frozen=True):
    """A row: what, of which doors, what is wanted, how it comes out at the worst, whether it holds
    or how often it is right at the first try, and what takes most of the range."""

    what: str
    doors: str
    wanted: str
    worst: str
    holds: str
    takes: str


def held(plan: Plan, room: Room) -> str:
    """How many musts hold at the worst, and the least share of the fits; empty where nothing is
    required."""
    return " ".join(_held(plan, room))


def _held(plan: Plan, room: Room) -> Iterator[str]:
    musts = [each for each in plan.requirements if each.kind == "must"]
    good = sum(each.holds for each in musts)
    if musts and good == len(musts):
        yield room.counted(tolerances.ALL_HOLD, good)
    elif musts:
        yield room.counted(tolerances.SOME_HOLD, good, all=len(musts))
    fits = [(each.first_try, each.what) for each in plan.requirements if each.first_try is not None]
    if fits:
        share, what = min(fits)
        said = room.term(f"required.{what}")
        yield room.text(tolerances.FIRST_TRY, share=_in_100(share), what=said)


def required(plan: Plan, scale: Scale) -> tuple[RequiredLine, ...]:
    """Every requirement, in the plan's order."""
    of_piece = {place.mark: door.mark for door in plan.doors for place in door.places}
    of_piece |= {pane.mark: door.mark for door in plan.doors for pane in door.panes}
    lines = []
    for each in plan.requirements:
        doors = tuple(dict.fromkeys(of_piece.get(mark, mark) for mark in each.of))
        lines.append(
            RequiredLine(
                what=capitalised(_named(each, doors, plan, scale.room)),
                doors=_doors(doors, scale.room),
                wanted=_wanted(each, scale),
                worst=_worst(each, scale),
                holds=_holds(each, scale.room),
                takes=", ".join(_takes(share, plan, scale) for share in each.share[:TOLD]),
            )
        )
    return tuple(lines)


def _named(each: Requirement, doors: tuple[str, ...], plan: Plan, room: Room) -> str:
    """What is required; over the year, where that was worked out for all of its doors."""
    worked_out = {
        season.door
        for season in plan.seasons
        if (season.gap is not None if each.what == "gap-open" else season.panels)
    }
    if each.what in tolerances.OVER_YEAR and worked_out.issuperset(doors):
        return room.text(tolerances.OVER_YEAR[each.what])
    return room.term(f"required.{each.what}")


def _doors(marks: tuple[str, ...], room: Room) -> str:
    if len(marks) <= 4:
        return ", ".join(marks)
    return room.text(tolerances.SOME_MARKS, first=marks[0], last=marks[-1], n=len(marks))


def _wanted(each: Requirement, scale: Scale) -> str:
    room = scale.room
    if each.least is None:
        return room.text(tolerances.AT_MOST, most=_down(each.most or Fraction(0), scale))
    if each.most is None:
        return room.text(tolerances.AT_LEAST, least=_up(each.least, scale))
    least, most = _up(each.least, scale), _down(each.most, scale)
    return room.text(tolerances.BETWEEN, least=least, most=most)


def _worst(each: Requirement, scale: Scale) -> str:
    """On the sides that are required."""
    room = scale.room
    least, most = _down(each.worst_least, scale), _up(each.worst_most, scale)
    if each.least is None:
        return room.text(tolerances.UP_TO, most=most)
    if each.most is None:
        return room.text(tolerances.DOWN_TO, least=least)
    return room.text(tolerances.BETWEEN, least=least, most=most)


def _holds(each: Requirement, room: Room) -> str:
    if each.first_try is not None:
        return room.text(tolerances.IN_100, share=_in_100(each.first_try))
    return room.text(tolerances.HOLDS if each.holds else tolerances.MAY_FAIL)


def _in_100(share: Fraction) -> str:
    """Rounded down: no share is told better than it is."""
    return str(floor(share * 100))


def _takes(share: Share, plan: Plan, scale: Scale) -> str:
    room, amount = scale.room, _up(share.amount, scale)
    plain = {
        "pass": tolerances.PASSES,
        "thickness": tolerances.THICKNESS,
        "setting": tolerances.SETTING,
    }
    if share.checkpoint is None:
        return room.text(plain[share.takes], amount=amount)
    step = plan.checkpoints[share.checkpoint].at_step
    told = tolerances.WINDOW if share.takes == "window" else tolerances.READING_OF
    return room.text(told, step=step, amount=amount)


def _down(value: Fraction, scale: Scale) -> str:
    places = PLACES[scale.unit]
    return fixed(floor(value * 10**places), places)


def _up(value: Fraction, scale: Scale) -> str:
    places = PLACES[scale.unit]
    return fixed(ceil(value * 10**places), places)
