"""What stands on the card for a spoiled piece, stick or test piece: how it is made again."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from sequencer.facts import Fact, Length, Words, cards, mendings
from sequencer.plan import Setup, Stick
from sequencer.sawside import instructed
from sequencer.sawside.cards import Card
from sequencer.sawside.corrections import setting_of
from sequencer.sawside.spoiled import disturbed, within
from sequencer.sawside.state import Spoiled, State
from sequencer.wording import Room


def mending(card: Card, place: int, state: State, room: Room) -> tuple[Fact, list[Fact | Words]]:
    """Title and lines of the card that is number `place` of the state's."""
    mark = card.units[0].of
    spoiled = state.spoiled.get(mark)
    if spoiled is None:
        return mendings.MADE_AGAIN(mark=mark), []
    how: list[Fact | Words] = [mendings.SPOILED_AT(mark=mark, at=spoiled.at)]
    how += _stock(mark, state)
    how += _cuts(spoiled, state, room)
    how.append(_cost(spoiled.minutes))
    setup = within(state.cards, place)
    if setup is not None:
        how += _brought_back(setup, state, room)
    else:
        how += [
            mendings.TRIED_AND_MOVED(setting=setting_of(knob))
            for knob in disturbed(spoiled.operations, state.cards[place + 1 :], state.plan)
        ]
    return mendings.MAKE_AGAIN(mark=mark), how


def _stock(mark: str, state: State) -> Iterator[Fact]:
    unit = state.plan.unit
    for stick in state.plan.sticks:
        thickness = Length(stick.size.thickness, unit)
        if stick.mark == mark:
            left = _left_of(stick, state)
            yield mendings.STRIP(
                material=stick.material,
                thickness=thickness,
                width=Length(stick.size.width, unit),
                length=Length(_long(stick, left), unit),
                marks=tuple(left),
            )
        elif any(piece.mark == mark for piece in stick.pieces):
            part = next((p.size.length for p in state.plan.parts if p.mark == mark), None)
            long = part or next(p.size.length for p in state.plan.scrap if p.mark == mark)
            yield mendings.PIECE(
                material=stick.material, thickness=thickness, length=Length(long, unit)
            )


def _left_of(stick: Stick, state: State) -> list[str]:
    """The pieces that are still to come from a stick; itself, where it is a test piece whole."""
    marks = [piece.mark for piece in stick.pieces] or [stick.mark]
    return [mark for mark in marks if f"{mark}/crosscut" not in state.done] or marks


def _long(stick: Stick, left: list[str]) -> Fraction:
    """What of the stick's length the pieces cut from it already do not need any more."""
    if not stick.pieces:
        return stick.size.length
    starts = [piece.start for piece in stick.pieces if piece.mark in left]
    return stick.size.length - (min(starts) - stick.pieces[0].start)


def _cuts(spoiled: Spoiled, state: State, room: Room) -> Iterator[Fact]:
    """Each kind of cut that it had, with the step where it stands."""
    kinds: dict[str, list[Fact]] = {}
    for card in state.cards:
        if card.step is not None and set(spoiled.operations) & set(card.step.operations):
            kinds.setdefault(card.step.kind, []).append(card.where)
    for kind, places in kinds.items():
        yield mendings.AS_IN(verb=instructed.verb(kind, room), places=tuple(dict.fromkeys(places)))


def _cost(value: Fraction) -> Fact:
    near = round(max(value, Fraction(0)))
    return mendings.SETTING_UP(n=near) if near else mendings.NO_SETTING_UP()


def _brought_back(setup: Setup, state: State, room: Room) -> Iterator[Fact | Words]:
    unit = state.plan.unit
    reading = setup.guide if setup.reading is None else setup.reading
    stands = [mendings.STOOD_AT(setting=cards.HEIGHT(), at=Length(setup.height_shown, unit))]
    if reading is not None:
        guide = instructed.guide(setup, state.plan, room)
        stands.insert(0, mendings.STOOD_AT(setting=guide, at=Length(reading, unit)))
    yield mendings.SET_BACK(
        blade=instructed.blade(setup.cutter, state.plan, room), settings=tuple(stands)
    )
    between = instructed.between(setup, state.plan, room)
    if between is not None:
        yield between
    yield instructed.guard(setup, state.plan, room)
