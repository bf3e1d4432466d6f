"""What stands on the card for a spoiled piece, stick or test piece: how it is made again."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from typing import Any

from sequencer.plan import Setup, Stick
from sequencer.saw.fittings import CARRIERS
from sequencer.sawside.cards import Card
from sequencer.sawside.spoiled import disturbed, within
from sequencer.sawside.state import Spoiled, State
from sequencer.sheets import words
from sequencer.wording import for_plan, saws


def mending(card: Card, place: int, state: State) -> dict[str, Any]:
    """The card that is number `place` of the state's, as the page gets it."""
    mark = card.units[0].of
    spoiled = state.spoiled.get(mark)
    if spoiled is None:
        return {"title": f"{mark} made again", "how": []}
    how = [f"{mark} was spoiled at {spoiled.label}. Cut a new one now, before you go on."]
    how += _stock(mark, state)
    how += _cuts(spoiled, state)
    how.append(_cost(spoiled.minutes))
    setup = within(state.cards, place)
    if setup is not None:
        how.append(_brought_back(setup, state))
    else:
        how += [
            f"The {knob} had been tried out for what comes next and is moved here: note where it "
            "stands, and try it on scrap again when it is back."
            for knob in disturbed(spoiled.operations, state.cards[place + 1 :], state.plan)
        ]
    return {"title": f"Make {mark} again", "how": how}


def _stock(mark: str, state: State) -> Iterator[str]:
    length = state.scale.length
    for stick in state.plan.sticks:
        if stick.mark == mark:
            left = _left_of(stick, state)
            yield (
                f"Stock: {stick.material}, {length(stick.size.thickness)} thick, to be "
                f"{length(stick.size.width)} wide and at least {length(_long(stick, left))} long, "
                f"for {', '.join(left)}."
            )
        elif any(piece.mark == mark for piece in stick.pieces):
            part = next((p.size.length for p in state.plan.parts if p.mark == mark), None)
            long = part or next(p.size.length for p in state.plan.scrap if p.mark == mark)
            yield (
                f"Stock: {stick.material}, {length(stick.size.thickness)} thick, at least "
                f"{length(long)} long; make it a test stick's length if it is short."
            )


def _left_of(stick: Stick, state: State) -> list[str]:
    """The pieces that are still to come from a stick."""
    marks = [piece.mark for piece in stick.pieces]
    return [mark for mark in marks if f"{mark}/crosscut" not in state.done] or marks


def _long(stick: Stick, left: list[str]) -> Fraction:
    """What of the stick's length the pieces cut from it already do not need any more."""
    starts = [piece.start for piece in stick.pieces if piece.mark in left]
    return stick.size.length - (min(starts) - stick.pieces[0].start)


def _cuts(spoiled: Spoiled, state: State) -> Iterator[str]:
    """Each kind of cut that it had, with the step where it stands."""
    kinds: dict[str, list[str]] = {}
    for card in state.cards:
        if card.step is not None and set(spoiled.operations) & set(card.step.operations):
            kinds.setdefault(card.step.kind, []).append(f"{card.numbered} {card.label}")
    for kind, steps in kinds.items():
        verb = saws.verb(kind, for_plan(state.plan, "page"))
        yield f"{verb} as in {', '.join(dict.fromkeys(steps))}."


def _cost(value: Fraction) -> str:
    near = round(max(value, Fraction(0)))
    if not near:
        return "It costs no setting up."
    return f"About {near} {'minute' if near == 1 else 'minutes'} of setting up more."


def _brought_back(setup: Setup, state: State) -> str:
    length = state.scale.length
    reading = setup.guide if setup.reading is None else setup.reading
    stands = [f"blade height {length(setup.height)}"]
    if reading is not None:
        knob = CARRIERS[setup.carrier].guide_knob(state.plan.shop.jig_rides)
        stands.insert(0, f"{saws.knob(knob, for_plan(state.plan, 'page'))} {length(reading)}")
    way = sentence(saws.guard(setup.guard, for_plan(state.plan, "page")))
    stood = ", ".join([words.blade(setup.cutter), *stands])
    return f"Then set the saw back as it stood: {stood}. {way}"


def sentence(text: str) -> str:
    return f"{text[:1].upper()}{text[1:]}{'' if text.endswith('.') else '.'}"
