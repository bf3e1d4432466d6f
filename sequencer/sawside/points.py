"""What is asked of a reading, as facts and numbers, on whichever kind of card it stands."""

from __future__ import annotations

from typing import Any

from sequencer.facts import Length, Unit, cards, measures
from sequencer.instructions.figures import Figure
from sequencer.plan import Checkpoint
from sequencer.saw.measures import FELT
from sequencer.sawside import instructed
from sequencer.sawside.cards import Card
from sequencer.sawside.readings import FLOWS, changes_nothing, followed, mates
from sequencer.sawside.state import State
from sequencer.wording import Room
from sequencer.wording.numbers import SIGNS

Face = dict[str, Any]
"""A document of the page: facts where words will stand, `Words` where paper has them too."""


def figure_face(figure: Figure) -> Face:
    unit: Unit = "mm" if figure.unit == "mm" else "in"
    return {"whole": figure.whole, "top": figure.top, "bottom": figure.bottom,
            "decimal": figure.decimal, "unit": SIGNS[unit]}  # fmt: skip


def point_face(printed: Checkpoint, card: Card, state: State, room: Room) -> Face:
    point, scale = followed(printed, state), state.scale
    step = point.resolution
    return {
        "name": instructed.measured(point.measure),
        "target": scale.read(point.target, step),
        "figure": figure_face(scale.aimed(point.target, step)),
        "low": scale.read(point.low, step),
        "high": scale.read(point.high, step),
        "tool": measures.BY_EYE(target=Length(point.target, scale.unit))
        if point.by_eye
        else cards.READ(by=f"read-by.{point.tool or 'caliper'}"),
        "by_fit": point.tool == "fit",
        "at_most": not point.target and not point.low,
        "feel": point.feel or "",
        "felt": point.measure.what in FELT and point.knob is not None,
        "turns": point.knob is not None,
        "may_stay": point.knob is not None and point.measure in FLOWS,
        "moved": "" if point is printed else cards.AS_ITS_MATE_IS(),
        "alone": _alone(printed, card, state, room),
    }


def _alone(printed: Checkpoint, card: Card, state: State, room: Room) -> Face | None:
    """By what a page that the program does not answer knows a good reading: exact numbers as they
    are printed, the checks that they move with, and what is printed for one that is not good;
    `None` where a good reading changes what comes after."""
    if not changes_nothing(printed, card, state):
        return None
    step = printed.resolution
    return {
        **{name: str(getattr(printed, name)) for name in ("target", "low", "high")},
        "step": None if step is None else str(step),
        "mates": [
            {"card": mate.card, "unit": mate.unit, "share": str(mate.share),
             "target": str(mate.target),
             "had": None if mate.measured is None else str(mate.measured)}
            for mate in mates(printed, state)
        ],
        "printed": instructed.correction(printed, state.plan, room),
    }  # fmt: skip
