"""What stands on each kind of card, every word decided: titles, ways, numbers, checks."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from sequencer.plan import Caution, Checkpoint, Cut, Setup, in_full
from sequencer.saw.fittings import CARRIERS
from sequencer.saw.operation import OperationId
from sequencer.sawside.cards import SPREAD, Card, Unit, tick_name
from sequencer.sawside.corrections import GROWS
from sequencer.sawside.mending import mending, sentence
from sequencer.sawside.state import State
from sequencer.sheets import words
from sequencer.sheets.bench import bench_words, layout_tables, removal_words
from sequencer.sheets.blocks import title
from sequencer.sheets.figures import Figure
from sequencer.sheets.pieces import marked_faces
from sequencer.wording import Room, for_plan, saws
from sequencer.wording.cautions import parts
from sequencer.wording.changes import change_words
from sequencer.wording.measures import measure_words

Json = dict[str, Any]

GUARD_TITLES = {
    "remove guard": "Take the guard off",
    "refit guard": "Put guard and riving knife back on",
}
UNPLUG = "Unplug the saw first."
WARNED = ("guard", "set", "work", "test")
"""The kinds of cards that hands are at the saw for, which warn of all that its setup holds."""


def face(card: Card, place: int, state: State) -> Json:
    """The card that is number `place` of the state's, as the page gets it."""
    return {**_head(card, place, state), **_BODY[card.kind](card, place, state)}


def _head(card: Card, place: int, state: State) -> Json:
    return {
        "k": card.key,
        "kind": card.kind,
        "n": f"{card.numbered} {card.label}" if card.numbered else "",
        "units": [_unit(unit, card, state) for unit in card.units],
        "cautions": _cautions(card, place, state),
        "after": _after(card, place, state),
    }


def _cautions(card: Card, place: int, state: State) -> list[Json]:
    """What a setup's card warns of: in full on its first what was not told before, else in one
    line."""
    if card.setup is None or card.kind not in WARNED:
        return []
    room = for_plan(state.plan, "page")
    before = {id(c.setup): c.setup for c in state.cards[:place] if c.setup is not None}
    if id(card.setup) in before:
        return [_again(each, room) for each in card.setup.cautions]
    full = in_full((*before.values(), card.setup), state.plan.standing)[-1]
    return [
        _in_full(each, room) if whole else _again(each, room)
        for each, whole in zip(card.setup.cautions, full, strict=True)
    ]


def _in_full(caution: Caution, room: Room) -> Json:
    said = parts(room, caution)
    return {"rule": caution.rule, "word": caution.word, "hazard": said.hazard,
            "consequence": said.consequence, "avoidance": said.avoidance}  # fmt: skip


def _again(caution: Caution, room: Room) -> Json:
    return {"rule": caution.rule, "word": caution.word, "hazard": parts(room, caution).brief}


def _after(card: Card, place: int, state: State) -> list[str]:
    """The cards before power, since the saw was last set, without which no cut is shown."""
    if card.kind not in ("work", "test"):
        return []
    found: list[str] = []
    for other in reversed(state.cards[:place]):
        if other.kind == "set":
            break
        if other.kind == "power":
            found.insert(0, other.key)
    return found


def _unit(unit: Unit, card: Card, state: State) -> Json:
    tick = next((tick for tick in card.ticks if tick_name(tick) == unit.name), None)
    if tick is not None:
        says = for_plan(state.plan, "page").sentence(tick.tick)
        return {"u": unit.name, "of": "", "says": says, "rule": tick.caution.rule}
    if unit.point is None:
        return {"u": unit.name, "of": unit.of}
    room = for_plan(state.plan, "page")
    measure = measure_words(card.points[unit.point].measure, room)
    if unit.of in SPREAD:
        says = f"thickness of stock {unit.point + 1} at its {unit.of}"
    else:
        says = f"{measure}, {unit.of}" if unit.of else measure
    return {"u": unit.name, "of": unit.of, "p": unit.point, "says": says}


def _guard(card: Card, _place: int, state: State) -> Json:
    kind = card.step.kind if card.step else ""
    setup = card.setup
    how = [UNPLUG]
    if setup is not None:
        how.append(sentence(saws.guard(setup.guard, for_plan(state.plan, "page"))))
        if setup.guard == "cover" and state.plan.shop.cover:
            how.append(f"Over the blade instead: {state.plan.shop.cover}.")
    return {"title": GUARD_TITLES.get(kind, kind), "how": how}


