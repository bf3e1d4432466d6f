"""The night-before pages: what to lay out, in what order, and how good the order is."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction

from msgspec import Struct

from sequencer.facts import Fact, claims, methods
from sequencer.instructions import words
from sequencer.instructions.figures import Figure, Scale
from sequencer.plan import Chosen, Compared, Plan
from sequencer.saw.fittings import CARRIERS
from sequencer.sheets.detailed import PieceLine, piece_lines
from sequencer.sheets.lanes import bracketed, lanes
from sequencer.sheets.required import RequiredLine, held, required
from sequencer.sheets.season import SeasonLine, seasons
from sequencer.sheets.stock import (
    DoorLine,
    Laid,
    PartLine,
    ScrapLine,
    StickLine,
    blanks,
    doors,
    laid,
    parts,
    scrap,
    sticks,
)
from sequencer.sheets.warned import Line, standing
from sequencer.wording import Room, papers, pictures, saws
from sequencer.wording.changes import cutter_words
from sequencer.wording.room import capitalised


class FreeLine(Struct, frozen=True):
    """A dimension that the job leaves free: what this plan took, of what range, where the job says
    so, and what the ends would have cost."""

    name: str
    value: Figure
    low: str
    high: str
    place: str
    others: str


class Front(Struct, frozen=True):
    title: str
    counts: str
    quality: str
    proof: str
    held: str
    required: tuple[RequiredLine, ...]
    baselines: tuple[str, ...]
    methods: tuple[str, ...]
    standing: tuple[tuple[str, Line], ...]
    to_tick: tuple[tuple[str, str], ...]
    before_power: tuple[str, ...]
    before_leaving: tuple[str, ...]
    doors: tuple[DoorLine, ...]
    beside: bool
    """Whether their pictures stand beside what is looked at before the saw is switched on."""
    blades: tuple[str, ...]
    carriers: tuple[str, ...]
    sticks: tuple[StickLine, ...]
    blanks: tuple[tuple[StickLine, ...], ...]
    laid: tuple[Laid, ...]
    scrap: tuple[ScrapLine, ...]
    parts: tuple[PartLine, ...]
    pieces: tuple[PieceLine, ...]
    seasons: tuple[SeasonLine, ...]
    order: str
    brackets: str
    why: tuple[tuple[str, str], ...]
    assumptions: tuple[str, ...]
    notes: tuple[str, ...]
    unit: str
    again: str
    free: tuple[FreeLine, ...]


def front(plan: Plan, scale: Scale) -> Front:
    ordering, room = plan.ordering, scale.room
    leaves, beside = doors(plan, scale)
    strips = sticks(plan, scale)

    def setups(numbers: Sequence[int]) -> str:
        return papers.setups(numbers, words.runs(numbers), room)

    return Front(
        title=_title(plan, room),
        counts=room.counted(papers.COUNTS, ordering.setups, minutes=room.minutes(ordering.minutes)),
        quality=_quality(plan, room),
        proof=" ".join(room.sentence(shown) for shown in plan.proven),
        held=held(plan, room),
        required=required(plan, scale),
        baselines=tuple(
            room.counted(
                papers.BASELINE,
                base.setups,
                name=capitalised(room.term(f"baseline.{base.name}")),
                minutes=room.minutes(base.minutes),
            )
            for base in ordering.baselines
        ),
        methods=_methods(plan, room),
        standing=standing(plan.standing, room),
        to_tick=tuple(
            (room.say(warning.tick), setups(warning.setups)) for warning in plan.warnings
        ),
        before_power=tuple(map(room.say, plan.before_power)),
        before_leaving=tuple(map(room.say, plan.before_leaving)),
        doors=leaves,
        beside=beside,
        blades=_blades(plan, scale),
        carriers=_carriers(plan, scale),
        sticks=strips,
        blanks=blanks(strips),
        laid=laid(plan, strips, scale),
        scrap=scrap(plan, scale),
        parts=parts(plan, scale),
        pieces=piece_lines(plan, scale),
        seasons=seasons(plan, scale),
        order=lanes(plan, room),
        brackets=room.text(pictures.BRACKETS) if bracketed(plan.setups) else "",
        why=_why(plan, room),
        assumptions=tuple(room.say(each) for each in plan.assumptions),
        notes=(
            *(capitalised(room.say(note)) for note in plan.notes),
            *_no_year(plan, room),
        ),
        unit=plan.unit,
        again=", ".join(plan.again),
        free=tuple(_free(chosen, plan, scale) for chosen in plan.free),
    )


def _free(chosen: Chosen, plan: Plan, scale: Scale) -> FreeLine:
    """Minutes of the ends beside those of this plan; an end that cannot be made has none. Of what
    no line of a file says, those of what it would have been by itself."""
    room = scale.room
    told = []
    file, line, _ = chosen.place.rsplit(":", 2)
    stated = line != "0"
    ends = (chosen.low, chosen.high) if stated else tuple(map(Fraction, chosen.others))
    for end in ends:
        cost = chosen.others.get(str(end))
        if end == chosen.value:
            continue
        if cost is None:
            told.append(room.text(papers.CANNOT, value=scale.text(end)))
        else:
            more = cost - plan.ordering.minutes
            extra = (
                room.text(papers.MORE, minutes=room.minutes(more))
                if more > 0
                else room.text(papers.NO_QUICKER)
            )
            told.append(room.text(papers.COSTS, value=scale.text(end), cost=extra))
    return FreeLine(
        name=room.term(chosen.key),
        value=scale.figure(chosen.value),
        low=scale.text(chosen.low),
        high=scale.text(chosen.high),
        place=chosen.place if stated else file,
        others="; ".join(told),
    )


def _title(plan: Plan, room: Room) -> str:
    """The one door's name, or the jobs'."""
    names = list(dict.fromkeys(door.name for door in plan.doors))
    return room.say(names[0]) if len(names) == 1 else ", ".join(plan.jobs)


def _why(plan: Plan, room: Room) -> tuple[tuple[str, str], ...]:
    """Each setup's reasons; those that all of them share are said once, first."""
    reasons = [setup.why for setup in plan.setups if setup.why]
    if not reasons:
        return ()
    shared = [each for each in reasons[0] if all(each in others for others in reasons)]
    shared = shared if len(reasons) > 1 else []
    lines = [
        (
            str(setup.number),
            "; ".join(room.say(each) for each in setup.why if each not in shared),
        )
        for setup in plan.setups
    ]
    own = tuple((number, reasons) for number, reasons in lines if reasons)
    if not shared:
        return own
    return ((room.text(papers.ALL), "; ".join(map(room.say, shared))), *own)


