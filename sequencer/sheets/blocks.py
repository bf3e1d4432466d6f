"""The blocks of the sheets in step order: one a setup, one a bench step, every word decided."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction
from itertools import groupby

from sequencer.facts import instructions
from sequencer.instructions import words
from sequencer.instructions.aids import entered, taken_off
from sequencer.instructions.bench import bench_lines, layout_tables
from sequencer.instructions.falling import falling
from sequencer.instructions.figures import Scale
from sequencer.instructions.set_by import how_set
from sequencer.instructions.signs import signs_of
from sequencer.instructions.spent import along
from sequencer.instructions.titles import title
from sequencer.plan import Checkpoint, Plan, Setup, Step
from sequencer.records import replace
from sequencer.saw.fittings import CARRIERS, SPACER
from sequencer.saw.kinds import GUARD_STEPS
from sequencer.sheets.again import after, untold
from sequencer.sheets.block import Block, Chip, Dial, Item, Turn, Work
from sequencer.sheets.checks import by_gap, check, in_series
from sequencer.sheets.pieces import Doing, Pieces
from sequencer.sheets.rounds.at_saw import SMALL, Frame, Picture, Subject
from sequencer.sheets.rounds.walk import moments
from sequencer.sheets.views import drawing_of, drawn_alike
from sequencer.sheets.warned import Warned, bench_boxes, boxes, to_tick
from sequencer.wording import Room, benches, papers, saws
from sequencer.wording.changes import behind_now, between, cutter_words, guarded
from sequencer.wording.instructions import in_turn
from sequencer.wording.tools import SET_BY

BESIDE = Frame(66.0, 30.0, words=True)
"""Of the picture in the round above the flat view, in mm."""

LARGER = Frame(69.0, 45.0, words=True)
"""The same where a page has room."""


def blocks(plan: Plan, scale: Scale) -> tuple[Block, ...]:
    """All blocks; steps of one setup stand together, as they do in the plan."""
    pieces = Pieces(plan)
    box, bench_box = boxes(plan, scale.room), bench_boxes(plan, scale.room)
    shown = moments(plan)
    made: list[Block] = []
    for number, group in groupby(plan.steps, key=lambda step: step.setup):
        steps = tuple(group)
        if number is None:
            for step in steps:
                block = _bench(plan, step, scale, bench_box[step.number])
                made.append(replace(block, items=untold(block.items, made)))
        else:
            block = _setup(plan, pieces.setups[number], steps, scale, pieces)
            block = after(made, replace(block, warned=box[number]), room=scale.room)
            if moment := shown.get(number):
                subject = Subject(plan, moment, scale.room)
                small, large = Picture(subject, SMALL), Picture(subject, BESIDE)
                block = replace(block, small=small, round=large)
            made.append(block)
    return tuple(made)


def larger(block: Block) -> Block:
    """The setup with its picture in the round larger."""
    return (
        block if block.round is None else replace(block, round=Picture(block.round.subject, LARGER))
    )


def _setup(
    plan: Plan, setup: Setup, steps: tuple[Step, ...], scale: Scale, pieces: Pieces
) -> Block:
    room = scale.room
    guard_step = next((str(step.number) for step in steps if step.kind in GUARD_STEPS), "")
    turned = {change.knob for change in setup.changes}
    lines = []
    if "cutter" not in turned and len({each.cutter for each in plan.setups}) > 1:
        lines.append(cutter_words(setup.cutter, plan.shop, room))
    if "guard" not in turned:
        lines.append(guarded(setup.guard, plan.shop, room))
    if setup.stands is not None and setup.along not in (None, setup.stands):
        lines.append(
            room.text(
                papers.THROUGH_JIG,
                distance=scale.told(setup.stands),
                jig=scale.told(plan.shop.jig_thickness),
            )
        )
    behind = between(setup, plan.unit, room)
    if behind and SPACER not in turned:
        lines.append(room.text(papers.STAYS, what=behind))
    if setup.tilt and "tilt" not in turned:
        way = saws.leaning(setup.tilt, plan.shop.tilts, room)
        lines.append(room.text(papers.LEAN_STAYS, way=way))
    if CARRIERS[setup.carrier].slanted:
        lines.append(room.text(papers.MIRRORED))
    if setup.saved:
        lines.append("; ".join(map(room.say, setup.saved)))
    cuts = [cut for step in steps for cut in step.cuts]
    below = [falling(cuts, setup, plan, room)]
    if setup.tilt:
        below.append(_by_gauge(setup.tilt, scale))
    return Block(
        number=setup.number,
        step=None,
        title=title(steps, room),
        carrier=saws.carrier(setup.carrier, room).name,
        settings=_settings(plan, setup, scale),
        turns=(
            *(Turn("", told) for told in taken_off(plan, setup, room)),
            *(
                Turn(guard_step if knob == "guard" else "", told)
                for knob, told in entered(setup.changes, setup, plan, room)
            ),
            *(Turn("", told, rule) for told, rule in to_tick(plan, setup, room)),
        ),
        lines=tuple(lines),
        picture=drawing_of(plan, setup, steps, scale, pieces),
        round=None,
        small=None,
        warned=(),
        chips=(),
        items=tuple(_items(plan, setup, steps, scale, pieces)),
        below=tuple(filter(None, below)),
        signs=signs_of(setup, plan, room),
        alike=drawn_alike(plan, setup, steps, pieces),
        between=behind_now(setup, plan.unit, room),
    )


def _by_gauge(tilt: Fraction, scale: Scale) -> str:
    """How a lean is measured, and why the test cut has the last word."""
    high = Fraction(2) if scale.unit == "in" else Fraction(50)
    over = scale.told(tilt * high)
    return scale.room.text(benches.BY_GAUGE, over=over, high=scale.told(high))


def _settings(plan: Plan, setup: Setup, scale: Scale) -> tuple[Dial, Dial]:
    room = scale.room
    turned = {knob for knob, _ in entered(setup.changes, setup, plan, room)}
    shop = plan.shop

    def note(knob: str) -> str:
        how = how_set(plan, setup, knob) if knob in turned else ""
        return room.text(SET_BY[how]) if how else ""

    height = Dial(
        room.text(papers.BLADE_HEIGHT),
        scale.dial(setup.height_shown, "height"),
        note("height"),
        "height" not in turned,
    )
    if setup.guide is None:
        return Dial(room.text(papers.STOP), None, ""), height
    knob = shop.guide_knob(setup.carrier)
    reading = setup.guide if setup.reading is None else setup.reading
    return Dial(
        saws.knob(knob, room), scale.dial(reading, knob), note(knob), knob not in turned
    ), height


def _items(
    plan: Plan, setup: Setup, steps: tuple[Step, ...], scale: Scale, pieces: Pieces
) -> list[Item]:
    """Work and checks in step order; what is measured on the first piece stands after its work."""
    on = words.Rest.of(setup, plan)
    points: dict[int, list[Checkpoint]] = {}
    for point in words.told_points(plan):
        points.setdefault(point.at_step, []).append(point)
    items: list[Item] = []
    for step in steps:
        if step.kind in GUARD_STEPS:
            continue
        found = points.get(step.number, [])
        if not step.operations:
            items.append(_test_cut(step, steps, found, on, scale, pieces, plan.checkpoints))
            continue
        works = _works(step, pieces, on, scale.room)
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
    on: words.Rest,
    scale: Scale,
    pieces: Pieces,
    checks: Sequence[Checkpoint],
) -> Item:
    """A test cut: said in full only where the piece lies otherwise than the work that follows."""
    how = words.instruction(step.cuts, on, pieces.marked(step.cuts[0].mark))
    after = next((s for s in steps if s.number > step.number and s.operations), None)
    if after is not None:
        first = list(next(groupby(pieces.doings(after), lambda doing: doing.mark))[1])
        if how == _manner(first, on, pieces):
            how = (instructions.SAME_AS_STEP(step=after.number),)
        elif how == _manner(first[:1], on, pieces):
            how = (instructions.ONE_END_AS_STEP(step=after.number),)
    told = in_turn((*how, *words.fresh_wood(step, pieces.steps)), scale.room)
    if found:
        box = check(found, told, scale, checks, along(on.carrier))
        return Item(None, replace(box, once=step.kind == "check cut"))
    chips = tuple(Chip(mark, "", ("",)) for mark in step.marks)
    verb = papers.TEST_CUT if step.kind == "test cut" else papers.CHECK_CUT
    return Item(Work(step.number, scale.room.text(verb), told, chips), None)


def _works(step: Step, pieces: Pieces, on: words.Rest, room: Room) -> list[Work]:
    """A step's pieces, neighbours that lie alike told once."""
    bundles = [
        (mark, list(doings)) for mark, doings in groupby(pieces.doings(step), lambda d: d.mark)
    ]
    works = []
    for how, group in groupby(bundles, key=lambda bundle: _manner(bundle[1], on, pieces)):
        chips = tuple(_chip(mark, doings, pieces, room) for mark, doings in group)
        verb = saws.verb(step.kind, room)
        works.append(Work(step.number, verb, in_turn(how, room), chips))
    return works