def _standing(_card: Card, _place: int, state: State) -> Json:
    room = for_plan(state.plan, "page")
    return {
        "title": "What always holds",
        "cautions": [_in_full(each, room) for each in state.plan.standing],
    }


def _set(card: Card, place: int, state: State) -> Json:
    setup = card.setup
    assert setup is not None
    scale = state.scale
    steps = [
        c.step for c in state.cards[place:] if c.setup is setup and c.step and c.kind == "work"
    ]
    guarded = place > 0 and state.cards[place - 1].kind == "guard"
    changes = [
        change_words(c, state.plan, for_plan(state.plan, "page"))
        for c in setup.changes
        if not (guarded and c.knob == "guard")
    ]
    return {
        "title": title(steps, for_plan(state.plan, "page")) if steps else "Set the saw",
        "moves": [sentence(change) for change in changes],
        "big": _big(setup, state),
        "how": [f"{sentence(words.blade(setup.cutter))[:-1]}, kerf {scale.length(setup.kerf)}.",
                sentence(saws.guard(setup.guard, for_plan(state.plan, "page")))],
        "drawing": True,
        "before": setup.number,
    }  # fmt: skip


def _big(setup: Setup, state: State) -> list[Json]:
    """The numbers that are read from across the saw: guide, height, and how the blade leans."""
    found = []
    reading = setup.guide if setup.reading is None else setup.reading
    if reading is not None:
        knob = saws.knob(
            CARRIERS[setup.carrier].guide_knob(state.plan.shop.jig_rides),
            for_plan(state.plan, "page"),
        )
        note = ""
        if setup.guide is not None and reading != setup.guide:
            rest = state.scale.text(reading - setup.guide)
            note = f"{state.scale.text(setup.guide)} and {rest} for the jig"
        found.append({"name": knob, **_figure(state.scale.figure(reading)), "note": note})
    room = for_plan(state.plan, "page")
    lean = saws.leaning(setup.tilt, state.plan.shop.tilts, room) if setup.tilt else ""
    leans = f"blade leans {lean}" if lean else ""
    found.append({"name": "height", **_figure(state.scale.figure(setup.height)), "note": leans})
    return found


def _figure(figure: Figure) -> Json:
    return {"whole": figure.whole, "top": figure.top, "bottom": figure.bottom,
            "decimal": figure.decimal, "unit": figure.unit}  # fmt: skip


def _power(_card: Card, _place: int, state: State) -> Json:
    room = for_plan(state.plan, "page")
    return {"title": "Before power on", "checks": [room.say(c) for c in state.plan.before_power]}


def _leave(card: Card, place: int, state: State) -> Json:
    marks: dict[str, None] = {}
    tested = False
    for other in state.cards[:place]:
        if other.setup is card.setup:
            tested = tested or other.kind == "test"
            if other.kind == "work":
                marks |= dict.fromkeys(unit.of for unit in other.units if unit.operations)
    checks = [f"Pieces counted: {len(marks)} ({', '.join(marks)})"] if marks else []
    if tested:
        checks.append("Test cut measured and entered")
    return {
        "title": "Before you leave this setup",
        "checks": [*checks, *map(for_plan(state.plan, "page").say, state.plan.before_leaving)],
    }


def _work(card: Card, _place: int, state: State) -> Json:
    step, setup = card.step, card.setup
    assert step is not None
    assert setup is not None
    marked = marked_faces(state.plan)
    each = len(step.cuts) // max(len(step.operations), 1)
    by_unit: dict[str, list[Cut]] = {}
    ways: dict[str, list[str]] = {}
    for unit in card.units:
        for operation in unit.operations:
            n = step.operations.index(operation)
            cuts = step.cuts[n * each : (n + 1) * each]
            by_unit.setdefault(unit.name, []).extend(cuts)
            face = marked.get(cuts[0].mark, "face") if cuts else "face"
            way = words.passes(cuts, setup.carrier, face)
            said = ways.setdefault(unit.name, [])
            if said and words.without_ends(way) == words.without_ends(said[0]):
                way = "then the other end the same way"
            if way not in said:
                said.append(way)
    manners = {name: "; ".join(said) for name, said in ways.items()}
    one = len(set(manners.values())) == 1
    how = [sentence(next(iter(manners.values())))] if one else []
    notes = {name: ("" if one else manners[name]) for name in manners}
    return {
        "title": _work_title(card),
        "how": how,
        "notes": {name: _note(name, notes[name], by_unit[name], state) for name in notes},
        "points": [_point(point, state) for point in card.points],
        "drawing": True,
        "before": setup.number,
        "big": _big(setup, state),
    }