def _no_year(plan: Plan, room: Room) -> tuple[str, ...]:
    """One line for the doors whose year is not told of, so that nobody takes their gaps for
    computed."""
    told = {season.door for season in plan.seasons}
    silent = [door.mark for door in plan.doors if door.mark not in told]
    if not silent:
        return ()
    if len(silent) == len(plan.doors):
        return (room.text(papers.NO_YEAR),)
    return (room.text(papers.NO_YEAR_OF, marks=tuple(silent)),)


def _quality(plan: Plan, room: Room) -> str:
    """How good the order is, of all that was compared, and what was not looked at."""
    ordering = plan.ordering
    ways = sum(not each.refused for each in ordering.compared)
    above = ordering.minutes - ordering.bound
    if ways > 1:
        of_ways = claims.AT_MOST_OF_WAYS(above=above, ways=ways)
        best = claims.PROVEN_OF_WAYS(ways=ways) if ordering.proven else of_ways
    else:
        best = claims.PROVEN() if ordering.proven else claims.AT_MOST(above=above)
    told = [room.sentence(best)]
    if ordering.limit:
        told.append(room.text(papers.STOPPED, limit=room.term(f"limit.{ordering.limit}")))
    told += [room.sentence(each) for each in ordering.left_out]
    return " ".join(told)


def _methods(plan: Plan, room: Room) -> tuple[str, ...]:
    """What another answer to one question alone would have cost, as it was compared: before any
    order got the further test pieces that it alone needs."""
    answers = plan.answers
    here = next((way.minutes for way in plan.ordering.compared if way.choices == answers), None)
    if here is None:
        return ()
    lines = []
    for way in plan.ordering.compared:
        other = [each for each in way.choices.items() if answers.get(each[0]) != each[1]]
        if len(other) != 1:
            continue
        question, answer = other[0]
        instead = methods.INSTEAD(question=question, answer=answer, here=answers[question])
        lines.append(f"{room.say(instead)}: {room.say(_cost(way, here))}")
    return tuple(lines)


def _cost(way: Compared, here: Fraction) -> Fact:
    """By how much it lost to the minutes of this plan. Where the search was cut short it may not
    have: an order of it that takes less was not found, nor ruled out."""
    if way.refused:
        return claims.REFUSED()
    more, least = (None if way.minutes is None else way.minutes - here), way.bound - here
    if least > 0:
        return claims.MORE(more=least) if more == least else claims.AT_LEAST_MORE(more=least)
    if least == 0:
        return claims.NO_QUICKER()
    if more is None:
        return claims.NOT_ORDERED(less=-least)
    if more < 0:
        return claims.QUICKER(less=-more)
    if more:
        return claims.MORE_AS_ORDERED(more=more, less=-least)
    return claims.NO_QUICKER_AS_ORDERED(less=-least)


def _blades(plan: Plan, scale: Scale) -> tuple[str, ...]:
    kerfs = dict.fromkeys((setup.cutter, setup.kerf) for setup in plan.setups)
    room = scale.room
    return tuple(
        room.text(
            papers.BLADE_KERF, blade=cutter_words(name, plan.shop, room), kerf=scale.told(kerf)
        )
        for name, kerf in kerfs
    )


def _carriers(plan: Plan, scale: Scale) -> tuple[str, ...]:
    room = scale.room
    lines = []
    for name in dict.fromkeys(setup.carrier for setup in plan.setups):
        deck = plan.shop.decks.get(name, Fraction(0))
        line = saws.carrier(name, room).name
        if CARRIERS[name].rides:
            rides = plan.shop.jig_rides
            line = room.text(papers.ON_FENCE if rides == "fence" else papers.IN_SLOT, carrier=line)
        if deck:
            line = room.text(papers.WITH_DECK, carrier=line, deck=scale.told(deck))
        lines.append(capitalised(line))
    return tuple(lines)
