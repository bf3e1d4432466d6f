"""What stands on each kind of card, as facts and numbers: titles, ways, checks."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Literal

from sequencer.facts import Fact, Length, Words, answers, cards
from sequencer.instructions.set_by import how_set
from sequencer.instructions.signs import PICTOGRAMS, signs_of
from sequencer.instructions.words import marked_faces
from sequencer.plan import Caution, Cut, Plan, Setup, in_full
from sequencer.saw.operation import OperationId
from sequencer.sawside import instructed
from sequencer.sawside.cards import SPREAD, Card, Unit, named, tick_name
from sequencer.sawside.mending import mending
from sequencer.sawside.points import Face, figure_face, point_face
from sequencer.sawside.state import State
from sequencer.wording import Room
from sequencer.wording.cautions import parts

Shape = tuple[tuple[object, ...], ...]

GUARD_TITLES = {"remove guard": cards.GUARD_OFF, "refit guard": cards.GUARD_ON}
WARNED = ("guard", "set", "work", "test")
"""The kinds of cards that hands are at the saw for, which warn of all that its setup holds and show
what covers the blade."""


def face(card: Card, place: int, state: State, room: Room) -> Face:
    """The card that is number `place` of the state's; `room` is for what other rooms say."""
    body = _BODY[card.kind](card, place, state, room)
    at = card.at
    row = body["title"] if at is None else cards.HEADING(at=at, title=body["title"])
    return {**_head(card, place, state, room), **body, "heading": row, "row": row}


def _head(card: Card, place: int, state: State, room: Room) -> Face:
    setup = card.setup if card.kind in WARNED else None
    return {
        "k": card.key,
        "kind": card.kind,
        "n": card.at or "",
        "units": [_unit(unit, card) for unit in card.units],
        "cautions": _cautions(card, place, state, room),
        "after": _after(card, place, state),
        "signs": [
            {"path": path, "words": Words(words)}
            for path, words in (signs_of(setup, state.plan, room) if setup else ())
        ],
    }


def _cautions(card: Card, place: int, state: State, room: Room) -> list[Face]:
    """What a setup's card or a bench step's warns of: in full on its first what was not told
    before, else in one line."""
    own = card.setup or card.step
    if own is None or (card.setup and card.kind not in WARNED):
        return []
    warners = (other.setup or other.step for other in state.cards[:place])
    before = {id(each): each.cautions for each in warners if each is not None}
    if id(own) in before:
        return [_again(each, room) for each in own.cautions]
    full = in_full((*before.values(), own.cautions), state.plan.standing)[-1]
    return [
        _in_full(each, room) if whole else _again(each, room)
        for each, whole in zip(own.cautions, full, strict=True)
    ]


def _in_full(caution: Caution, room: Room) -> Face:
    said = parts(room, caution)
    return {
        **_again(caution, room),
        "hazard": Words(said.hazard),
        "consequence": Words(said.consequence),
        "avoidance": Words(said.avoidance),
    }


def _again(caution: Caution, room: Room) -> Face:
    return {
        "rule": caution.rule,
        "word": caution.word,
        "called": answers.A_TERM(term=f"signal.{caution.word}"),
        "sign": PICTOGRAMS.get(caution.rule, ""),
        "hazard": Words(parts(room, caution).brief),
    }


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


def _unit(unit: Unit, card: Card) -> Face:
    about: Face = {"u": unit.name, "of": unit.of}
    tick = next((tick for tick in card.ticks if tick_name(tick) == unit.name), None)
    if tick is not None:
        return {**about, "tick": tick.tick, "rule": tick.caution.rule}
    if unit.point is None:
        return {**about, "name": named(unit.of)}
    says = instructed.measured(card.points[unit.point].measure)
    if unit.of in SPREAD:
        says = cards.STOCK_AT(number=str(unit.point + 1), at=unit.of)
    elif unit.of:
        says = cards.MEASURE_OF(measure=says, mark=unit.of)
    return {**about, "p": unit.point, "says": says, "spread": unit.of in SPREAD}


def _guard(card: Card, _place: int, state: State, room: Room) -> Face:
    kind = card.step.kind if card.step else ""
    setup = card.setup
    how: list[Fact | Words] = [cards.UNPLUG()]
    if setup is not None:
        how.append(instructed.guard(setup, state.plan, room))
    title = GUARD_TITLES[kind]() if kind in GUARD_TITLES else instructed.verb(kind, room)
    return {"title": title, "how": how}


def _standing(_card: Card, _place: int, state: State, room: Room) -> Face:
    return {
        "title": cards.ALWAYS(),
        "cautions": [_in_full(each, room) for each in state.plan.standing],
    }


