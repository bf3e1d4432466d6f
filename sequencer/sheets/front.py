"""The night-before pages: what to lay out, in what order, and how good the order is."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction
from itertools import groupby

from sequencer.plan import Caution, Door, Part, Plan, Setup, Stick
from sequencer.safety import standing
from sequencer.safety.rules import load
from sequencer.sheets import words
from sequencer.sheets.blocks import Block
from sequencer.sheets.figures import Figure, Scale, minutes, short_minutes
from sequencer.sheets.lanes import lanes
from sequencer.sheets.layouts import leaf_drawing, leaf_scale, stick_drawing, stick_scale
from sequencer.sheets.pieces import Pieces


@dataclass(frozen=True, slots=True)
class DoorLine:
    """One leaf: its mark, what it is, its sizes and gaps in words, and its picture."""

    mark: str
    name: str
    size: tuple[Figure, Figure]
    opening: tuple[Figure, Figure]
    hinge: str
    gaps: str
    face: str
    drawing: str


@dataclass(frozen=True, slots=True)
class StickLine:
    mark: str
    material: str
    blank: tuple[Figure, Figure, Figure]
    size: tuple[Figure, Figure, Figure]
    pieces: tuple[tuple[str, Figure], ...]
    test: bool
    drawing: str


@dataclass(frozen=True, slots=True)
class ScrapLine:
    mark: str
    stick: str
    size: tuple[Figure, Figure, Figure]
    serves: str


@dataclass(frozen=True, slots=True)
class PartLine:
    mark: str
    name: str
    door: str
    material: str
    size: tuple[Figure, Figure, Figure]
    joints: str


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
class Front:
    title: str
    counts: str
    quality: str
    proof: str
    baselines: tuple[BaselineLine, ...]
    methods: tuple[str, ...]
    standing: tuple[Caution, ...]
    before_power: tuple[str, ...]
    before_leaving: tuple[str, ...]
    doors: tuple[DoorLine, ...]
    blades: tuple[str, ...]
    carriers: tuple[str, ...]
    sticks: tuple[StickLine, ...]
    scrap: tuple[ScrapLine, ...]
    parts: tuple[PartLine, ...]
    setups: tuple[SetupLine, ...]
    order: str
    assumptions: tuple[str, ...]
    notes: tuple[str, ...]
    unit: str


def front(plan: Plan, blocks: Sequence[Block], scale: Scale) -> Front:
    pieces = Pieces(plan)
    ordering = plan.ordering
    rules = load()
    return Front(
        title=", ".join(dict.fromkeys(door.name for door in plan.doors)) or "Doors",
        counts=f"{ordering.setups} setups, {minutes(ordering.minutes)} of setting up",
        quality=_quality(plan),
        proof=plan.proven or "",
        baselines=tuple(
            BaselineLine(base.name, minutes(base.minutes), base.setups)
            for base in ordering.baselines
        ),
        methods=_methods(plan),
        standing=standing(),
        before_power=tuple(each.text for each in rules.before_power),
        before_leaving=tuple(each.text for each in rules.before_leaving),
        doors=_doors(plan, scale),
        blades=_blades(plan, scale),
        carriers=_carriers(plan, scale),
        sticks=_sticks(plan, pieces, scale),
        scrap=tuple(
            ScrapLine(
                scrap.mark,
                scrap.stick,
                _size(scrap.size.length, scrap.size.width, scrap.size.thickness, scale),
                words.spoken([str(number) for number in scrap.serves]),
            )
            for scrap in plan.scrap
        ),
        parts=tuple(_part(part, scale) for part in plan.parts),
        setups=_setups(plan, blocks, scale),
        order=lanes(plan),
        assumptions=_assumptions(plan.assumptions),
        notes=plan.notes,
        unit=plan.unit,
    )


def part_joints(part: Part) -> str:
    """A part's joints in words: `slot at A and B; groove`."""
    ends: dict[str, list[str]] = {}
    for feature in part.features:
        at = ends.setdefault(_joint(feature.kind), [])
        if feature.at not in at:
            at.append(feature.at)
    said = []
    for kind, places in ends.items():
        where = [place for place in places if place in ("A", "B")]
        said.append(f"{kind} at {words.spoken(where)}" if where else kind)
    return "; ".join(said)


def _joint(kind: str) -> str:
    return {"cheek": "tenon", "edge-cheek": "tenon cut to width"}.get(kind, kind)


def _size(
    length: Fraction, width: Fraction, thickness: Fraction, scale: Scale
) -> tuple[Figure, Figure, Figure]:
    return scale.figure(length), scale.figure(width), scale.figure(thickness)