def _manner(doings: Sequence[Doing], on: words.Rest, pieces: Pieces) -> words.Instruction:
    """How a piece lies for all its passes; the other end is told by its end alone."""
    told: list[words.Instruction] = []
    alike: list[words.Instruction] = []
    for doing in doings:
        marked = pieces.marked(doing.cuts[0].mark if doing.cuts else doing.mark)
        how = words.instruction(doing.cuts, on, marked)
        alike.append(words.instruction(words.at_a(doing.cuts), on, marked))
        if told and alike[-1] == alike[0]:
            how = (words.other_end(on.carrier),)
        if how not in told:
            told.append(how)
    return tuple(fact for each in told for fact in each)


def _chip(mark: str, doings: Sequence[Doing], pieces: Pieces, room: Room) -> Chip:
    """Of what comes off a stick, which end is at the stop: opposite hands lie head to tail."""
    source = doings[0].cuts[0].mark if doings[0].cuts else mark
    note = ""
    if source != mark:
        note = room.text(papers.FROM_STRIP, strip=source, end=words.stands(pieces.laid[mark]))
    all_of = {"ends": papers.ENDS, "edges": papers.EDGES}
    ticks = tuple(
        room.text(all_of[doing.place]) if doing.place in all_of else doing.place for doing in doings
    )
    return Chip(mark, note, ticks)


def _bench(plan: Plan, step: Step, scale: Scale, warned: Warned) -> Block:
    verb, lines = bench_lines(plan, step, scale)
    points = [
        by_gap(point, plan) for point in words.told_points(plan) if point.at_step == step.number
    ]
    chips = tuple(Chip(mark, "", ("",)) for mark in step.marks)
    items: list[Item] = []
    # Steps done to one leaf each share their measures; those of other marks stand apart.
    many, rest = in_series(points)
    for _, group in groupby(rest, key=lambda point: point.marks):
        items.append(Item(None, check(list(group), "", scale, done_to=step.marks)))
    if many:
        items.append(Item(None, check(many, "", scale, done_to=step.marks)))
    return Block(
        number=None,
        step=step.number,
        title=verb,
        carrier="",
        settings=(),
        turns=(),
        lines=lines,
        picture="",
        round=None,
        small=None,
        warned=warned,
        chips=chips,
        items=tuple(items),
        tables=layout_tables(step.removes, plan, scale),
    )
