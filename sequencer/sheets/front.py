"""The night-before pages: what to lay out, in what order, and how good the order is."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction
from itertools import groupby

from sequencer.plan import Caution, Chosen, Method, Plan, Setup
from sequencer.saw import names
from sequencer.saw.fittings import CARRIERS
from sequencer.sheets import words
from sequencer.sheets.blocks import Block
from sequencer.sheets.figures import Figure, Scale
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
from sequencer.sheets.warned import told_in_full
from sequencer.wording import Room, papers
from sequencer.wording.complaints import said
from sequencer.wording.room import capitalised


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
    baselines: tuple[str, ...]
    methods: tuple[str, ...]
    standing: tuple[Caution, ...]
    to_tick: tuple[tuple[str, str], ...]
    warned: tuple[tuple[Caution, str], ...]
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
    ordering, room = plan.ordering, scale.room

    def setups(numbers: Sequence[int]) -> str:
        return papers.setups(numbers, words.runs(numbers), room)

    return Front(
        title=_title(plan),
        counts=room.counted(papers.COUNTS, ordering.setups, minutes=room.minutes(ordering.minutes)),
        quality=_quality(plan, room),
        proof=said(plan.proven or "", room),
        baselines=tuple(
            room.counted(
                papers.BASELINE,
                base.setups,
                name=said(base.name, room),
                minutes=room.minutes(base.minutes),
            )
            for base in ordering.baselines
        ),
        methods=_methods(plan, room),
        standing=plan.standing,
        to_tick=tuple(
            (said(warning.tick, room), setups(warning.setups)) for warning in plan.warnings
        ),
        warned=tuple((each, setups(numbers)) for each, numbers in told_in_full(plan)),
        before_power=tuple(said(line, room) for line in plan.before_power),
        before_leaving=tuple(said(line, room) for line in plan.before_leaving),
        doors=doors(plan, scale),
        blades=_blades(plan, scale),
        carriers=_carriers(plan, scale),
        sticks=sticks(plan, scale),
        scrap=scrap(plan, scale),
        parts=parts(plan, scale),
        pieces=piece_lines(plan, scale),
        seasons=seasons(plan, scale),
        setups=_setups(plan, blocks, scale),
        order=lanes(plan, room),
        why=_why(plan, room),
        assumptions=tuple(room.say(each) for each in plan.assumptions),
        notes=(
            *(capitalised(said(note, room)) for note in plan.notes),
            *_no_year(plan, room),
        ),
        unit=plan.unit,
        again=", ".join(plan.again),
        free=tuple(_free(chosen, plan, scale) for chosen in plan.free),
    )


def _free(chosen: Chosen, plan: Plan, scale: Scale) -> FreeLine:
    """Minutes of the ends beside those of this plan; an end that cannot be made has none."""
    room = scale.room
    told = []
    for end in (chosen.low, chosen.high):
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
        place=chosen.place,
        others="; ".join(told),
    )


def _title(plan: Plan) -> str:
    """The one door's name, or the jobs'."""
    names = list(dict.fromkeys(door.name for door in plan.doors))
    return names[0] if len(names) == 1 else ", ".join(plan.jobs)


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
            "; ".join(said(each, room) for each in setup.why if each not in shared),
        )
        for setup in plan.setups
    ]
    own = tuple((number, reasons) for number, reasons in lines if reasons)
    if not shared:
        return own
    return ((room.text(papers.ALL), "; ".join(said(each, room) for each in shared)), *own)


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
    ordering = plan.ordering
    if ordering.proven:
        return room.text(papers.QUICKEST)
    text = room.text(papers.AT_MOST, minutes=room.minutes(ordering.minutes - ordering.bound))
    if not ordering.limit:
        return text
    return f"{text} {room.text(papers.STOPPED, limit=said(ordering.limit, room))}"


def _methods(plan: Plan, room: Room) -> tuple[str, ...]:
    """What another answer to one question alone would have cost."""
    chosen = next((method for method in plan.methods if method.chosen), None)
    if chosen is None:
        return ()
    lines = []
    for method in plan.methods:
        other = [
            (question, answer)
            for question, answer in method.choices.items()
            if chosen.choices.get(question) != answer
        ]
        if len(other) != 1:
            continue
        question, answer = other[0]
        lines.append(
            room.text(
                papers.OTHER_WAY,
                question=question.replace("_", " "),
                answer=said(answer, room),
                chosen=said(chosen.choices[question], room),
                cost=_cost(method, chosen, room),
            )
        )
    return tuple(lines)


def _cost(method: Method, chosen: Method, room: Room) -> str:
    """By how much it lost. In a job so large that the search is cut short it may not have."""
    more = method.minutes - chosen.minutes
    if method.refused:
        return room.text(papers.UNSAFE)
    if more < 0:
        return room.text(papers.NOT_TRIED, minutes=room.minutes(-more))
    if not more:
        return room.text(papers.NO_QUICKER)
    text = papers.MORE if method.exact else papers.AT_LEAST_MORE
    return room.text(text, minutes=room.minutes(more))


def _blades(plan: Plan, scale: Scale) -> tuple[str, ...]:
    kerfs = dict.fromkeys((setup.cutter, setup.kerf) for setup in plan.setups)
    room = scale.room
    return tuple(
        room.text(papers.BLADE_KERF, blade=words.blade(name, room), kerf=scale.told(kerf))
        for name, kerf in kerfs
    )


def _carriers(plan: Plan, scale: Scale) -> tuple[str, ...]:
    room = scale.room
    lines = []
    for name in dict.fromkeys(setup.carrier for setup in plan.setups):
        deck = plan.shop.decks.get(name, Fraction(0))
        line = names.CARRIERS[name].name
        if CARRIERS[name].rides:
            rides = plan.shop.jig_rides
            line = room.text(papers.ON_FENCE if rides == "fence" else papers.IN_SLOT, carrier=line)
        if deck:
            line = room.text(papers.WITH_DECK, carrier=line, deck=scale.told(deck))
        lines.append(capitalised(line))
    return tuple(lines)


def _setups(plan: Plan, blocks: Sequence[Block], scale: Scale) -> tuple[SetupLine, ...]:
    """A line a setup; bench steps that follow one another share a line."""
    setups = {setup.number: setup for setup in plan.setups}
    several = len({setup.cutter for setup in plan.setups}) > 1
    lines = []
    for number, group in groupby(blocks, key=lambda block: block.number):
        run = list(group)
        if number is None:
            first, last = run[0].step, run[-1].step
            numbers = str(first) if first == last else f"{first}–{last}"
            steps = scale.room.counted(papers.STEPS, len(run), numbers=numbers)
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
        carrier=names.CARRIERS[setup.carrier].short,
        cutter=words.blade(setup.cutter, scale.room) if several else "",
        guard=scale.room.text(papers.GUARD_ON if setup.guard == "fitted" else papers.GUARD_OFF),
        guide=None if reading is None else scale.figure(reading),
        knob="" if reading is None else words.guide_knob(setup, plan.shop),
        height=scale.figure(setup.height),
        pieces=str(block.pieces),
        minutes=papers.short(setup.minutes, scale.room),
    )
