"""The night-before pages: what to lay out, in what order, and how good the order is."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction
from itertools import groupby

from sequencer.facts import Fact, claims, methods
from sequencer.plan import Chosen, Compared, Plan, Setup
from sequencer.saw.fittings import CARRIERS
from sequencer.sheets import words
from sequencer.sheets.blocks import Block
from sequencer.sheets.figures import Figure, Scale, minutes, short_minutes
from sequencer.sheets.lanes import lanes
from sequencer.sheets.outline import PieceLine, piece_lines
from sequencer.sheets.season import SeasonLine, seasons
from sequencer.sheets.stock import (
    DoorLine,
    PartLine,
    ScrapLine,
    StickLine,
    doors,
    parts,
    scrap,
    sticks,
)
from sequencer.sheets.warned import Line, standing
from sequencer.wording import Room, for_plan, saws


@dataclass(frozen=True, slots=True)
class SetupLine:
    """A row of the order: a setup, or what is done at the bench between two."""

    number: str
    title: str
    carrier: str
    cutter: str
    guard: str
    guide: Figure | None
    knob: str
    height: Figure | None
    pieces: str
    minutes: str


@dataclass(frozen=True, slots=True)
class BaselineLine:
    name: str
    minutes: str
    setups: int


@dataclass(frozen=True, slots=True)
class FreeLine:
    """A dimension that the job leaves free: what this plan took, of what range, where the job says
    so, and what the ends would have cost."""

    name: str
    value: Figure
    low: str
    high: str
    place: str
    others: str


@dataclass(frozen=True, slots=True)
class Front:
    title: str
    counts: str
    quality: str
    proof: str
    baselines: tuple[BaselineLine, ...]
    methods: tuple[str, ...]
    standing: tuple[tuple[str, Line], ...]
    to_tick: tuple[tuple[str, str], ...]
    before_power: tuple[str, ...]
    before_leaving: tuple[str, ...]
    doors: tuple[DoorLine, ...]
    blades: tuple[str, ...]
    carriers: tuple[str, ...]
    sticks: tuple[StickLine, ...]
    scrap: tuple[ScrapLine, ...]
    parts: tuple[PartLine, ...]
    pieces: tuple[PieceLine, ...]
    seasons: tuple[SeasonLine, ...]
    setups: tuple[SetupLine, ...]
    order: str
    why: tuple[tuple[str, str], ...]
    assumptions: tuple[str, ...]
    notes: tuple[str, ...]
    unit: str
    again: str
    free: tuple[FreeLine, ...]


def front(plan: Plan, blocks: Sequence[Block], scale: Scale) -> Front:
    ordering, room = plan.ordering, for_plan(plan, "paper")
    return Front(
        title=_title(plan),
        counts=f"{ordering.setups} setups, {minutes(ordering.minutes)} of setting up",
        quality=_quality(plan),
        proof=" ".join(room.sentence(shown) for shown in plan.proven),
        baselines=tuple(
            BaselineLine(room.term(f"baseline.{base.name}"), minutes(base.minutes), base.setups)
            for base in ordering.baselines
        ),
        methods=_methods(plan),
        standing=standing(plan.standing, room),
        to_tick=tuple((room.say(each.tick), words.setups(each.setups)) for each in plan.warnings),
        before_power=tuple(room.say(check) for check in plan.before_power),
        before_leaving=tuple(room.say(check) for check in plan.before_leaving),
        doors=doors(plan, scale),
        blades=_blades(plan, scale),
        carriers=_carriers(plan, scale),
        sticks=sticks(plan, scale),
        scrap=scrap(plan, scale),
        parts=parts(plan, scale),
        pieces=piece_lines(plan, scale),
        seasons=seasons(plan, scale),
        setups=_setups(plan, blocks, scale),
        order=lanes(plan),
        why=_why(plan),
        assumptions=_assumptions(plan),
        notes=(*map(for_plan(plan, "paper").say, plan.notes), *_no_year(plan)),
        unit=plan.unit,
        again=", ".join(plan.again),
        free=tuple(_free(chosen, plan, scale) for chosen in plan.free),
    )


def _free(chosen: Chosen, plan: Plan, scale: Scale) -> FreeLine:
    """Minutes of the ends beside those of this plan; an end that cannot be made has none."""
    told = []
    for end in (chosen.low, chosen.high):
        cost = chosen.others.get(str(end))
        if end == chosen.value:
            continue
        if cost is None:
            told.append(f"{scale.text(end)} cannot be made")
        else:
            more = cost - plan.ordering.minutes
            extra = f"{minutes(more)} more" if more > 0 else "no quicker"
            told.append(f"{scale.text(end)}: {extra}")
    return FreeLine(
        name=Room(plan.shop.words).term(chosen.key),
        value=scale.figure(chosen.value),
        low=scale.text(chosen.low),
        high=scale.text(chosen.high),
        place=chosen.place,
        others="; ".join(told),
    )


def _title(plan: Plan) -> str:
    """The one door's name, or the jobs'."""
    names = list(dict.fromkeys(door.name for door in plan.doors))
    return names[0] if len(names) == 1 else ", ".join(plan.jobs)


def _why(plan: Plan) -> tuple[tuple[str, str], ...]:
    """Each setup's reasons; those that all of them share are said once, first."""
    reasons = [setup.why for setup in plan.setups if setup.why]
    if not reasons:
        return ()
    shared = [each for each in reasons[0] if all(each in others for others in reasons)]
    shared = shared if len(reasons) > 1 else []
    room = for_plan(plan, "paper")
    lines = [
        (str(setup.number), "; ".join(room.say(each) for each in setup.why if each not in shared))
        for setup in plan.setups
    ]
    own = tuple((number, said) for number, said in lines if said)
    return (("All", "; ".join(map(room.say, shared))), *own) if shared else own


