"""Readings: text to number, number to answer, and which of them flow on into the rest."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from fractions import Fraction
from typing import Any, cast, get_args

from msgspec import Struct

from sequencer.errors import Refusal
from sequencer.facts import Fact, Length, answers, taps
from sequencer.instructions.spent import along, ends_of, spends
from sequencer.lengths import LengthError, convert, parse
from sequencer.plan import Checkpoint, Plan
from sequencer.records import replace
from sequencer.saw.measures import Measure
from sequencer.saw.measures import What as Kind
from sequencer.sawside.cards import SPREAD, Card, Unit
from sequencer.sawside.corrections import UNITS, Answer, Feel, by_feel, judge
from sequencer.sawside.measurements import Measurement, What, kinds_cut, word_of
from sequencer.sawside.state import State, TapError
from sequencer.trade.fits import FIT_BAND

FLOWS: Mapping[Measure, What] = {
    Measure(Kind.CHANNEL_WIDTH, "slot"): "slot",
    Measure(Kind.CHANNEL_WIDTH, "groove"): "groove",
    Measure(Kind.OPENING_WIDTH): "opening-width",
    Measure(Kind.OPENING_HEIGHT): "opening-height",
}
"""Measures of checkpoints that change what follows, and what they are."""

KERF_OFF = Fraction(1)
"""mm: a kerf farther from the one in the shop file is a slip; ours."""


class Taken(Struct, frozen=True):
    """A reading with its answer; `also_open` names readings that have to be taken again."""

    value: Fraction | None
    answer: Answer
    passes: bool
    also_open: tuple[str, ...] = ()


def take_reading(body: Mapping[str, Any], card: Card, unit: Unit, state: State) -> Taken:
    """Raises `TapError` where it is no length, or so far off that it is questioned."""
    point = followed(card.points[unit.point or 0], state)
    tries = len(state.readings.get((card.key, unit.name), ())) + 1
    if "feel" in body:
        if body["feel"] not in get_args(Feel):
            raise TapError(taps.NO_SUCH_TAP())
        try:
            answer = by_feel(point, cast(Feel, body["feel"]), state.scale)
        except Refusal as error:
            raise TapError(*error.says) from None
        spent = body["feel"] == "loose"
        counted = _counted(answer, tries, point, spent, state)
        return Taken(None, counted, answer.verdict == "good")
    value = read_length(body.get("text"), state)
    if unit.of in SPREAD:
        return _stock(value, point, card, unit, state)
    answer = judge(point, value, state.scale)
    if answer.verdict in ("adjust", "question") and _too_short(point, value, card):
        mark = next((each.of for each in card.units if each.point is None), "")
        length, by = Length(value, state.plan.unit), Length(point.target - value, state.plan.unit)
        short = answers.TOO_SHORT(mark=mark, measured=length, by=by)
        answer = replace(answer, says=(short, *answer.says))
    if answer.verdict in ("adjust", "question") and point.looked_at:
        answer = _looked_at(answer, value, point, state)
    if answer.verdict == "adjust" and body.get("keep") is True and point.measure in FLOWS:
        return Taken(
            value,
            Answer("noted", (answers.LEFT_AS_CUT(measured=Length(value, state.plan.unit)),)),
            True,
        )
    sure = body.get("sure") is True and point.knob is None
    if answer.verdict == "question" and not sure:
        raise TapError(*answer.says)
    if sure:
        says = (each for each in answer.says if each.kind is not answers.NOTHING_CHANGED)
        answer = Answer("noted", tuple(says))
    counted = _counted(answer, tries, point, spends(point, value), state)
    return Taken(value, counted, answer.verdict in ("good", "noted"))


def _looked_at(answer: Answer, value: Fraction, point: Checkpoint, state: State) -> Answer:
    """What is not deep enough is cut again; wood that is off stays off."""
    mark = point.marks[0]
    if value <= point.high:
        return replace(answer, says=(*answer.says, answers.CUT_DEEPER(mark=mark)))
    unit = state.plan.unit
    deep = answers.TOO_DEEP(
        mark=mark, measured=Length(value, unit), by=Length(value - point.target, unit)
    )
    return replace(answer, says=(deep, *answer.says))


def _too_short(point: Checkpoint, value: Fraction, card: Card) -> bool:
    """Whether the first of the pieces came out shorter than is good: wood that is off stays off."""
    return card.kind == "work" and point.measure.what is Kind.LENGTH and value < point.low


def followed(point: Checkpoint, state: State) -> Checkpoint:
    """The check with its numbers moved by as much as what it refers to came out otherwise."""
    found = mates(point, state)
    off = sum(
        (mate.share * (mate.measured - mate.target) for mate in found if mate.measured is not None),
        Fraction(0),
    )
    if not off:
        return point
    return replace(point, target=point.target + off, low=point.low + off, high=point.high + off)


def _good(value: Fraction, point: Checkpoint, state: State) -> bool:
    """Whether it lies in the window, moved as its mates were read."""
    point = followed(point, state)
    return point.low <= value <= point.high


class Mate(Struct, frozen=True):
    """A check that another refers to by a share: where it stands, its target, and what it was last
    read as."""

    card: str
    unit: str
    share: Fraction
    target: Fraction
    measured: Fraction | None


def mates(point: Checkpoint, state: State) -> tuple[Mate, ...]:
    """What the check refers to, on whichever cards that stands."""
    checks = state.plan.checkpoints
    return tuple(mate for n, share in point.refers for mate in _mates(checks[n], share, state))


def _mates(check: Checkpoint, share: Fraction, state: State) -> Iterator[Mate]:
    """Of a strip, the middle between where it is thinnest and thickest."""
    for card in state.cards:
        for unit in card.units:
            point = None if unit.point is None else card.points[unit.point]
            if point is not None and _same(point, check):
                last = _last(state, card, unit.name)
                own = share / len(SPREAD) if unit.of in SPREAD else share
                yield Mate(card.key, unit.name, own, check.target, last)
                if unit.of not in SPREAD:
                    return


def accepted(state: State) -> Iterator[tuple[str, str]]:
    """Card and unit of what was read outside its window and stands so."""
    for card in state.cards:
        yield from ((card.key, unit.name) for unit, point, value in _read(card, state)
                    if not _good(value, point, state))  # fmt: skip


def _read(card: Card, state: State) -> Iterator[tuple[Unit, Checkpoint, Fraction]]:
    """What was read on a card and stands, with its place and its check."""
    for unit in card.units:
        value = None if unit.point is None else _last(state, card, unit.name)
        if unit.point is not None and value is not None:
            yield unit, card.points[unit.point], value


def as_cut(state: State) -> tuple[tuple[str, int, Measurement], ...]:
    """Slots and grooves that are good, and not quite what was planned, each with the event and the
    time of its reading. All that goes by them on the page is told so; what is planned by itself
    later, a piece that is made again, has to be."""
    band = FIT_BAND.of(state.plan.unit) / 2
    found: list[tuple[str, int, Measurement]] = []
    for card in state.cards:
        for unit, point, value in _read(card, state):
            what = FLOWS.get(point.measure)
            if what not in ("slot", "groove") or abs(value - point.exact) <= band:
                continue
            if _good(value, point, state):
                last = state.readings[card.key, unit.name][-1]
                seen = Measurement(what, "", point.exact, value, kinds_cut(state.done))
                found.append((last.event, last.at, seen))
    return tuple(found)


def changes_nothing(point: Checkpoint, card: Card, state: State) -> bool:
    """Whether any reading within the window is good by itself: it is believed, and neither it nor
    what else was read on the card is worked into the rest of the plan."""
    ends = [judge(point, value, state.scale).verdict for value in (point.low, point.high)]
    if ends != ["good", "good"]:
        return False
    names = {unit.of if card.kind == "bench" else "" for unit in card.units}
    if card.step is not None and card.step.kind == "mill":
        taken: What | None = "panel" if _is_panel(point, state.plan) else "thickness"
        names = {""}
    else:
        taken = FLOWS.get(point.measure)
    if taken and any(_taken_as(taken, name, point.exact, state) != point.exact for name in names):
        return False
    return all(_good(value, read, state) for _, read, value in _read(card, state))


def as_wanted(state: State, key: object) -> Iterator[dict[str, Any]]:
    """The readings that the card still asks for, as a page would send them, each on its target."""
    for card in state.cards:
        for unit in card.units if card.key == key else ():
            if unit.point is None or state.status(card, unit) != "open":
                continue
            point = followed(card.points[unit.point], state)
            text = state.scale.read(point.target, point.resolution)
            value = {"feel": "fits"} if point.tool == "fit" else {"text": text}
            yield {"kind": "read", "card": card.key, "unit": unit.name, **value}


def _same(one: Checkpoint, other: Checkpoint) -> bool:
    return (one.measure, one.exact, one.scrap) == (other.measure, other.exact, other.scrap)


def read_length(text: object, state: State) -> Fraction:
    if not isinstance(text, str):
        raise TapError(taps.NO_NUMBER())
    typed = text.strip().replace("⁄", "/")
    if re.match(r"\.\d", typed):
        typed = f"0{typed}"  # a caliper's .262; a job file is asked for its nought
    try:
        return parse(typed, state.plan.unit)
    except LengthError as error:
        raise TapError(taps.NO_LENGTH(message=error.message, hint=error.hint)) from None


def _counted(answer: Answer, tries: int, point: Checkpoint, spent: bool, state: State) -> Answer:
    """With the number of the try, and where on the test piece to cut the next; `spent`: not in the
    same place, since too much is gone there."""
    if answer.verdict == "good" and tries > 1:
        return Answer("good", (*answer.says, answers.TRY(n=tries)))
    if answer.verdict != "adjust":
        return answer
    says = [*answer.says, answers.TRY(n=tries)]
    if point.scrap:
        says.append(_next_place(point, point.scrap, state) if spent else answers.CUT_AGAIN())
    return Answer("adjust", tuple(says), answer.move)


def _next_place(point: Checkpoint, scrap: str, state: State) -> Fact:
    ends = ends_of(state.plan, scrap)
    carrier = next(each.carrier for each in state.plan.setups if each.number == point.setup)
    if ends is None or along(carrier):
        return answers.EDGE_SPENT()
    between = point.measure.what is Kind.SHOULDERS
    if not ends.times and not between:
        return answers.LAST_SPENT()
    kind = answers.BOTH_SPENT if between else answers.END_SPENT
    return kind(off=Length(ends.off, state.plan.unit), n=ends.times)


def _stock(value: Fraction, point: Checkpoint, card: Card, unit: Unit, state: State) -> Taken:
    """Thinnest and thickest of one stock: each believable, and together within the spread."""
    answer = judge(point, value, state.scale)
    if answer.verdict == "question":
        raise TapError(*answer.says)
    length = Length(value, state.plan.unit)
    names = [f"m{unit.point}@{how}" for how in SPREAD]
    others = [state.readings.get((card.key, name), []) for name in names if name != unit.name]
    other = others[0][-1].value if others[0] else None
    done = all(state.units.get((card.key, name)) == "done" for name in names if name != unit.name)
    if other is None or not done:
        return Taken(value, Answer("noted", (answers.STOCK_NOTED(at=unit.of, value=length),)), True)
    spread, most = abs(value - other), point.high - point.low
    if spread > most:
        off, limit = Length(spread, state.plan.unit), Length(most, state.plan.unit)
        uneven = answers.STOCK_UNEVEN(spread=off, most=limit)
        return Taken(value, Answer("adjust", (uneven,)), False, tuple(names))
    return Taken(value, Answer("good", (answers.STOCK_EVEN(at=unit.of, value=length),)), True)


def relied_on(state: State, place: int) -> bool:
    """Whether anything was cut with the setting that the card tries out."""
    for other in state.cards[place + 1 :]:
        if other.kind in ("guard", "set"):
            return False
        made = other.step.operations if other.step and other.kind == "work" else ()
        if any(operation in state.done for operation in made):
            return True
    return False


def measurements_of(card: Card, state: State, cut: frozenset[str]) -> list[Measurement]:
    """What the last readings of a card make known, each against what it was taken to be. What is
    good changes nothing: the windows are as wide as the rest can bear."""
    found: list[Measurement] = []
    for number, point in enumerate(card.points):
        if card.step is not None and card.step.kind == "mill":
            found += _thickness(number, point, card, state, cut)
            continue
        what = FLOWS.get(point.measure)
        if what is None:
            continue
        for unit in card.units:
            reading = _last(state, card, unit.name) if unit.point == number else None
            if reading is None:
                continue
            name = unit.of if card.kind == "bench" else ""
            taken = _taken_as(what, name, point.exact, state)
            # One that was kept before, though it was not good, is made good by a later one.
            if taken != point.exact or not _good(reading, point, state):
                found.append(Measurement(what, name, taken, reading, cut))
    return found


def _thickness(
    number: int, point: Checkpoint, card: Card, state: State, cut: frozenset[str]
) -> list[Measurement]:
    both = [_last(state, card, f"m{number}@{how}") for how in SPREAD]
    if None in both:
        return []
    middle = sum((value for value in both if value is not None), Fraction(0)) / 2
    what: What = "panel" if _is_panel(point, state.plan) else "thickness"
    taken = _taken_as(what, "", point.exact, state)
    good = all(value is not None and point.low <= value <= point.high for value in both)
    return [] if good and taken == point.exact else [Measurement(what, "", taken, middle, cut)]


def _last(state: State, card: Card, unit: str) -> Fraction | None:
    readings = state.readings.get((card.key, unit), [])
    if state.units.get((card.key, unit)) != "done" or not readings:
        return None
    return readings[-1].value


def _taken_as(what: What, name: str, planned: Fraction, state: State) -> Fraction:
    """What a planned number is taken to be by now: measured before, or still as planned."""
    value = planned
    for seen in state.measurements:
        if (seen.what, seen.name, seen.planned) == (what, name, value):
            value = seen.measured
    return value


def _is_panel(point: Checkpoint, plan: Plan) -> bool:
    panels = {part.mark for part in plan.parts if part.role == "panel"}
    on = {p.mark for s in plan.sticks if s.mark in point.marks for p in s.pieces}
    return bool(on) and on <= panels


def widths_standing(state: State) -> frozenset[str]:
    """The kinds of feature whose width stands: begun, or tried on scrap and accepted."""
    tried = {
        card.points[unit.point].measure
        for card in state.cards
        if card.kind == "test"
        for unit in card.units
        if unit.point is not None and state.units.get((card.key, unit.name)) == "done"
    }
    widths = (Kind.CHANNEL_WIDTH, Kind.CHANNEL_WALL)
    return kinds_cut(state.done).union(each.place for each in tried if each.what in widths)


def measurable(state: State) -> list[tuple[What, str, Fraction]]:
    """What may be measured at any time: what it is, its name, and what it is taken to be."""
    kerfs = {setup.cutter: setup.kerf for setup in state.plan.setups}
    panels = {p.size.thickness: None for p in state.plan.parts if p.role == "panel"}
    found: list[tuple[What, str, Fraction]] = [("kerf", name, kerf) for name, kerf in kerfs.items()]
    return found + [("panel", str(thickness), thickness) for thickness in panels]


def take_measure(
    body: Mapping[str, Any], state: State, cut: frozenset[str]
) -> tuple[Measurement, Fact]:
    """A kerf or a panel measured by itself, and the answer. Raises `TapError` as a reading does."""
    named = {(what, name): taken for what, name, taken in measurable(state)}
    what, name = cast(What, str(body.get("what"))), str(body.get("name"))
    planned = named.get((what, name))
    if planned is None:
        raise TapError(taps.NOTHING_TO_MEASURE())
    value = read_length(body.get("text"), state)
    scale = state.scale
    both = {"measured": Length(value, scale.unit), "before": Length(planned, scale.unit)}
    if abs(value - planned) > convert(KERF_OFF, "mm", scale.unit):
        never = answers.NEVER_SO_FAR(**both, what=word_of(what), unit=UNITS[scale.unit])
        raise TapError(never, answers.NOTHING_CHANGED())
    name = name if what == "kerf" else ""
    if abs(value - planned) <= FIT_BAND.of(scale.unit) / 2:
        # A test cut takes it up.
        return Measurement(what, name, planned, planned, cut), answers.NOTED_ALIKE(**both)
    return Measurement(what, name, planned, value, cut), answers.NOTED(**both)
