"""The blocks of the sheets in step order: one a setup, one a bench step, every word decided."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from fractions import Fraction
from itertools import groupby

from sequencer.plan import Checkpoint, Plan, Setup, Step
from sequencer.safety.rules import limits
from sequencer.saw.fittings import CARRIERS
from sequencer.saw.kinds import GUARD_STEPS, KINDS
from sequencer.saw.operation import OperationId
from sequencer.sheets import svg, words
from sequencer.sheets.bench import Table, bench_words, layout_tables, removal_words, resaw_words
from sequencer.sheets.checks import Check, check, in_series
from sequencer.sheets.drawings import setup_drawing
from sequencer.sheets.figures import Figure, Scale, minutes
from sequencer.sheets.mitre import MitreView, hand_of, mitre_drawing
from sequencer.sheets.pieces import Doing, Pieces
from sequencer.sheets.placing import SawView
from sequencer.sheets.season import at_glue_up, at_hanging
from sequencer.sheets.section import Section, toward
from sequencer.sheets.warned import Warned, boxes, to_tick
from sequencer.wording import Room, for_plan, saws
from sequencer.wording.changes import change_words

DIALS = 229
"""Points that the settings have beside the picture."""

BY_GAUGE = "Bevel gauge on the table against the plate, between teeth"
TEST_DECIDES = "Half a degree on the saw's scale shows at the rim: the test cut decides."


@dataclass(frozen=True, slots=True)
class Setting:
    """One number to dial: its knob, the number (`None`: by eye), and what it is made of."""

    name: str
    figure: Figure | None
    note: str


@dataclass(frozen=True, slots=True)
class Chip:
    """A piece, where it comes from, and the letters beside its boxes (an end's, or none)."""

    mark: str
    note: str
    ticks: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Work:
    """What is done alike in one step: how the piece lies, and the pieces."""

    step: int
    verb: str
    how: str
    chips: tuple[Chip, ...]


@dataclass(frozen=True, slots=True)
class Item:
    """One thing of a block, in step order: work or a check."""

    work: Work | None
    check: Check | None


@dataclass(frozen=True, slots=True)
class Turn:
    """A knob to change, or what to confirm; `step` where that is a step of its own (the guard),
    `rule` where it is one of safety that asks for it."""

    step: str
    words: str
    rule: str = ""


@dataclass(frozen=True, slots=True)
class Block:
    """A setup (`number`) or a bench step (`step`)."""

    number: int | None
    step: int | None
    title: str
    carrier: str
    settings: tuple[Setting, ...]
    turns: tuple[Turn, ...]
    lines: tuple[str, ...]
    drawing: str
    warned: Warned
    chips: tuple[Chip, ...]
    items: tuple[Item, ...]
    pieces: int
    minutes: str
    tables: tuple[Table, ...] = ()
    dials: str = ""
    """How the settings stand: side by side, `tight`, or `stacked` where they are too wide."""
    below: tuple[str, ...] = ()
    """Under the picture and the settings, across the page."""


def blocks(plan: Plan, scale: Scale) -> tuple[Block, ...]:
    """All blocks; steps of one setup stand together, as they do in the plan."""
    pieces = Pieces(plan)
    box = boxes(plan)
    made: list[Block] = []
    for number, group in groupby(plan.steps, key=lambda step: step.setup):
        steps = tuple(group)
        if number is None:
            made += [_bench(plan, step, scale) for step in steps]
        else:
            block = _setup(plan, pieces.setups[number], steps, scale, pieces)
            made.append(replace(block, warned=box[number]))
    return tuple(made)


def title(steps: Sequence[Step], room: Room) -> str:
    """What a setup is for: `Slots, widened`."""
    cuts = dict.fromkeys(step.kind for step in steps if KINDS[step.kind].where == "saw")
    kinds = list(cuts) or [steps[0].kind]
    name = words.spoken([saws.title(kind, room) for kind in kinds])
    made = [OperationId.parse(operation) for step in steps for operation in step.operations]
    passes = dict.fromkeys(operation.made_by for operation in made)
    found = [said for each in passes if (said := saws.made_by(each, room))]
    said = ", ".join((name, *_one_end(made), *([words.spoken(found)] if found else [])))
    return said[0].upper() + said[1:]


def _one_end(made: Sequence[OperationId]) -> list[str]:
    """The end that all operations of a setup are at, where they are named by one."""
    ends = {operation.end for operation in made}
    return [f"end {end}" for end in ends if end and len(ends) == 1]


def _setup(
    plan: Plan, setup: Setup, steps: tuple[Step, ...], scale: Scale, pieces: Pieces
) -> Block:
    guard_step = next((str(step.number) for step in steps if step.kind in GUARD_STEPS), "")
    turned = {change.knob for change in setup.changes}
    room = for_plan(plan, "paper")
    lines = []
    if "cutter" not in turned:
        lines.append(words.blade(setup.cutter))
    if "guard" not in turned:
        lines.append(saws.guard(setup.guard, room))
    if setup.guide is not None and setup.reading not in (None, setup.guide):
        lines.append(
            f"fence: {scale.text(setup.guide)} to the blade,"
            f" {scale.text(plan.shop.jig_thickness)} the jig"
        )
    if setup.tilt and "tilt" not in turned:
        lines.append(f"blade leans {saws.leaning(setup.tilt, plan.shop.tilts, room)}, stays")
    if CARRIERS[setup.carrier].slanted:
        lines.append("mirrored pieces lie on the other fence: outside edge behind, end at the stop")
    lines += ["; ".join(map(room.say, setup.saved))] if setup.saved else []
    cutting = [step for step in steps if step.operations]
    made = dict.fromkeys(doing.mark for step in cutting for doing in pieces.doings(step))
    settings = _settings(plan, setup, scale)
    return Block(
        number=setup.number,
        step=None,
        title=title(steps, room),
        carrier=saws.carrier(setup.carrier, room).name,
        settings=settings,
        dials=_dials(settings),
        turns=(
            *(
                Turn(guard_step if change.knob == "guard" else "", change_words(change, plan, room))
                for change in setup.changes
            ),
            *(Turn("", words, rule) for words, rule in to_tick(plan, setup)),
        ),
        lines=tuple(lines),
        drawing=_drawing(plan, setup, steps, scale, pieces),
        warned=(),
        chips=(),
        items=tuple(_items(plan, setup, steps, scale, pieces)),
        pieces=len(made),
        minutes=minutes(setup.minutes),
        below=(_by_gauge(setup.tilt, scale),) if setup.tilt else (),
    )


def _dials(settings: Sequence[Setting]) -> str:
    """Numbers of 46 points side by side, of 38 where they would not go, else one above another."""
    for size, between, name in ((46, 18, ""), (38, 8, "tight")):
        taken = sum((_dialled(each, size) + between for each in settings), Fraction(0))
        if taken <= DIALS:
            return name
    return "stacked"


def _dialled(setting: Setting, size: int) -> Fraction:
    """How wide a number is set; the fraction a little smaller, as the page has it."""
    figure = setting.figure
    if figure is None:
        return svg.text_width("by eye", 30, bold=True)
    wide = svg.text_width(figure.whole, size, bold=True)
    fraction = max(figure.top, figure.bottom, key=len)
    return wide + svg.text_width(fraction, min(size, 38), bold=True)


def _by_gauge(tilt: Fraction, scale: Scale) -> str:
    """How a lean is measured, and why the test cut has the last word."""
    high = Fraction(2) if scale.unit == "in" else Fraction(50)
    over = scale.text(abs(tilt) * high)
    return f"{BY_GAUGE}: {over} over in {scale.length(high)} up. {TEST_DECIDES}"


def _settings(plan: Plan, setup: Setup, scale: Scale) -> tuple[Setting, Setting]:
    turned = {change.knob for change in setup.changes}
    stays = "stays" if "height" not in turned else ""
    height = Setting("height", scale.figure(setup.height), stays)
    if setup.guide is None:
        return Setting("stop", None, ""), height
    knob = CARRIERS[setup.carrier].guide_knob(plan.shop.jig_rides)
    reading = setup.guide if setup.reading is None else setup.reading
    note = "stays" if knob not in turned else ""
    return Setting(saws.knob(knob, for_plan(plan, "paper")), scale.figure(reading), note), height


def _drawing(
    plan: Plan, setup: Setup, steps: tuple[Step, ...], scale: Scale, pieces: Pieces
) -> str:
    doings = [doing for step in steps for doing in pieces.doings(step) if doing.cuts]
    shown = sorted(doings, key=lambda d: (d.operation is None, d.cuts[0].against is None))
    if not shown:
        return ""
    deck = plan.shop.decks.get(setup.carrier, Fraction(0))
    row = CARRIERS[setup.carrier]
    if row.slanted:
        return _on_mitre_sled(setup, shown[0], deck, scale, pieces)
    seen, again, guide = pieces.view(shown[0], setup)
    cut, marked = shown[0].cuts[0], pieces.marked(shown[0].cuts[0].mark)
    side = plan.shop.guide_side(setup.carrier, setup.tilt)
    near = words.SURFACES[marked][toward(cut, pieces.hand(cut.mark), side)]
    if cut.mark in pieces.sticks and near.startswith("end"):
        near = ""  # a stick's ends have no names
    rides = row.guide_knob(plan.shop.jig_rides) != row.knob
    view = SawView(
        setup=setup,
        section=seen,
        again=again,
        by_eye=shown[0].cuts[0].against is None,
        drawn_guide=guide,
        deck=deck,
        guide_name=_surface(plan, setup, seen),
        mark=f"{shown[0].mark}, {pieces.name(shown[0].mark)}",
        behind=plan.shop.jig_thickness if rides else Fraction(0),
        near=f"near: {near}" if near else "",
        marked=marked,
        side=side,
        leans=saws.leaning(setup.tilt, plan.shop.tilts, for_plan(plan, "paper"))
        if setup.tilt
        else "",
    )
    return setup_drawing(view, scale)


def _surface(plan: Plan, setup: Setup, seen: Section) -> str:
    """What the piece bears on; a fence is told to be tall where an ordinary one is too low."""
    stands = CARRIERS[setup.carrier].body == "fence" and seen.sides[2] not in ("face", "back")
    ordinary = limits(plan.unit, {})["ordinary_fence"]
    tall = stands and seen.upright > 2 * ordinary
    return "tall fence" if tall else saws.carrier(setup.carrier, for_plan(plan, "paper")).surface


def _on_mitre_sled(setup: Setup, doing: Doing, deck: Fraction, scale: Scale, pieces: Pieces) -> str:
    mark, cut = doing.cuts[0].mark, doing.cuts[0]
    hand = hand_of(cut, pieces.hand(mark))
    named = f"{mark}, {pieces.name(mark)}"
    view = MitreView(setup, pieces.size(mark), cut, hand, deck, named, pieces.marked(mark))
    return mitre_drawing(view, scale)


def _items(
    plan: Plan, setup: Setup, steps: tuple[Step, ...], scale: Scale, pieces: Pieces
) -> list[Item]:
    """Work and checks in step order; what is measured on the first piece stands after its work."""
    carrier = setup.carrier
    points: dict[int, list[Checkpoint]] = {}
    for point in plan.checkpoints:
        points.setdefault(point.at_step, []).append(point)
    items: list[Item] = []
    for step in steps:
        if step.kind in GUARD_STEPS:
            continue
        found = points.get(step.number, [])
        if not step.operations:
            items.append(_test_cut(step, steps, found, carrier, scale, pieces))
            continue
        works = _works(step, pieces, carrier)
        if found and found[0].before_step == step.number:
            first, *rest = works
            alone = replace(first, chips=first.chips[:1])
            items += [Item(alone, None), Item(None, check(found, "", scale))]
            if first.chips[1:]:
                works = [replace(first, verb="", how="", chips=first.chips[1:]), *rest]
            else:
                works = rest
            found = []
        items += [Item(work, None) for work in works]
        if found:
            items.append(Item(None, check(found, "", scale)))
    return items


def _test_cut(
    step: Step,
    steps: Sequence[Step],
    found: list[Checkpoint],
    carrier: str,
    scale: Scale,
    pieces: Pieces,
) -> Item:
    """A test cut: said in full only where the piece lies otherwise than the work that follows."""
    how = words.passes(step.cuts, carrier, pieces.marked(step.cuts[0].mark))
    after = next((s for s in steps if s.number > step.number and s.operations), None)
    if after is not None:
        first = list(next(groupby(pieces.doings(after), lambda doing: doing.mark))[1])
        if how == _manner(first, carrier, pieces):
            how = "as below"
        elif how == _manner(first[:1], carrier, pieces):
            how = "one end as below"
    how = "; ".join(filter(None, (how, words.on_fresh_wood(step, pieces.steps))))
    if found:
        return Item(None, check(found, how, scale))
    chips = tuple(Chip(mark, "", ("",)) for mark in step.marks)
    return Item(Work(step.number, saws.verb(step.kind, Room("UK")), how, chips), None)


def _works(step: Step, pieces: Pieces, carrier: str) -> list[Work]:
    """A step's pieces, neighbours that lie alike told once."""
    bundles = [
        (mark, list(doings)) for mark, doings in groupby(pieces.doings(step), lambda d: d.mark)
    ]
    works = []
    for how, group in groupby(bundles, key=lambda bundle: _manner(bundle[1], carrier, pieces)):
        chips = tuple(_chip(mark, doings, pieces) for mark, doings in group)
        verb = saws.verb(step.kind, Room("UK"))
        works.append(Work(step.number, verb, how, chips))
    return works


def _manner(doings: Sequence[Doing], carrier: str, pieces: Pieces) -> str:
    """How a piece lies for all its passes; the other end is told by its end alone."""
    said: list[str] = []
    for doing in doings:
        marked = pieces.marked(doing.cuts[0].mark if doing.cuts else doing.mark)
        how = words.passes(doing.cuts, carrier, marked)
        if said and words.without_ends(how) == words.without_ends(said[0]):
            how = words.other_end(carrier)
        if how not in said:
            said.append(how)
    return "; ".join(said)


def _chip(mark: str, doings: Sequence[Doing], pieces: Pieces) -> Chip:
    """Of what comes off a stick, which end is at the stop: opposite hands lie head to tail."""
    source = doings[0].cuts[0].mark if doings[0].cuts else mark
    note = f"from {source}, {words.at_stop(pieces.laid[mark])}" if source != mark else ""
    return Chip(mark, note, tuple(doing.place for doing in doings))


def _bench(plan: Plan, step: Step, scale: Scale) -> Block:
    verb, how = bench_words(step, plan)
    points = [point for point in plan.checkpoints if point.at_step == step.number]
    chips = tuple(Chip(mark, "", ("",)) for mark in step.marks)
    items: list[Item] = []
    # Steps done to one leaf each share their measures; those of other marks stand apart.
    many, rest = in_series(points)
    for _, group in groupby(rest, key=lambda point: point.marks):
        items.append(Item(None, check(list(group), "", scale)))
    if many:
        items.append(Item(None, check(many, "", scale)))
    lines = (
        *((how,) if how else ()),
        *removal_words(step.removes, plan, scale),
        *(resaw_words(step.marks, plan, scale) if step.kind == "mill" else ()),
        *(at_glue_up(plan, step.marks, scale) if step.kind == "glue-up" else ()),
        *(at_hanging(plan, step.marks, scale) if step.kind == "hang" else ()),
    )
    return Block(
        number=None,
        step=step.number,
        title=verb,
        carrier="",
        settings=(),
        turns=(),
        lines=lines,
        drawing="",
        warned=(),
        chips=chips,
        items=tuple(items),
        pieces=len(step.marks),
        minutes="",
        tables=layout_tables(step.removes, plan, scale),
    )