def _set(card: Card, place: int, state: State, room: Room) -> Face:
    setup = card.setup
    assert setup is not None
    steps = [
        c.step for c in state.cards[place:] if c.setup is setup and c.step and c.kind == "work"
    ]
    guarded = place > 0 and state.cards[place - 1].kind == "guard"
    changes = [c for c in setup.changes if not (guarded and c.knob == "guard")]
    moves = instructed.moves(changes, setup, state.plan, room)
    return {
        "title": instructed.title(steps, room) if steps else cards.SET_THE_SAW(),
        "moves": moves,
        "big": _big(setup, state, room),
        "how": [
            cards.BLADE_AND_KERF(
                blade=instructed.blade(setup.cutter, state.plan, room),
                kerf=Length(setup.kerf, state.plan.unit),
            ),
            instructed.guard(setup, state.plan, room),
        ],
        "drawing": _drawing(setup, state),
        "before": setup.number,
    }


def _big(setup: Setup, state: State, room: Room) -> list[Face]:
    """The numbers that are read from across the saw: guide, height, and how the blade leans."""
    found, unit = [], state.plan.unit
    reading = setup.guide if setup.reading is None else setup.reading
    shop = state.plan.shop
    knob = shop.guide_knob(setup.carrier)
    if reading is not None:
        note: Fact | None = None
        stands = setup.stands
        if stands is not None and setup.along not in (None, stands):
            jig = Length((setup.along or stands) - stands, unit)
            note = cards.JIG_RIDES(setting=Length(stands, unit), jig=jig)
        note = _how(state.plan, setup, knob, note)
        figure = figure_face(state.scale.dial(reading, knob))
        found.append(
            {"name": instructed.guide(setup, state.plan, room), **figure, "note": note or ""}
        )
    leans: Fact | None = None
    if setup.tilt:
        leans = cards.LEANS(how=instructed.leaning(setup.tilt, shop.tilts, room))
    leans = _how(state.plan, setup, "height", leans)
    figure = figure_face(state.scale.dial(setup.height_shown, "height"))
    found.append({"name": cards.HEIGHT(), **figure, "note": leans or ""})
    return found


def _how(plan: Plan, setup: Setup, knob: str, note: Fact | None) -> Fact | None:
    """What stands beside a number: also how it is set, where the large figure is not enough."""
    how = how_set(plan, setup, knob)
    if not how:
        return note
    said = cards.SET_HOW(how=f"set-by.{how}")
    return said if note is None else cards.BOTH(first=note, second=said)


def _power(_card: Card, _place: int, state: State, _room: Room) -> Face:
    return {"title": cards.BEFORE_POWER(), "checks": list(state.plan.before_power)}


def _leave(card: Card, place: int, state: State, _room: Room) -> Face:
    marks: dict[str, None] = {}
    tested = False
    for other in state.cards[:place]:
        if other.setup is card.setup:
            tested = tested or other.kind == "test"
            if other.kind == "work":
                marks |= dict.fromkeys(unit.of for unit in other.units if unit.operations)
    checks = [cards.COUNTED(n=len(marks), marks=tuple(marks))] if marks else []
    if tested:
        checks.append(cards.TESTED())
    return {
        "title": cards.BEFORE_LEAVING(),
        "checks": [*checks, *state.plan.before_leaving],
    }


def _work(card: Card, _place: int, state: State, room: Room) -> Face:
    step, setup = card.step, card.setup
    assert step is not None
    assert setup is not None
    marked = marked_faces(state.plan)
    each = len(step.cuts) // max(len(step.operations), 1)
    by_unit: dict[str, list[Cut]] = {}
    ways: dict[str, list[tuple[Shape, Fact | Words]]] = {}
    for unit in card.units:
        for operation in unit.operations:
            n = step.operations.index(operation)
            cuts = step.cuts[n * each : (n + 1) * each]
            by_unit.setdefault(unit.name, []).extend(cuts)
            face = marked.get(cuts[0].mark, "face") if cuts else "face"
            shape = _shape(cuts)
            way: Fact | Words | None = instructed.way(cuts, setup, state.plan, face, room)
            said = ways.setdefault(unit.name, [])
            if said and shape == said[0][0]:
                way = cards.OTHER_END()
            if way is not None and way not in [each for _, each in said]:
                said.append((shape, way))
    manners = {name: tuple(way for _, way in said) for name, said in ways.items()}
    one = len(set(manners.values())) == 1
    how = list(next(iter(manners.values()))) if one else []
    loose = instructed.falling(step.cuts, setup, state.plan, room)
    between = instructed.between(setup, state.plan, room)
    how += [each for each in (between, loose) if each is not None]
    notes = {name: (() if one else manners[name]) for name in manners}
    return {
        "title": _work_title(card, room),
        "how": how,
        "notes": {name: _note(name, notes[name], by_unit[name], state, room) for name in notes},
        "points": [point_face(point, card, state, room) for point in card.points],
        "drawing": _drawing(setup, state),
        "before": setup.number,
        "big": _big(setup, state, room),
    }