def _work_title(card: Card) -> str:
    assert card.step is not None
    verb = saws.verb(card.step.kind, Room("UK"))
    ends = {OperationId.parse(o).end for o in card.step.operations} - {""}
    return f"{verb}, end {next(iter(ends))}" if len(ends) == 1 else verb


def _note(mark: str, way: str, cuts: Sequence[Cut], state: State) -> str:
    """What piece it is, where it comes from, how many passes."""
    part = next((part for part in state.plan.parts if part.mark == mark), None)
    scrap = any(piece.mark == mark for piece in state.plan.scrap)
    said = [part.name if part else "test piece" if scrap else ""]
    sources = dict.fromkeys(cut.mark for cut in cuts if cut.mark != mark)
    laid = {piece.mark: piece for stick in state.plan.sticks for piece in stick.pieces}
    said += [f"from {source}, {words.at_stop(laid[mark])}" for source in sources]
    if len(cuts) > 1:
        said.append(f"{len(cuts)} passes")
    said.append(way)
    return ", ".join(each for each in said if each)


def _test(card: Card, _place: int, state: State) -> Json:
    step, setup = card.step, card.setup
    assert step is not None
    assert setup is not None
    marked = marked_faces(state.plan).get(step.marks[0] if step.marks else "", "face")
    way = words.passes(step.cuts, setup.carrier, marked)
    how = [sentence(way)] if way else []
    fresh = words.on_fresh_wood(step, state.plan.steps)
    if fresh:
        how.insert(0, sentence(fresh))
    dado = state.base.choices.dado
    if dado is not None and setup.cutter == dado.name:
        how.append(
            f"Measure how wide the {dado.name} cuts, too: enter it as its kerf (List, Measure kerf "
            "or panel), and the tenons follow it."
        )
    return {
        "title": f"Test cut on {', '.join(step.marks)}",
        "how": how,
        "points": [_point(point, state) for point in card.points],
        "drawing": True,
        "before": setup.number,
        "big": _big(setup, state),
    }


def _bench(card: Card, _place: int, state: State) -> Json:
    step = card.step
    assert step is not None
    verb, how = bench_words(step, state.plan)
    lines = [how] if how else []
    lines += removal_words(step.removes, state.plan, state.scale)
    for table in layout_tables(step.removes, state.plan, state.scale):
        lines.append(f"{sentence(table.title)[:-1]}, marks to lay out:")
        for row in table.rows:
            marks = zip(row, table.columns, strict=True)
            lines.append(", ".join(f"{value} {column}" for value, column in marks))
    notes: dict[str, str] = {}
    if step.kind == "mill":
        pieces = [unit.name for unit in card.units if unit.point is None]
        for name, point in zip(pieces, card.points, strict=False):
            notes[name] = f"{state.scale.length(point.target)}: {', '.join(point.marks)}"
    return {
        "title": verb,
        "how": lines,
        "notes": notes,
        "points": [_point(point, state) for point in card.points],
    }


def _point(point: Checkpoint, state: State) -> Json:
    low, high = state.scale.window(point.low, point.high)
    return {
        "name": measure_words(point.measure, for_plan(state.plan, "page")),
        "target": state.scale.decimal(point.target),
        "figure": _figure(state.scale.figure(point.target)),
        "low": low,
        "high": high,
        "feel": for_plan(state.plan, "page").sentence(point.feel),
        "felt": point.measure.what in GROWS and point.knob is not None,
        "turns": point.knob is not None,
    }


_BODY = {
    "standing": _standing,
    "guard": _guard,
    "set": _set,
    "power": _power,
    "work": _work,
    "test": _test,
    "leave": _leave,
    "bench": _bench,
    "remake": mending,
}
