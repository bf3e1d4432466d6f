"""What was measured flows on: the rest is planned again, numbered, and put behind what is done."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence

from sequencer.errors import InternalError, SequencerError
from sequencer.facts import Fact, Kind, answers, cards
from sequencer.plan import Plan, Setup
from sequencer.records import replace
from sequencer.sawside.cards import Card, Unit
from sequencer.sawside.measurements import Measurement, word_of
from sequencer.sawside.rest import HALF, number, rest_of
from sequencer.sawside.spoiled import put_again
from sequencer.sawside.state import Planner, Request, State, TapError
from sequencer.setups.halfway import Past, standing
from sequencer.shelf import Shelf


def flow_on(state: State, measurements: list[Measurement], planner: Planner) -> None:
    """Work measured values into the rest; where that cannot be, say so and leave the plan."""
    wanted = [*state.measurements, *measurements]
    base = state.base
    known = frozenset(placed.operation for placed in state.plan.ordering.order)
    glued = {each.mark: each.boards for each in state.plan.sticks if each.boards is not None}
    past = Past(tuple(state.done.values()), dict(state.held), known, glued)
    shelf = Shelf.of(base.plan.reused, base.plan.unit, base.plan.scales)
    given = replace(base.given, saved=shelf, past=past)
    request = Request(given, base.choices, tuple(wanted))
    what = tuple(dict.fromkeys(word_of(seen.what) for seen in measurements))
    try:
        plan = planner.remake(base.digest, request)
    except SequencerError as error:
        cannot = answers.CANNOT_FOLLOW(what=what, why=_why(error))
        state.trouble = (cannot, answers.LEFT_AS_IT_WAS())
        state.says += state.trouble
        return
    state.measurements = wanted
    state.trouble = ()
    _take_over(state, plan, what)


def _why(error: SequencerError) -> Fact:
    """What of it a person at the saw can use: the numbers of a plan that is not taken mean nothing
    to them."""
    if not isinstance(error, InternalError):
        return answers.REST_CANNOT(says=error.says)
    found = error.says[0]
    if {"kind", "piece"} <= found.given.keys():
        cut = answers.A_TERM(term=str(found.given["kind"]))
        return answers.CONTRADICTS_AT(cut=cut, mark=str(found.given["piece"]))
    return answers.CONTRADICTS()


def _take_over(state: State, plan: Plan, what: tuple[str, ...]) -> None:
    front, before = _split(state)
    rest = rest_of(plan, frozenset(state.done), state.held)
    unread = (card for card in before if card.kind == "standing")
    rest = tuple(_not_ticked_yet((*unread, *_as_they_stand(rest, before)), front))
    rest = tuple(_told_apart(rest, front))
    done = number(front, before, rest, state.letters)
    had = {card.key for card in before}
    changed = [c for c in done.cards if c.numbered and c.key.removesuffix(HALF) not in had]
    for knob, value in standing(state.held, plan).items():
        if state.held[knob].passed:
            state.held[knob] = replace(state.held[knob], value=value)
    state.plan = plan
    state.cards = [*front, *done.cards]
    state.now = len(front)
    state.letters = done.letters
    state.gone += done.gone
    _again(state)
    for card in before:
        if card.key not in {new.key for new in done.cards}:
            for unit in card.units:
                state.units.pop((card.key, unit.name), None)
    if changed or done.gone:
        state.says.append(answers.REST_FOLLOWS(what=what))
    else:
        state.says.append(answers.CHANGES_NOTHING())
    if done.gone:
        state.says.append(answers.NO_LONGER_HOLD(places=together(done.gone)))


def _as_they_stand(rest: Iterable[Card], before: Sequence[Card]) -> Iterator[Card]:
    """Steps of the setup that the saw stands in stay the steps they were: nothing is set for them,
    whatever the number is called by now. The same goes for what is left of one."""
    stands = True
    taken: set[str] = set()  # the plan may have made two steps of one
    for card in rest:
        stands = stands and card.kind not in ("guard", "set")
        if not stands or card.kind not in ("work", "bench") or card.step is None:
            yield card
            continue
        left = card.step.operations
        for old in before:
            were = old.step.operations if old.step and old.kind == card.kind else ()
            if old.key in taken or not set(left) <= set(were):
                continue
            taken.add(old.key)
            yield replace(card, key=old.key if were == left else f"{old.key}{HALF}")
            break
        else:
            yield card


def _not_ticked_yet(rest: Iterable[Card], front: Sequence[Card]) -> Iterator[Card]:
    """Before power is on with settings that stand, only what was not ticked since they were set."""
    ticked: set[str] = set()
    for card in front:
        ticked = _ticked_after(card, ticked)
    for card in rest:
        asked = tuple(unit for unit in card.units if unit.name not in ticked)
        ticked = _ticked_after(card, ticked)
        if card.kind != "power":
            yield card
        elif asked:
            yield replace(card, units=asked)


def _ticked_after(card: Card, ticked: set[str]) -> set[str]:
    if card.kind == "power":
        return ticked | {unit.name for unit in card.units}
    return set() if card.kind == "set" else ticked


def _told_apart(rest: Iterable[Card], front: Sequence[Card]) -> Iterator[Card]:
    """What is set a second time, because the saw was used for something else in between, goes by
    another key than the first time; what was tried out or passed over, and still stands, does not
    come again."""
    had = {card.key for card in front}
    anew: Setup | None = None
    for card in rest:
        if card.kind == "set":
            anew = card.setup
        if card.key not in had:
            yield card
        elif card.kind != "test" or card.setup is anew:
            times = 2
            while f"{card.key}+{times}" in had:
                times += 1
            yield replace(card, key=f"{card.key}+{times}")


def together(gone: Iterable[Fact]) -> tuple[Fact, ...]:
    """Steps and setups, each kind as one: `steps 13, 14`, `setup 8`."""
    labels: dict[Kind, list[str]] = {}
    for each in gone:
        labels.setdefault(each.kind, []).append(str(each.given["label"]))
    many = {cards.STEP: cards.STEPS, cards.SETUP: cards.SETUPS}
    return tuple(many[kind](n=len(found), labels=tuple(found)) for kind, found in labels.items())


def _split(state: State) -> tuple[list[Card], list[Card]]:
    """Cards that stay as they are, and what they were followed by. Of a card that is half done the
    done half stays."""
    front: list[Card] = []
    before: list[Card] = []
    for place, card in enumerate(state.cards):
        if place >= state.now and not any(_kept(state, card, unit) for unit in card.units):
            before.append(card)
            continue
        kept = tuple(unit for unit in card.units if _kept(state, card, unit))
        if place < state.now or card.kind in ("work", "bench") or state.complete(card):
            if kept:
                front.append(card if kept == card.units else replace(card, units=kept))
            if len(kept) < len(card.units) and place >= state.now:
                before.append(card)
        else:
            before.append(card)
    return front, before


def _kept(state: State, card: Card, unit: Unit) -> bool:
    """What was cut, and what was measured or passed over there; a skipped cut comes again."""
    status = state.units.get((card.key, unit.name))
    return status == "done" or (status == "skipped" and unit.point is not None)


def _again(state: State) -> None:
    """The cards for what is to be made again, put back where that is cheapest now."""
    for spoiled in list(state.spoiled.values()):
        card = Card(spoiled.card, "remake", "", (Unit("made", spoiled.mark),))
        try:
            put_again(state, spoiled.mark, spoiled.at, card)
        except TapError:  # a test piece that is not needed any more
            del state.spoiled[spoiled.mark]