def _drawing(setup: Setup, state: State) -> str:
    """The card that the setup's drawing goes by: the first of its cards."""
    return next(card.key for card in state.cards if card.setup is setup)


def _shape(cuts: Sequence[Cut]) -> Shape:
    """How the passes lie, either end being like the other."""
    return tuple(
        (_one_end(cut.down), _one_end(cut.against), cut.keeps, bool(cut.sweep), cut.back is None)
        for cut in cuts
    )


def _one_end(side: str | None) -> str | None:
    return "end" if side in ("end-A", "end-B") else side


def _work_title(card: Card, room: Room) -> Fact | Words:
    assert card.step is not None
    verb = instructed.verb(card.step.kind, room)
    ends = {OperationId.parse(o).end for o in card.step.operations} - {""}
    return cards.AT_END(verb=verb, end=next(iter(ends))) if len(ends) == 1 else verb


def _note(
    mark: str, way: tuple[Fact | Words, ...], cuts: Sequence[Cut], state: State, room: Room
) -> Fact | Literal[""]:
    """What piece it is, where it comes from, how many passes."""
    part = next((part for part in state.plan.parts if part.mark == mark), None)
    scrap = any(piece.mark == mark for piece in state.plan.scrap)
    said: list[Fact | Words] = []
    if part or scrap:
        said.append(part.name if part else cards.TEST_PIECE())
    sources = dict.fromkeys(cut.mark for cut in cuts if cut.mark != mark)
    laid = {piece.mark: piece for stick in state.plan.sticks for piece in stick.pieces}
    said += [
        cards.FROM_STRIP(strip=source, how=instructed.at_stop(laid[mark], room))
        for source in sources
    ]
    if len(cuts) > 1:
        said.append(cards.PASSES(n=len(cuts)))
    said += way
    return cards.IN_ONE_LINE(parts=tuple(said)) if said else ""


def _test(card: Card, _place: int, state: State, room: Room) -> Face:
    step, setup = card.step, card.setup
    assert step is not None
    assert setup is not None
    marked = marked_faces(state.plan).get(step.marks[0] if step.marks else "", "face")
    fresh = instructed.on_fresh_wood(step, state.plan.steps, room)
    way = instructed.way(step.cuts, setup, state.plan, marked, room)
    loose = instructed.falling(step.cuts, setup, state.plan, room)
    between = instructed.between(setup, state.plan, room)
    how: list[Fact | Words] = [each for each in (fresh, way, between, loose) if each is not None]
    dado = state.base.choices.dado
    if dado is not None and setup.cutter == dado.name:
        how.append(cards.MEASURE_ITS_KERF(blade=dado.name))
    return {
        "title": (cards.CHECK_CUT if step.kind == "check cut" else cards.TEST_CUT)(
            marks=step.marks
        ),
        "how": how,
        "points": [point_face(point, card, state, room) for point in card.points],
        "drawing": _drawing(setup, state),
        "before": setup.number,
        "big": _big(setup, state, room),
    }


def _bench(card: Card, _place: int, state: State, room: Room) -> Face:
    step = card.step
    assert step is not None
    title, how = instructed.bench(step, state.plan, room)
    notes: dict[str, Fact] = {}
    if step.kind == "mill":
        pieces = [unit.name for unit in card.units if unit.point is None]
        for name, point in zip(pieces, card.points, strict=False):
            thickness = Length(point.target, state.plan.unit)
            notes[name] = cards.MILLED(thickness=thickness, marks=point.marks)
    return {
        "title": title,
        "how": how,
        "stock": step.kind == "mill",
        "notes": notes,
        "points": [point_face(point, card, state, room) for point in card.points],
    }


def _remake(card: Card, place: int, state: State, room: Room) -> Face:
    title, how = mending(card, place, state, room)
    return {"title": title, "how": how}


_BODY = {
    "standing": _standing,
    "guard": _guard,
    "set": _set,
    "power": _power,
    "work": _work,
    "test": _test,
    "leave": _leave,
    "bench": _bench,
    "remake": _remake,
}