def _assumptions(lines: Sequence[str]) -> tuple[str, ...]:
    """Assumptions with what they rest on; the usual basis is named once."""
    usual = " (common practice)"
    common = [line.removesuffix(usual) for line in lines if line.endswith(usual)]
    others = tuple(line for line in lines if not line.endswith(usual))
    return (*others, f"common practice: {'; '.join(common)}") if common else others


def _quality(plan: Plan) -> str:
    ordering = plan.ordering
    if ordering.proven:
        return "Proven: no other order of these cuts takes fewer minutes of setting up."
    text = f"At most {minutes(ordering.minutes - ordering.bound)} above the best possible."
    return f"{text} The search stopped at its limit: {ordering.limit}." if ordering.limit else text


def _methods(plan: Plan) -> tuple[str, ...]:
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
        name = question.replace("_", " ")
        more = method.minutes - chosen.minutes
        cost = (
            f"{'' if method.exact else 'at least '}{minutes(more)} more" if more else "no quicker"
        )
        lines.append(f"{name} {answer} (here {chosen.choices[question]}): {cost}")
    return tuple(lines)


def _doors(plan: Plan, scale: Scale) -> tuple[DoorLine, ...]:
    if not plan.doors:
        return ()
    parts = {part.mark: part for part in plan.parts}
    drawn = leaf_scale(plan, Fraction(150), Fraction(210))
    return tuple(_door(door, parts, drawn, scale) for door in plan.doors)


def _door(door: Door, parts: dict[str, Part], drawn: Fraction, scale: Scale) -> DoorLine:
    gaps = ", ".join(f"{name} {scale.text(gap)}" for name, gap in door.gaps.items())
    face = "looks into the room" if door.face_side == "out" else "looks into the cabinet"
    return DoorLine(
        mark=door.mark,
        name=door.name,
        size=(scale.figure(door.size[0]), scale.figure(door.size[1])),
        opening=(scale.figure(door.opening[0]), scale.figure(door.opening[1])),
        hinge=door.hinge,
        gaps=gaps,
        face=face,
        drawing=leaf_drawing(door, parts, drawn),
    )


def _blades(plan: Plan, scale: Scale) -> tuple[str, ...]:
    kerfs = dict.fromkeys((setup.cutter, setup.kerf) for setup in plan.setups)
    return tuple(f"{words.blade(name)}, kerf {scale.length(kerf)}" for name, kerf in kerfs)


def _carriers(plan: Plan, scale: Scale) -> tuple[str, ...]:
    lines = []
    for name in dict.fromkeys(setup.carrier for setup in plan.setups):
        deck = plan.shop.decks.get(name, Fraction(0))
        line = words.carrier(name)
        if name == "tenoning-jig":
            rides = plan.shop.jig_rides
            line += " on the fence" if rides == "fence" else " in the mitre slot"
        lines.append(f"{line}, deck {scale.length(deck)}" if deck else line)
    return tuple(lines)


def _sticks(plan: Plan, pieces: Pieces, scale: Scale) -> tuple[StickLine, ...]:
    if not plan.sticks:
        return ()
    drawn = stick_scale(plan)
    return tuple(_stick(stick, pieces, drawn, scale) for stick in plan.sticks)


def _stick(stick: Stick, pieces: Pieces, drawn: Fraction, scale: Scale) -> StickLine:
    return StickLine(
        mark=stick.mark,
        material=stick.material,
        blank=_size(stick.blank.length, stick.blank.width, stick.blank.thickness, scale),
        size=_size(stick.size.length, stick.size.width, stick.size.thickness, scale),
        pieces=tuple(
            (piece.mark, scale.figure(pieces.size(piece.mark).length)) for piece in stick.pieces
        ),
        test=stick.test,
        drawing=stick_drawing(stick, pieces, drawn, scale),
    )


def _part(part: Part, scale: Scale) -> PartLine:
    return PartLine(
        mark=part.mark,
        name=part.name,
        door=part.door,
        material=part.material,
        size=_size(part.size.length, part.size.width, part.size.thickness, scale),
        joints=part_joints(part),
    )


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
        carrier=words.SHORT[setup.carrier],
        cutter=words.blade(setup.cutter) if several else "",
        guard="on" if setup.guard == "fitted" else "off",
        guide=None if reading is None else scale.figure(reading),
        knob="" if reading is None else words.guide_knob(setup, plan.shop),
        height=scale.figure(setup.height),
        pieces=str(block.pieces),
        minutes=short_minutes(setup.minutes),
    )