def _assumptions(plan: Plan) -> tuple[str, ...]:
    room = Room(plan.shop.words, "paper", plan.shop.graduation)
    return tuple(room.say(each) for each in plan.assumptions)


NO_YEAR = (
    "no moisture and no room is told of ([wood] and [room]), so how far the wood swells and shrinks"
    " was not computed: its gaps are the job's own, or the usual ones"
)


def _no_year(plan: Plan) -> tuple[str, ...]:
    """One line for the leaves whose year is not told of, so that nobody takes their gaps for
    computed."""
    told = {season.door for season in plan.seasons}
    silent = [door.mark for door in plan.doors if door.mark not in told]
    if not silent:
        return ()
    leaves = "" if len(silent) == len(plan.doors) else f"Leaf {', '.join(silent)}: "
    return (f"{leaves}{NO_YEAR}"[0].upper() + f"{leaves}{NO_YEAR}"[1:],)


def _quality(plan: Plan) -> str:
    """How good the order is, of all that was compared, and what was not looked at."""
    ordering = plan.ordering
    room = for_plan(plan, "paper")
    ways = sum(not each.refused for each in ordering.compared)
    above = ordering.minutes - ordering.bound
    if ways > 1:
        of_ways = claims.AT_MOST_OF_WAYS(above=above, ways=ways)
        best = claims.PROVEN_OF_WAYS(ways=ways) if ordering.proven else of_ways
    else:
        best = claims.PROVEN() if ordering.proven else claims.AT_MOST(above=above)
    said = [room.sentence(best)]
    if ordering.limit:
        limit = room.term(f"limit.{ordering.limit}")
        said.append(f"The search stopped at its limit: {limit}.")
    said += [room.sentence(each) for each in ordering.left_out]
    return " ".join(said)


def _methods(plan: Plan) -> tuple[str, ...]:
    """What another answer to one question alone would have cost, as it was compared: before any
    order got the further test pieces that it alone needs."""
    answers = plan.answers
    here = next((way.minutes for way in plan.ordering.compared if way.choices == answers), None)
    if here is None:
        return ()
    room = for_plan(plan, "paper")
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
    if more:
        return claims.MORE_AS_ORDERED(more=more, less=-least)
    return claims.NO_QUICKER_AS_ORDERED(less=-least)


def _blades(plan: Plan, scale: Scale) -> tuple[str, ...]:
    kerfs = dict.fromkeys((setup.cutter, setup.kerf) for setup in plan.setups)
    return tuple(f"{words.blade(name)}, kerf {scale.length(kerf)}" for name, kerf in kerfs)


def _carriers(plan: Plan, scale: Scale) -> tuple[str, ...]:
    lines = []
    for name in dict.fromkeys(setup.carrier for setup in plan.setups):
        deck = plan.shop.decks.get(name, Fraction(0))
        line = saws.carrier(name, for_plan(plan, "paper")).name
        if CARRIERS[name].rides:
            rides = plan.shop.jig_rides
            line += " on the fence" if rides == "fence" else " in the mitre slot"
        lines.append(f"{line}, deck {scale.length(deck)}" if deck else line)
    return tuple(lines)


def _setups(plan: Plan, blocks: Sequence[Block], scale: Scale) -> tuple[SetupLine, ...]:
    """A line a setup; bench steps that follow one another share a line."""
    setups = {setup.number: setup for setup in plan.setups}
    several = len({setup.cutter for setup in plan.setups}) > 1
    lines = []
    for number, group in groupby(blocks, key=lambda block: block.number):
        run = list(group)
        if number is None:
            steps = words.steps(run[0].step, run[-1].step)
            titles = "; ".join(block.title for block in run)
            lines.append(SetupLine(steps, titles, "", "", "", None, "", None, "", ""))
        else:
            lines.append(_setup(plan, setups[number], run[0], several, scale))
    return tuple(lines)


def _setup(plan: Plan, setup: Setup, block: Block, several: bool, scale: Scale) -> SetupLine:
    reading = setup.guide if setup.reading is None else setup.reading
    return SetupLine(
        number=str(setup.number),
        title=block.title,
        carrier=saws.carrier(setup.carrier, for_plan(plan, "paper")).short,
        cutter=words.blade(setup.cutter) if several else "",
        guard="on" if setup.guard == "fitted" else "off",
        guide=None if reading is None else scale.figure(reading),
        knob="" if reading is None else words.guide_knob(setup, plan.shop),
        height=scale.figure(setup.height),
        pieces=str(block.pieces),
        minutes=short_minutes(setup.minutes),
    )
